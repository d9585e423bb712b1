#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/calibration/uncertainty_ellipse.hpp>
#include <random>

namespace colorlib {
namespace {

TEST(UncertaintyEllipse, AxesOfADiagonalCovariance) {
  const auto ellipse = ellipse_ab(Matrix3::diagonal(9, 4, 1));
  EXPECT_NEAR(ellipse.long_axis, 2 * std::sqrt(5.991464547), 1e-9);
  EXPECT_NEAR(ellipse.short_axis, std::sqrt(5.991464547), 1e-9);
  EXPECT_NEAR(ellipse.angle_rad, 0, 1e-12);
  EXPECT_NEAR(std::abs(ellipse_ab(Matrix3::diagonal(0, 1, 4)).angle_rad), std::acos(0.0), 1e-12);
}

TEST(UncertaintyEllipse, HoldsNinetyFivePercent) {
  const Matrix3 covariance{{1, 0, 0, 0, 2.0, 1.1, 0, 1.1, 1.3}};
  const auto ellipse = ellipse_ab(covariance);
  // Cholesky of the a, b block.
  const double l11 = std::sqrt(2.0), l21 = 1.1 / l11, l22 = std::sqrt(1.3 - l21 * l21);
  std::mt19937 random(20261125);
  std::normal_distribution<double> normal;
  constexpr int trials = 100'000;
  int inside = 0;
  for (int i = 0; i < trials; ++i) {
    const double u = normal(random), v = normal(random);
    const double a = l11 * u, b = l21 * u + l22 * v;
    const double x = a * std::cos(ellipse.angle_rad) + b * std::sin(ellipse.angle_rad);
    const double y = -a * std::sin(ellipse.angle_rad) + b * std::cos(ellipse.angle_rad);
    inside += std::pow(x / ellipse.long_axis, 2) + std::pow(y / ellipse.short_axis, 2) <= 1;
  }
  EXPECT_NEAR(inside / static_cast<double>(trials), 0.95, 0.003);  // four standard deviations of the share
}

}  // namespace
}  // namespace colorlib
