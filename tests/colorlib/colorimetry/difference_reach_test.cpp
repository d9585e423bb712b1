#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/difference_reach.hpp>
#include <cstdio>
#include <random>

namespace colorlib {
namespace {

bool inside(const Lab& centre, const Lab& other, const Vector3& reach) {
  return std::abs(other.l - centre.l) <= reach[0] && std::abs(other.a - centre.a) <= reach[1] &&
         std::abs(other.b - centre.b) <= reach[2];
}

// Half a million pairs over all of Lab and near one another, the blues and neutrals included, seed 20261125.
TEST(DifferenceReach, HoldsEveryColourWithinTheDifference) {
  std::mt19937 random(20261125);
  std::uniform_real_distribution<double> lightness(0, 100), chromatic(-110, 110), step(-1, 1);
  std::uniform_real_distribution<double> scale(-1, 1.6);
  double fullest = 0;
  for (int trial = 0; trial < 500'000; ++trial) {
    Lab centre{lightness(random), chromatic(random), chromatic(random)};
    if (trial % 5 == 0) centre = {centre.l, centre.a / 40, centre.b / 40};
    const double size = std::pow(10, scale(random));
    const Lab other{centre.l + size * step(random), centre.a + size * step(random),
                    centre.b + size * step(random)};
    const double de00 = difference_ciede2000(centre, other);
    const Vector3 reach = ciede2000_reach(centre, de00);
    ASSERT_TRUE(inside(centre, other, reach)) << centre.l << ' ' << centre.a << ' ' << centre.b << " and "
                                              << other.l << ' ' << other.a << ' ' << other.b;
    fullest =
        std::max({fullest, std::abs(other.l - centre.l) / reach[0], std::abs(other.b - centre.b) / reach[2]});
  }
  std::printf("the fullest box was filled to %.3f of a half-width\n", fullest);
  EXPECT_GT(fullest, 0.99) << "the bound is far wider than need be";
}

TEST(DifferenceReach, IsNarrowForBrowns) {
  const Lab rust{42, 19, 29};
  const Vector3 reach = ciede2000_reach(rust, 2);
  EXPECT_LT(reach[0], 2.3);
  EXPECT_LT(reach[1], 7);  // S_C is 2.6 here, and a' may be half as large again
  EXPECT_EQ(ciede2000_reach(rust, 0), (Vector3{0, 0, 0}));
}

TEST(DifferenceReach, AdmitsThatItKnowsNoBound) {
  EXPECT_TRUE(std::isinf(ciede2000_reach({50, 0, 0}, 60)[1]));
}

}  // namespace
}  // namespace colorlib
