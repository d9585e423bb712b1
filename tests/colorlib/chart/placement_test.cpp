#include <gtest/gtest.h>
#include <colorlib/chart/placement.hpp>

#include <cmath>
#include <cstdio>

#include "tests/colorlib/chart/sheet_photo.hpp"

namespace colorlib {
namespace {

Placement random_placement(test::RandomStance& random, double most_radial) {
  Placement p;
  p.centre = {1999.5, 1499.5};
  p.half_diagonal_px = 2500;
  p.radial = random.uniform(-most_radial, most_radial);
  const double turn = random.uniform(0, 6.28), scale = random.uniform(8, 16);
  p.homography = Matrix3{{scale * std::cos(turn), -scale * std::sin(turn), random.uniform(1500, 2500),
                          scale * std::sin(turn), scale * std::cos(turn), random.uniform(1000, 2000),
                          random.uniform(-4e-4, 4e-4), random.uniform(-4e-4, 4e-4), 1}};
  return p;
}

TEST(Placement, RadialTermAsWrittenInTheHeader) {
  Placement p;
  p.homography = Matrix3::diagonal(2, 2, 1);
  p.centre = {100, 50};
  p.half_diagonal_px = 100;
  p.radial = 0.1;
  // q = (140, 80): (40, 30) from the centre, r^2 = 2500 / 10000, so stretched by 1.025.
  const PointPx at = p.px_from_mm({70, 40});
  EXPECT_NEAR(at.x, 141.0, 1e-12);
  EXPECT_NEAR(at.y, 80.75, 1e-12);
}

TEST(Placement, InverseReturnsWithinAMillionthOfAPixel) {
  std::printf("seed 11, 5000 trials\n");
  test::RandomStance random(11);
  double worst = 0;
  for (int trial = 0; trial < 5000; ++trial) {
    const Placement p = random_placement(random, 0.2);
    const PointMm mm{random.uniform(-60, 60), random.uniform(-60, 60)};
    const PointPx px = p.px_from_mm(mm);
    // Barrel terms of 0.2 fold at r = 1.29; stay well inside, as photos do.
    if (std::hypot(px.x - p.centre.x, px.y - p.centre.y) > 0.8 * p.half_diagonal_px) continue;
    const PointPx again = p.px_from_mm(p.mm_from_px(px));
    worst = std::max(worst, std::hypot(again.x - px.x, again.y - px.y));
  }
  std::printf("worst %.2e px\n", worst);
  EXPECT_LE(worst, 1e-6);  // the header's bound
  EXPECT_GT(worst, 0);
}

TEST(Placement, BeyondTheFoldOfABarrelStaysFinite) {
  Placement p;
  p.homography = Matrix3::diagonal(1, 1, 1);
  p.half_diagonal_px = 100;
  p.radial = -0.2;
  const PointMm far = p.mm_from_px({1e4, 0});
  EXPECT_TRUE(std::isfinite(far.x) && std::isfinite(far.y));
  EXPECT_NEAR(far.x, 100 / std::sqrt(0.6), 1e-6);  // the fold: 1 + 3 k r^2 = 0
}

TEST(Placement, JacobianAgreesWithDifferences) {
  std::printf("seed 12, 500 trials\n");
  test::RandomStance random(12);
  double worst = 0;
  constexpr double h = 1e-4;
  for (int trial = 0; trial < 500; ++trial) {
    const Placement p = random_placement(random, 0.05);
    const PointMm mm{random.uniform(-60, 60), random.uniform(-60, 60)};
    const auto j = p.jacobian(mm);
    const PointPx right = p.px_from_mm({mm.x + h, mm.y}), left = p.px_from_mm({mm.x - h, mm.y});
    const PointPx down = p.px_from_mm({mm.x, mm.y + h}), up = p.px_from_mm({mm.x, mm.y - h});
    const double expected[] = {(right.x - left.x) / (2 * h), (down.x - up.x) / (2 * h),
                               (right.y - left.y) / (2 * h), (down.y - up.y) / (2 * h)};
    for (std::size_t k = 0; k < 4; ++k) worst = std::max(worst, std::fabs(j[k] - expected[k]));
    EXPECT_NEAR(p.px_per_mm(mm), std::sqrt(std::fabs(expected[0] * expected[3] - expected[1] * expected[2])),
                1e-4);
  }
  std::printf("worst %.2e px/mm\n", worst);
  EXPECT_LE(worst, 1e-5);  // second differences of about 1e-3 px/mm^3 times h^2, and rounding of 2000 px / h
}

}  // namespace
}  // namespace colorlib
