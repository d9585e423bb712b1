#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/colorimetry/median_color.hpp>
#include <colorlib/specimen/foreign_matter.hpp>
#include <limits>
#include <vector>

namespace colorlib {
namespace {

constexpr int steps = 6;
constexpr double least_variance = 0.5;  // of a coordinate: rounding to 8 bits
constexpr double core_share = 0.75;     // of the pixels the deposit's own spread is learnt from
// The variance of the nearest three quarters of a normal distribution in three dimensions is this much
// smaller: P(chi2_5 < q) / 0.75 with P(chi2_3 < q) = 0.75.
constexpr double nearest_variance = 0.466 / core_share;

Eigen::Vector3d point(const Lab& lab) { return {lab.l, lab.a, lab.b}; }

/// The distance from the mixtures of two colours: light adds up in XYZ.
double beside_mixtures(const Lab& lab, const Lab& deposit, const Xyz& ground) {
  const Xyz own = xyz_from_lab(deposit, white_d50);
  double least = std::numeric_limits<double>::max();
  constexpr int parts = 12;
  for (int i = 0; i <= parts; ++i) {
    const double t = static_cast<double>(i) / parts;
    const Lab mixture = lab_from_xyz(
        {std::lerp(own.x, ground.x, t), std::lerp(own.y, ground.y, t), std::lerp(own.z, ground.z, t)},
        white_d50);
    least = std::min(least, difference_cie76(lab, mixture));
  }
  return least;
}

}  // namespace

std::optional<OwnColors> OwnColors::beside_foreign(std::span<const Lab> pixels, const Xyz& ground,
                                                   const ForeignLimits& limits) {
  if (pixels.size() < limits.least_pixels) return std::nullopt;
  OwnColors own;
  own.limits_ = limits;
  own.ground_ = ground;
  Eigen::Vector3d middle = point(median_color(pixels));
  Eigen::Matrix3d inverse = Eigen::Matrix3d::Identity();
  const auto core = static_cast<std::size_t>(core_share * static_cast<double>(pixels.size()));
  std::vector<std::pair<double, std::size_t>> nearest(pixels.size());
  for (int step = 0; step < steps; ++step) {
    for (std::size_t i = 0; i < pixels.size(); ++i) {
      const Eigen::Vector3d away = point(pixels[i]) - middle;
      nearest[i] = {away.dot(inverse * away), i};
    }
    std::nth_element(nearest.begin(), nearest.begin() + static_cast<std::ptrdiff_t>(core), nearest.end());
    const double share = 1 / static_cast<double>(core);
    middle.setZero();
    for (std::size_t i = 0; i < core; ++i) middle += share * point(pixels[nearest[i].second]);
    Eigen::Matrix3d spread = Eigen::Matrix3d::Zero();
    for (std::size_t i = 0; i < core; ++i) {
      const Eigen::Vector3d away = point(pixels[nearest[i].second]) - middle;
      spread += share / nearest_variance * away * away.transpose();
    }
    inverse = (spread + least_variance * Eigen::Matrix3d::Identity()).inverse();
  }
  own.middle_ = {middle[0], middle[1], middle[2]};
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j) own.inverse_spread_(i, j) = inverse(i, j);

  double beyond = 0, between = 0;
  for (const Lab& lab : pixels) {
    const double strange = own.strangeness(lab);
    beyond += strange > 1;
    between += strange > limits.near_share && strange <= 1;
  }
  if (beyond == 0 || between > limits.most_between * beyond ||
      beyond > limits.most_share * static_cast<double>(pixels.size()))
    return std::nullopt;
  return own;
}

double OwnColors::strangeness(const Lab& lab) const {
  const Vector3 away{lab.l - middle_.l, lab.a - middle_.a, lab.b - middle_.b};
  const Vector3 turned = inverse_spread_ * away;
  const double spreads = std::sqrt(away[0] * turned[0] + away[1] * turned[1] + away[2] * turned[2]);
  const double strange =
      std::min(difference_cie76(lab, middle_) / limits_.least_lab, spreads / limits_.spreads);
  const bool matters = strange > limits_.near_share;
  return matters && beside_mixtures(lab, middle_, ground_) < limits_.beside_ground_lab ? 0 : strange;
}

}  // namespace colorlib
