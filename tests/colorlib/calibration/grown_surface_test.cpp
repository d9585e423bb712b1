#include <gtest/gtest.h>

#include <colorlib/calibration/grown_surface_internal.hpp>

namespace colorlib {
namespace {

TEST(GrownSurface, IsLeftAloneInDaylightOnPhones) {
  for (const double l : {10.0, 50.0, 95.0})
    EXPECT_EQ(grown_surface_shift({l, 5, 20}, 0, false), (Vector3{0, 0, 0}));
}

TEST(GrownSurface, IsMadeRedderUnderLampsTheDarkerItIs) {
  const Vector3 dark = grown_surface_shift({20, 5, 20}, 1, false),
                pale = grown_surface_shift({90, 5, 20}, 1, false);
  EXPECT_NEAR(dark[1], 0.8 * 0.8, 1e-12);
  EXPECT_NEAR(pale[1], 0.8 * 0.1, 1e-12);
  EXPECT_NEAR(grown_surface_shift({20, 5, 20}, 0.5, false)[1], dark[1] / 4, 1e-12);
}

TEST(GrownSurface, StaysBoundedOutsideTheUsualRange) {
  EXPECT_EQ(grown_surface_shift({104, 0, 0}, 1, true), (Vector3{0, 0, 0}));
  EXPECT_NEAR(grown_surface_shift({-3, 0, 0}, 1.1, true)[1], 0.8, 1e-12);
}

TEST(GrownSurface, RawPhotosInDaylightAreLiftedALittle) {
  EXPECT_NEAR(grown_surface_shift({50, 0, 0}, 0, true)[0], 0.15, 1e-12);
  EXPECT_EQ(grown_surface_shift({50, 0, 0}, 1, true)[0], 0);
}

}  // namespace
}  // namespace colorlib
