#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/calibration/color_correction.hpp>

namespace colorlib {
namespace {

TEST(RootTerms, ScaleWithTheLight) {
  const RootTerms once = root_terms({0.3, 0.2, 0.07}), thrice = root_terms({0.9, 0.6, 0.21});
  for (std::size_t i = 0; i < once.size(); ++i) EXPECT_NEAR(thrice[i], 3 * once[i], 1e-12);
}

TEST(RootTerms, LogSlopesAreTheDerivatives) {
  const std::array<double, 3> rgb{0.3, 0.2, 0.07};
  const auto slopes = root_term_log_slopes(root_terms(rgb));
  constexpr double h = 1e-6;
  for (std::size_t c = 0; c < 3; ++c) {
    auto up = rgb, down = rgb;
    up[c] *= std::exp(h);
    down[c] *= std::exp(-h);
    const RootTerms above = root_terms(up), below = root_terms(down);
    for (std::size_t t = 0; t < above.size(); ++t)
      EXPECT_NEAR((above[t] - below[t]) / (2 * h), slopes[t][c], 1e-8);
  }
}

}  // namespace
}  // namespace colorlib
