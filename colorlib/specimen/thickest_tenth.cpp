#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/sheet_cells_internal.hpp>
#include <colorlib/specimen/thickest_tenth.hpp>
#include <numeric>

namespace colorlib {
namespace {

constexpr std::size_t tenths = 10;

Vector3 operator-(const Vector3& a, const Vector3& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }

/// Of the cells that `order` names, as far as `count`: light adds up, so XYZ is averaged.
Lab mean_of(const std::vector<Cell>& cells, const std::vector<std::size_t>& order, std::size_t count) {
  Vector3 sum{};
  for (std::size_t i = 0; i < count; ++i) {
    const Vector3 xyz = vector_from(xyz_from_lab(cells[order[i]].lab, white_d50));
    for (std::size_t k = 0; k < 3; ++k) sum[k] += xyz[k] / static_cast<double>(count);
  }
  return lab_from_xyz(xyz_from(sum), white_d50);
}

/// The share of the cells' spread along `way` that noise alone would make.
double noise_share(const std::vector<double>& along, const Vector3& way, const Vector3& noise) {
  const double mean = std::accumulate(along.begin(), along.end(), 0.0) / static_cast<double>(along.size());
  double variance = 0, by_noise = 0;
  for (const double value : along)
    variance += (value - mean) * (value - mean) / static_cast<double>(along.size());
  for (std::size_t k = 0; k < 3; ++k) by_noise += way[k] * way[k] * noise[k] * noise[k];
  return by_noise < variance ? by_noise / variance : 1;
}

ThickestTenth tenth_at(const Lab& lab, const Vector3& away, const Matrix3& covariance) {
  ThickestTenth tenth;
  tenth.lab = {lab.l + away[0], lab.a + away[1], lab.b + away[2]};
  tenth.lab_covariance = covariance;
  tenth.lab_expanded = expanded_uncertainty(covariance);
  tenth.de00_expanded = expanded_de00(tenth.lab, covariance);
  tenth.de00_from_mean = difference_ciede2000(tenth.lab, lab);
  return tenth;
}

}  // namespace

std::optional<ThickestTenth> thickest_tenth(const std::vector<Cell>& cells, const BareGround& ground,
                                            const Lab& lab, const Matrix3& lab_covariance, const Namer& namer,
                                            const TenthOptions& options) {
  if (cells.size() < options.least_cells) return std::nullopt;
  if (difference_cie76(lab, ground.color.lab) < options.least_contrast) return std::nullopt;
  const WayFromGround way(cells, ground.color.xyz);
  std::vector<double> along;
  for (const Cell& cell : cells) along.push_back(way.along(cell));
  std::vector<std::size_t> order(cells.size());
  std::iota(order.begin(), order.end(), 0);
  std::sort(order.begin(), order.end(), [&](std::size_t i, std::size_t j) { return along[i] > along[j]; });
  const Vector3 away = vector_from(mean_of(cells, order, cells.size() / tenths)) -
                       vector_from(mean_of(cells, order, cells.size()));
  const double not_known = std::hypot(options.blur_share, noise_share(along, way.way, ground.noise));
  Matrix3 covariance = lab_covariance + not_known * not_known * outer(away);
  const Vector3 weight = ciede2000_axis_weights(lab);
  for (int k = 0; k < 3; ++k)
    covariance(k, k) += std::pow(options.own_sd_de00 * weight[static_cast<std::size_t>(k)], 2);
  ThickestTenth tenth = tenth_at(lab, away, covariance);
  tenth.words = namer.describe(tenth.lab, tenth.lab_covariance, {NameLevel::full, TermKind::deposit});
  return tenth;
}

std::optional<ThickestTenth> mean_tenth(const std::vector<const Reading*>& readings, const Lab& lab,
                                        const Matrix3& lab_covariance) {
  if (readings.empty()) return std::nullopt;
  Vector3 away{};
  Matrix3 covariance = lab_covariance;
  const double share = 1 / static_cast<double>(readings.size());
  for (const Reading* reading : readings) {
    if (!reading->tenth) return std::nullopt;
    const Vector3 own = vector_from(reading->tenth->lab) - vector_from(reading->lab);
    for (std::size_t k = 0; k < 3; ++k) away[k] += share * own[k];
    covariance = covariance + share * (reading->tenth->lab_covariance + -1.0 * reading->lab_covariance);
  }
  return tenth_at(lab, away, covariance);
}

}  // namespace colorlib
