#include "tests/scenes/spectra.hpp"

#include <gmock/gmock.h>

#include <colorlib/colorimetry/chromatic_adaptation.hpp>

#include "tests/scenes/lights.hpp"
#include "tests/scenes/published_spectra.hpp"
#include "tests/support/color_matchers.hpp"

namespace colorlib::scenes {
namespace {

TEST(SceneSpectra, WhitePointsOfThePublishedIlluminants) {
  // ASTM E308 Table 5 and CIE 15 Table T.3, on the scale Y = 100; 0.03 is what 5 nm sums from 380 to 780 nm
  // leave.
  const struct {
    const char* name;
    White white;
  } cases[] = {{"A", white_a}, {"C", white_c}, {"D50", white_d50}, {"D65", white_d65}};
  for (const auto& c : cases) {
    const Xyz w = white_of_light(illuminant(c.name));
    EXPECT_NEAR(100 * w.x, 100 * c.white.x, 0.03) << c.name;
    EXPECT_NEAR(100 * w.z, 100 * c.white.z, 0.03) << c.name;
  }
}

TEST(SceneSpectra, DifferenceAgreesWithPublishedPairs) {
  // [Sharma2005, Table 1], rows 1, 10, 14, 17 and 34, rounded there to 4 decimals.
  EXPECT_NEAR(de00({50, 2.6772, -79.7751}, {50, 0, -82.7485}), 2.0425, 5e-5);
  EXPECT_NEAR(de00({50, 2.49, -0.001}, {50, -2.49, 0.0011}), 7.2195, 5e-5);
  EXPECT_NEAR(de00({50, -0.001, 2.49}, {50, 0.0011, -2.49}), 4.7461, 5e-5);
  EXPECT_NEAR(de00({50, 2.5, 0}, {73, 25, -18}), 27.1492, 5e-5);
  EXPECT_NEAR(de00({2.0776, 0.0795, -1.1350}, {0.9033, -0.0636, -0.5514}), 0.9082, 5e-5);
}

TEST(SceneSpectra, LabAndXyzAreInverse) {
  for (const Lab& c : {Lab{3, 1, -2}, Lab{50, 20, -40}, Lab{95, -3, 12}})
    EXPECT_THAT(lab_of(xyz_of(c, white_d50), white_d50), NearInDeltaE(c, 1e-9));
}

TEST(SceneSpectra, AdaptationKeepsWhiteAndMovesBlue) {
  EXPECT_THAT(lab_d50_from_d65({100, 0, 0}), NearInDeltaE(Lab{100, 0, 0}, 1e-9));
  // The same stimulus through colorlib's own adaptation: two codes, one result.
  for (const Lab& c : {Lab{42, 19, 29}, Lab{66, -8, 17}, Lab{30, 10, -40}})
    EXPECT_THAT(lab_d50_from_d65(c),
                NearInDeltaE(adapted_lab(c, white_d65, white_d50, AdaptationMethod::bradford), 1e-3));
}

TEST(SceneLights, PlanckianAndDaylightMeetThePublishedTables) {
  // Illuminant A is the Planckian of 2848 K with c2 = 1.435e-2, that is 2855.5 K with today's 1.4388e-2.
  const Spectrum a = planckian(2855.5);
  const Spectrum& table = illuminant("A");
  const double scale = table[36] / a[36];
  for (int i = 0; i < wave_count; i += 5) EXPECT_NEAR(scale * a[i] / table[i], 1, 0.002) << wave_nm(i);
  const Spectrum d = daylight(6504);
  const double unit = illuminant("D65")[36] / d[36];
  for (int i = 0; i < wave_count; i += 5)
    EXPECT_NEAR(unit * d[i] / illuminant("D65")[i], 1, 0.005) << wave_nm(i);
}

TEST(SceneLights, LampsHaveTheColorTheyClaim) {
  Random random(5);
  double worst = 0;
  for (int i = 0; i < 200; ++i) {
    LedShape shape;
    shape.pump_nm = random.uniform(446, 457);
    shape.red_nm = random.uniform(600, 635);
    const double t = random.uniform(2700, 4300);
    const Spectrum power = led(shape, t, 0);
    worst = std::max(worst, std::abs(correlated_temperature_k(power) - t));
    for (int k = 0; k < wave_count; ++k) ASSERT_GE(power[k], 0);
  }
  std::printf("200 LEDs: worst colour temperature error %.1f K\n", worst);
  EXPECT_LE(worst, 30);  // McCamy's own error near the locus
}

TEST(SceneLights, RenderingIndexOfPublishedTubes) {
  // CIE 15 states Ra 64 for F2, 90 for F7, 83 for F11; computed figures round to these within 1.
  EXPECT_NEAR(general_rendering_index(illuminant("F2")), 64, 1);
  EXPECT_NEAR(general_rendering_index(illuminant("F7")), 90, 1);
  EXPECT_NEAR(general_rendering_index(illuminant("F11")), 83, 1);
  EXPECT_NEAR(general_rendering_index(illuminant("A")), 100, 0.5);
}

TEST(SceneRandom, IsTheSameEverywhere) {
  // Recorded once; a change here changes every scene.
  Random random(1, 2);
  const auto first = random.bits();
  EXPECT_EQ(first, 0x2bc1ce78bfa00bf4ull);
  EXPECT_EQ(random.bits(), 0xecc7eae2aff1fd6dull);
  Random other(1, 3);
  EXPECT_NE(other.bits(), first);
  double sum = 0, square = 0;
  constexpr int trials = 200000;
  for (int i = 0; i < trials; ++i) {
    const double v = random.normal();
    sum += v, square += v * v;
  }
  EXPECT_NEAR(sum / trials, 0, 0.01);      // 4.5 standard errors
  EXPECT_NEAR(square / trials, 1, 0.015);  // 4.7 standard errors
}

}  // namespace
}  // namespace colorlib::scenes
