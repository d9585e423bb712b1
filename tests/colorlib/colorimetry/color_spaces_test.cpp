#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <cstdio>
#include <limits>
#include <random>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

constexpr unsigned seed = 20310409;
constexpr double largest = std::numeric_limits<double>::max();

double largest_component(const Lab& lab) {
  return std::max({std::abs(lab.l), std::abs(lab.a), std::abs(lab.b)});
}

bool all_finite(const Lab& lab) {
  return std::isfinite(lab.l) && std::isfinite(lab.a) && std::isfinite(lab.b);
}

TEST(LabFromXyz, WhiteAndBlack) {
  EXPECT_EQ(lab_from_xyz(white_d50, white_d50), (Lab{100, 0, 0}));
  // 116 * 4/29 - 16 is 0 up to one rounding.
  EXPECT_LT(largest_component(lab_from_xyz({0, 0, 0}, white_d50)), 1e-14);
}

TEST(LabFromXyz, ReturnsThroughItsInverse) {
  constexpr int trials = 200'000;
  std::mt19937_64 generator(seed);
  // Below 0 as well: noise around black, and colours outside the gamut of surfaces.
  std::uniform_real_distribution<double> lightness(-5, 110), chromatic(-128, 128);
  double worst = 0;
  for (int trial = 0; trial < trials; ++trial) {
    const Lab lab{lightness(generator), chromatic(generator), chromatic(generator)};
    worst = std::max(worst, difference_cie76(lab_from_xyz(xyz_from_lab(lab, white_c), white_c), lab));
  }
  std::printf("seed %u, %d colours: worst Lab distance after Lab to XYZ to Lab %.2e\n", seed, trials, worst);
  // a* and b* are differences of numbers near 1 times 500 and 200: 500 * a few 1e-16.
  EXPECT_LT(worst, 1e-12);
}

TEST(LabFromXyz, IsSmoothWhereTheCurveMeetsItsStraightPiece) {
  const double join = 216.0 / 24389.0;
  const Lab below = lab_from_xyz({0, join * (1 - 1e-9), 0}, white_d65);
  const Lab above = lab_from_xyz({0, join * (1 + 1e-9), 0}, white_d65);
  EXPECT_NEAR(below.l, 8.0, 1e-7);
  // Value and slope agree there: L* rises by 24389/27 = 903.3 a unit of Y on both sides.
  EXPECT_NEAR((above.l - below.l) / (2e-9 * join), 24389.0 / 27.0, 1e-2);
}

TEST(LabFromXyz, NegativeValuesFollowTheStraightPiece) {
  const Lab lab = lab_from_xyz({-0.001 * white_d50.x, -0.001, 0}, white_d50);
  EXPECT_NEAR(lab.l, -0.001 * 24389.0 / 27.0, 1e-12);
  EXPECT_NEAR(lab.a, 0, 1e-12);
  EXPECT_LT(lab.b, 0);
}

TEST(LabFromXyz, IsFiniteForEveryFiniteColour) {
  for (const double x : {-largest, -1e10, -0.0, 1e-320, 1e10, largest})
    for (const double y : {-largest, 0.5, largest})
      for (const double z : {-largest, 0.0, largest})
        EXPECT_TRUE(all_finite(lab_from_xyz({x, y, z}, white_d50))) << x << ' ' << y << ' ' << z;
}

TEST(LabJacobian, EqualsDifferenceQuotients) {
  constexpr int trials = 20'000;
  std::mt19937_64 generator(seed);
  std::uniform_real_distribution<double> value(0.0005, 1.0);
  double worst = 0;
  for (int trial = 0; trial < trials; ++trial) {
    const Xyz xyz{value(generator), value(generator), value(generator)};
    const Matrix3 jacobian = lab_jacobian(xyz, white_d65);
    for (int column = 0; column < 3; ++column) {
      const double step = 1e-4 * vector_from(xyz)[static_cast<std::size_t>(column)];
      Vector3 up = vector_from(xyz), down = up;
      up[static_cast<std::size_t>(column)] += step;
      down[static_cast<std::size_t>(column)] -= step;
      const Vector3 lab_up = vector_from(lab_from_xyz(xyz_from(up), white_d65));
      const Vector3 lab_down = vector_from(lab_from_xyz(xyz_from(down), white_d65));
      for (int row = 0; row < 3; ++row) {
        const auto r = static_cast<std::size_t>(row);
        worst = std::max(worst, std::abs((lab_up[r] - lab_down[r]) / (2 * step) - jacobian(row, column)) /
                                    (1 + std::abs(jacobian(row, column))));
      }
    }
  }
  std::printf("seed %u, %d colours: worst relative difference of an entry %.2e\n", seed, trials, worst);
  // Central differences with relative step h = 1e-4 err by h^2 * 5/27 on the cube root (third derivative),
  // 2e-9; a step that straddles the join, whose curvature jumps, by h/4 of it.
  EXPECT_LT(worst, 2e-5);
}

TEST(Srgb, EndsAndJoin) {
  EXPECT_EQ(linear_from_srgb(0), 0);
  EXPECT_NEAR(linear_from_srgb(1), 1, 1e-15);
  EXPECT_NEAR(srgb_from_linear(1), 1, 1e-15);
  // The standard's rounded constants leave a step of 2e-9 at the join, no more.
  const double step = linear_from_srgb(std::nextafter(0.04045, 1)) - linear_from_srgb(0.04045);
  EXPECT_LT(std::abs(step), 3e-8);
}

TEST(Srgb, IsOddAndContinuesAboveWhite) {
  for (const double encoded : {0.01, 0.3, 0.9, 1.3})
    EXPECT_EQ(linear_from_srgb(-encoded), -linear_from_srgb(encoded)) << encoded;
  EXPECT_GT(linear_from_srgb(1.1), 1.2);
}

TEST(Srgb, ReturnsThroughItsInverse) {
  double worst = 0;
  for (int i = -1000; i <= 3000; ++i) {
    const double encoded = i / 1000.0;
    worst = std::max(worst, std::abs(srgb_from_linear(linear_from_srgb(encoded)) - encoded));
  }
  std::printf("4001 steps: worst error after decoding and encoding %.2e\n", worst);
  // Two powers, each good to a unit or so in the last place, and values up to 3.
  EXPECT_LT(worst, 1e-14);
}

TEST(Srgb, LinearLightReturnsThroughXyz) {
  std::mt19937_64 generator(seed);
  std::uniform_real_distribution<double> value(-0.5, 2);
  double worst = 0;
  for (int trial = 0; trial < 10'000; ++trial) {
    const LinearRgb rgb{value(generator), value(generator), value(generator)};
    const LinearRgb back = linear_srgb_from_xyz(xyz_from_linear_srgb(rgb));
    worst = std::max({worst, std::abs(back.r - rgb.r), std::abs(back.g - rgb.g), std::abs(back.b - rgb.b)});
  }
  std::printf("seed %u, 10000 colours: worst error after RGB to XYZ to RGB %.2e\n", seed, worst);
  EXPECT_LT(worst, 1e-14);
}

}  // namespace
}  // namespace colorlib
