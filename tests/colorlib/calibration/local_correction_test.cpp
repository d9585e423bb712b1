#include <gtest/gtest.h>

#include <colorlib/calibration/local_correction_internal.hpp>

namespace colorlib {
namespace {

TEST(LocalCorrection, FollowsNeighboursWeakly) {
  std::vector<Lab> places, residuals;
  for (int i = 0; i < 10; ++i) {
    places.push_back({50.0 + i, 10, 20});
    residuals.push_back({1, -0.5, 0});
  }
  const LocalCorrection correction(places, residuals, std::vector<double>(10, 1));
  const Vector3 near = correction.at({55, 10, 20}), far = correction.at({55, -120, -100});
  EXPECT_GT(near[0], 0.5);
  EXPECT_LT(near[0], 1);
  EXPECT_NEAR(near[1], -0.5 * near[0], 1e-12);
  EXPECT_NEAR(far[0], 0, 1e-3);
}

TEST(LocalCorrection, TrustsADoubtedPatchLess) {
  const std::vector<Lab> places{{50, 0, 0}}, residuals{{2, 0, 0}};
  const double trusted = LocalCorrection(places, residuals, {1}).at({50, 0, 0})[0];
  const double doubted = LocalCorrection(places, residuals, {0.1}).at({50, 0, 0})[0];
  EXPECT_NEAR(trusted, 2 * 0.3 / 1.3, 1e-12);
  EXPECT_NEAR(doubted, 2 * 0.3 / 10.3, 1e-12);
}

TEST(LocalCorrection, NoPatchesNoCorrection) { EXPECT_EQ(LocalCorrection().at({50, 0, 0})[0], 0); }

}  // namespace
}  // namespace colorlib
