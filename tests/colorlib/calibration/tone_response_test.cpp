#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/calibration/tone_response.hpp>
#include <numeric>

namespace colorlib {
namespace {

TEST(ToneBasis, SumsToOneEverywhere) {
  for (double u = -0.2; u <= 1.2; u += 0.01) {
    const ToneBasis basis = tone_basis(u);
    EXPECT_NEAR(std::accumulate(basis.begin(), basis.end(), 0.0), 1.0, 1e-12) << u;
  }
}

TEST(ToneBasis, SlopeIsTheDerivative) {
  constexpr double h = 1e-6;
  for (double u = 0.01; u < 0.99; u += 0.013) {
    const ToneBasis above = tone_basis(u + h), below = tone_basis(u - h), slope = tone_basis_slope(u);
    for (std::size_t j = 0; j < slope.size(); ++j)
      EXPECT_NEAR((above[j] - below[j]) / (2 * h), slope[j], 1e-6) << u;
  }
}

TEST(LogSrgbLight, SlopeIsTheDerivativeOnBothBranches) {
  constexpr double h = 1e-7;
  for (const double u : {0.005, 0.02, 0.039, 0.05, 0.3, 0.8, 1.0})
    EXPECT_NEAR((log_srgb_light(u + h) - log_srgb_light(u - h)) / (2 * h), log_srgb_light_slope(u),
                1e-5 * log_srgb_light_slope(u))
        << u;
}

TEST(LogSrgbLight, IsHeldBelowTheLowestLevel) {
  EXPECT_EQ(log_srgb_light(0), log_srgb_light(lowest_encoded));
  EXPECT_EQ(log_srgb_light(-5), log_srgb_light(lowest_encoded));
}

}  // namespace
}  // namespace colorlib
