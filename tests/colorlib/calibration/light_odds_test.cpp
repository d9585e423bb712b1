#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/calibration/lack_of_fit.hpp>
#include <colorlib/calibration/light_odds.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::DoubleNear;
using testing::ElementsAre;
using testing::Ge;
using testing::Gt;
using testing::Le;
using testing::Lt;

using Shares = std::array<Vector3, 3>;
Shares shares_of(double red_x, double blue_x, double red_y, double blue_y, double red_z, double blue_z) {
  return {{{red_x, 1 - red_x - blue_x, blue_x},
           {red_y, 1 - red_y - blue_y, blue_y},
           {red_z, 1 - red_z - blue_z, blue_z}}};
}

using White = std::optional<std::array<double, 2>>;
const std::pair<bool, White> kinds_of_photo[] = {
    {true, {}}, {false, {}}, {false, {{-9, 9}}}, {false, {{9, -9}}}};

TEST(LightOdds, AreProbabilitiesWhateverTheFitSays) {
  for (const double red : {-5.0, 0.0, 0.5, 5.0})
    for (const double blue : {-5.0, 0.0, 0.3, 5.0})
      for (const auto& [developed, white] : kinds_of_photo) {
        const LightOdds odds =
            light_odds({shares_of(red, blue, red, blue, red, blue), red, white, developed});
        EXPECT_THAT(odds.lamp, AllOf(Ge(0.0), Le(1.0)));
        EXPECT_THAT(odds.tube, AllOf(Ge(0.0), Le(1.0)));
        EXPECT_THAT(odds.unlike_daylight(), Le(1.0 + 1e-12));
        EXPECT_THAT(odds.mixed, AllOf(Ge(0.0), Le(1.0)));
      }
}

TEST(LightOdds, BlueThatSpillsIntoLuminanceIsALamp) {
  const LightOdds window = light_odds({shares_of(0.47, 0.16, 0.25, 0.03, -0.02, 0.95), 0.01, {}, true});
  const LightOdds lamp = light_odds({shares_of(0.47, 0.16, 0.25, 0.09, -0.02, 0.95), 0.01, {}, true});
  EXPECT_THAT(lamp.unlike_daylight(), Gt(window.unlike_daylight() + 0.3));
}

// What daylight of 5500 K, a cool LED and a tube did to simulated cameras' whites.
TEST(LightOdds, TheCamerasOwnWhiteTellsCoolLampsFromDaylight) {
  const auto with_white = [](double red, double blue) {
    return light_odds({shares_of(0.47, 0.16, 0.25, 0.05, -0.02, 0.95), 0.01, White({red, blue}), false});
  };
  const LightOdds window = with_white(0.07, -0.10), cool_lamp = with_white(0.35, -0.24),
                  warm_lamp = with_white(0.60, -0.75);
  EXPECT_TRUE(window.by_white);
  EXPECT_THAT(window.unlike_daylight(), Lt(0.2));
  EXPECT_THAT(cool_lamp.unlike_daylight(), Gt(0.9));
  EXPECT_THAT(warm_lamp.lamp, Gt(0.9));
}

TEST(LightOdds, TwoLightsShowInTheChangeOfTintAlone) {
  const Shares shares = shares_of(0.47, 0.16, 0.25, 0.05, -0.02, 0.95);
  EXPECT_THAT(light_odds({shares, 0.02, {}, true}).mixed, DoubleNear(0, 1e-12));
  EXPECT_THAT(light_odds({shares, 0.07, {}, false}).mixed, DoubleNear(0.5, 1e-9));
  EXPECT_THAT(light_odds({shares, 0.30, {}, true}).mixed, DoubleNear(1, 1e-12));
}

constexpr LackOfFit example{
    .lamp_power = 2,
    .estimated = {.lamp = {0, 0.8, 0.6}, .tube = {0, 0.2, 0.1}, .mixed = {0, 0.3, 0.3}},
    .said = {.daylight = {0, 0.05, 0.04}, .lamp = {0, 0.6, 0.5}}};

TEST(LackOfFit, WhatIsSaidReplacesTheEstimate) {
  const LightOdds certain_lamp{.lamp = 1, .tube = 0, .mixed = 0};
  EXPECT_THAT(spread_by_light(example, LightKind::daylight, certain_lamp), ElementsAre(0, 0.05, 0.04));
  EXPECT_THAT(spread_by_light(example, LightKind::lamp, {}), ElementsAre(0, 0.6, 0.5));
}

TEST(LackOfFit, OddsByTheCamerasWhiteCountAsAlmostSaid) {
  const LightOdds lamp{.lamp = 1, .tube = 0, .mixed = 0, .by_white = true}, window{.by_white = true};
  EXPECT_THAT(spread_by_light(example, LightKind::unstated, lamp), ElementsAre(0, 0.6, 0.5));
  EXPECT_THAT(spread_by_light(example, LightKind::unstated, window), ElementsAre(0, 0.05, 0.04));
  LackOfFit squared = example;
  squared.by_white_power = 2;
  const LightOdds between{
      .lamp = 0.4, .tube = 0.2, .mixed = 0, .by_white = true};  // 0.6 unlike daylight: 0.36
  EXPECT_THAT(spread_by_light(squared, LightKind::unstated, between)[1],
              DoubleNear(std::sqrt(0.64 * 0.05 * 0.05 + 0.24 * 0.6 * 0.6), 1e-12));
}

TEST(LackOfFit, VariancesAreWeighedByTheOdds) {
  EXPECT_THAT(spread_by_light(example, LightKind::unstated, {}), ElementsAre(0, 0, 0));
  const Vector3 half = spread_by_light(example, LightKind::unstated, {.lamp = 0.5, .tube = 0, .mixed = 0});
  EXPECT_THAT(half[1], DoubleNear(0.4, 1e-12));  // sqrt(0.5^2 0.8^2)
  const Vector3 two = spread_by_light(example, LightKind::unstated, {.lamp = 1, .tube = 0, .mixed = 1});
  EXPECT_THAT(two, ElementsAre(0, DoubleNear(0.3, 1e-12), DoubleNear(0.3, 1e-12)));
}

TEST(LackOfFit, LightnessIsInterpolatedAndHeldBeyondItsTable) {
  EXPECT_THAT(spread_by_lightness(0), spread_by_lightness(15));
  EXPECT_THAT(spread_by_lightness(100), spread_by_lightness(85));
  const Vector3 middle = spread_by_lightness(40), below = spread_by_lightness(32),
                above = spread_by_lightness(48);
  for (std::size_t axis = 0; axis < 3; ++axis)
    EXPECT_THAT(middle[axis], DoubleNear((below[axis] + above[axis]) / 2, 1e-12));
  EXPECT_THAT(spread_by_lightness(15)[1], Lt(0.5 * spread_by_lightness(48)[1]));
}

}  // namespace
}  // namespace colorlib
