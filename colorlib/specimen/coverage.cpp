#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/coverage.hpp>

namespace colorlib {
namespace {

constexpr double least_contrast = 12;  // CIE76 between deposit and ground; noise of a pixel is up to 3
constexpr double bare_from = 0.45;  // of the way from deposit to ground: the lens blurs gaps more than lines
constexpr double most_scatter = 0.25;  // of that way: robust sd of the deposit's own pixels
constexpr double beyond_ground = 1.5;  // the same: further on lies no ground but mirrored light
constexpr int rounds = 4;

double squared(const Vector3& v) { return v[0] * v[0] + v[1] * v[1] + v[2] * v[2]; }

Vector3 difference(const Vector3& a, const Vector3& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }

/// By coordinate, of the colours that `counts` names by index.
template <class Counts>
std::optional<Vector3> median_of(const std::vector<Vector3>& xyz, const Counts& counts) {
  Vector3 middle{};
  for (std::size_t k = 0; k < 3; ++k) {
    std::vector<double> values;
    for (std::size_t i = 0; i < xyz.size(); ++i)
      if (counts(i)) values.push_back(xyz[i][k]);
    if (values.empty()) return std::nullopt;
    middle[k] = median(std::move(values));
  }
  return middle;
}

/// The quarter of the pixels that is least like the ground: deposit, if any is.
std::optional<Vector3> least_like(const std::vector<Vector3>& xyz, const Vector3& ground) {
  std::vector<double> away;
  for (const Vector3& one : xyz) away.push_back(squared(difference(one, ground)));
  auto sorted = away;
  const auto quarter = sorted.begin() + static_cast<std::ptrdiff_t>(3 * sorted.size() / 4);
  std::nth_element(sorted.begin(), quarter, sorted.end());
  return median_of(xyz, [&, least = *quarter](std::size_t i) { return away[i] >= least; });
}

/// Robust standard deviation of what is not bare about 0, its middle.
double scatter_of(const std::vector<double>& gone_share, const std::vector<bool>& is_bare) {
  std::vector<double> sizes;
  for (std::size_t i = 0; i < gone_share.size(); ++i)
    if (!is_bare[i]) sizes.push_back(std::abs(gone_share[i]));
  return 1.4826 * median(std::move(sizes));
}

}  // namespace

std::optional<double> coverage_share(const Calibration& calibration, std::span<const SheetPixel> pixels,
                                     const Xyz& ground) {
  if (pixels.empty()) return std::nullopt;
  std::vector<Vector3> xyz;
  xyz.reserve(pixels.size());
  for (const SheetPixel& pixel : pixels) xyz.push_back(vector_from(calibration.xyz_from_pixel(pixel)));
  const Vector3 bare = vector_from(ground);
  auto covered = least_like(xyz, bare);
  std::vector<bool> is_bare(xyz.size());
  std::vector<double> gone_share(xyz.size());
  for (int round = 0; round < rounds && covered; ++round) {
    const Lab deposit = lab_from_xyz(xyz_from(*covered), white_d50);
    if (difference_cie76(deposit, lab_from_xyz(ground, white_d50)) < least_contrast) return std::nullopt;
    const Vector3 way = difference(bare, *covered);
    for (std::size_t i = 0; i < xyz.size(); ++i) {
      const Vector3 gone = difference(xyz[i], *covered);
      gone_share[i] = (gone[0] * way[0] + gone[1] * way[1] + gone[2] * way[2]) / squared(way);
      is_bare[i] = gone_share[i] > bare_from && gone_share[i] < beyond_ground;
    }
    covered = median_of(xyz, [&](std::size_t i) { return !is_bare[i]; });
  }
  if (!covered) return std::nullopt;
  if (scatter_of(gone_share, is_bare) > most_scatter) return std::nullopt;
  return 1 - static_cast<double>(std::count(is_bare.begin(), is_bare.end(), true)) /
                 static_cast<double>(is_bare.size());
}

}  // namespace colorlib
