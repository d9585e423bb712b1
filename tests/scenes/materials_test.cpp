#include <gmock/gmock.h>

#include <cmath>
#include <set>

#include "tests/scenes/cameras.hpp"
#include "tests/scenes/charts.hpp"
#include "tests/scenes/layers.hpp"
#include "tests/scenes/pigments.hpp"
#include "tests/scenes/printed_sheet.hpp"
#include "tests/scenes/published_spectra.hpp"
#include "tests/scenes/scenario.hpp"
#include "tests/scenes/sheet_colors.hpp"
#include "tests/scenes/tone_curves.hpp"
#include "tests/support/color_matchers.hpp"

namespace colorlib::scenes {
namespace {

void expect_physical(const Spectrum& reflectance, const std::string& what) {
  for (int i = 0; i < wave_count; ++i) {
    ASSERT_GT(reflectance[i], 0) << what << " at " << wave_nm(i);
    ASSERT_LT(reflectance[i], 1) << what << " at " << wave_nm(i);
  }
}

TEST(SceneLayers, MeetsTheWorkedFiguresOfKubelkaAndMunk) {
  // Rinf 0.35, SX 1.2, backings 0.04 and 0.85: computed independently to six digits.
  EXPECT_NEAR(layer_reflectance(0.35, 1.2, 0.04), 0.336307, 5e-7);
  EXPECT_NEAR(layer_reflectance(0.35, 1.2, 0.85), 0.380455, 5e-7);
  // Contrast ratios over the same backings, to three digits.
  const struct {
    double masstone, thickness, ratio;
  } cases[] = {{0.35, 0.25, 0.300}, {0.35, 0.5, 0.520}, {0.35, 1, 0.819}, {0.35, 2, 0.983},
               {0.83, 0.25, 0.265}, {0.83, 0.5, 0.412}, {0.83, 1, 0.596}, {0.83, 2, 0.778},
               {0.83, 8, 0.983},    {0.04, 0.25, 0.961}};
  for (const auto& c : cases)
    EXPECT_NEAR(
        layer_reflectance(c.masstone, c.thickness, 0.04) / layer_reflectance(c.masstone, c.thickness, 0.85),
        c.ratio, 5e-4)
        << c.masstone << ' ' << c.thickness;
}

TEST(SceneLayers, EndsAreRight) {
  EXPECT_DOUBLE_EQ(layer_reflectance(0.4, 0, 0.7), 0.7);
  EXPECT_NEAR(layer_reflectance(0.4, 200, 0.7), 0.4, 1e-12);
  EXPECT_NEAR(layer_reflectance(0.4, 1e-6, 0.7), 0.7, 1e-5);
  EXPECT_NEAR(masstone_of_ratio((1 - 0.35) * (1 - 0.35) / 0.7), 0.35, 1e-12);
}

TEST(ScenePigments, ArePhysicalAndAsLightAsAsked) {
  double worst = 0, lowest = 100, highest = 0;
  for (const Pool pool : {Pool::tuning, Pool::held_out})
    for (const PigmentFamily& family : pigment_families(pool)) {
      Random random(11);
      for (int i = 0; i < 20; ++i) {
        const double l = random.uniform(family.lowest_l, family.highest_l);
        const Pigment p = pigment_of(family, l, random);
        expect_physical(p.masstone, family.name);
        worst = std::max(worst, std::abs(p.masstone_lab.l - l));
        EXPECT_LE(std::hypot(p.masstone_lab.a, p.masstone_lab.b), 50.01) << family.name;
        lowest = std::min(lowest, l), highest = std::max(highest, l);
      }
    }
  std::printf("360 pigments: worst lightness error %.1e, L* %.0f to %.0f\n", worst, lowest, highest);
  EXPECT_LE(worst, 1e-6);
  EXPECT_LE(lowest, 13);
  EXPECT_GE(highest, 93);
}

TEST(ScenePigments, PoolsShareNoFamily) {
  std::set<std::string> names;
  for (const Pool pool : {Pool::tuning, Pool::held_out}) {
    EXPECT_GE(pigment_families(pool).size(), 6u);
    for (const auto& family : pigment_families(pool))
      EXPECT_TRUE(names.insert(family.name).second) << family.name;
    for (const auto& camera : cameras(pool)) EXPECT_TRUE(names.insert(camera.name).second) << camera.name;
    for (int i = 0; i < ink_set_count(pool); ++i) EXPECT_TRUE(names.insert(ink_set(pool, i).name).second);
  }
  std::set<std::string> tuning, held;
  Random random(1);
  for (int i = 0; i < 200; ++i) {
    tuning.insert(random_tone_curve(random, Pool::tuning).name);
    held.insert(random_tone_curve(random, Pool::held_out).name);
  }
  EXPECT_GE(tuning.size(), 4u);
  EXPECT_GE(held.size(), 3u);
  for (const auto& name : held) EXPECT_FALSE(tuning.contains(name));
}

TEST(ScenePigments, MatchTheScenariosColors) {
  for (const ScenarioItem& item : scenario_items()) {
    const Lab wanted = lab_d50_from_d65(item.lab_d65);
    const Pigment p = pigment_matching(wanted, Pool::tuning);
    expect_physical(p.masstone, item.id);
    EXPECT_THAT(p.masstone_lab, NearInDeltaE(wanted, 0.02)) << item.id << ": " << p.family;
  }
}

TEST(ScenePress, PrintsWhatItIsAskedForInsideItsGamut) {
  Random random(3);
  double worst = 0;
  for (const Pool pool : {Pool::tuning, Pool::held_out})
    for (int set = 0; set < ink_set_count(pool); ++set) {
      const Press press(ink_set(pool, set), random_paper(random, pool, false));
      for (const Lab& wanted : {Lab{60, 20, 30}, Lab{40, 15, 20}, Lab{80, 2, 20}, Lab{30, 0, 0},
                                Lab{70, -10, 15}, Lab{50, 0, -20}}) {
        const Spectrum made = press.print(press.amounts_for(wanted));
        expect_physical(made, ink_set(pool, set).name);
        worst = std::max(worst, de00(lab_d50(made), wanted));
      }
    }
  std::printf("30 prints: worst dE00 %.3f\n", worst);
  EXPECT_LE(worst, 0.5);  // the solver stops there
}

TEST(ScenePress, ReferenceHasTheStatedError) {
  const ChartDefinition chart = small_frame_chart();
  double sum = 0;
  int count = 0;
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    const SheetColors sheet = print_sheet(random_scene(Condition::daylight_linear, seed), chart);
    ASSERT_EQ(sheet.reference.patches.size(), chart.patches.size());
    for (std::size_t i = 0; i < chart.patches.size(); ++i) {
      const Lab &r = sheet.reference.patches[i].lab, &t = sheet.true_patches[i];
      sum += (r.l - t.l) * (r.l - t.l) + (r.a - t.a) * (r.a - t.a) + (r.b - t.b) * (r.b - t.b);
      count += 3;
    }
  }
  EXPECT_NEAR(std::sqrt(sum / count), 0.2, 0.2 * 4.5 / std::sqrt(2.0 * count));  // 4.5 standard errors
}

TEST(ScenePress, BrightenerAddsBlueUnderUltravioletOnly) {
  Random random(8);
  const Paper paper = random_paper(random, Pool::tuning, true);
  ASSERT_GT(paper.brightener, 0);
  const LightColor with{"", illuminant("D50"), 1.0}, without{"", illuminant("D50"), 0.0};
  const auto lab_under = [&](const LightColor& light) {
    const Spectrum s = leaving_light(paper.reflectance, paper, light);
    const auto& o = observer_1931();
    return lab_of({inner_product(s, o[0]), inner_product(s, o[1]), inner_product(s, o[2])}, white_d50);
  };
  EXPECT_LT(lab_under(with).b, lab_under(without).b - 2);
  EXPECT_NEAR(lab_under(without).l, lab_d50(paper.reflectance).l, 1e-9);
}

TEST(SceneCameras, AreBelievableInstruments) {
  for (const Pool pool : {Pool::tuning, Pool::held_out, Pool::measured}) {
    EXPECT_GE(cameras(pool).size(), pool == Pool::tuning ? 8u : pool == Pool::held_out ? 6u : 5u);
    for (const Camera& camera : cameras(pool)) {
      for (const char* light : {"A", "D65"}) {
        const Matrix3 m = maker_matrix(camera, illuminant(light));
        for (int row = 0; row < 3; ++row) EXPECT_NEAR(m(row, 0) + m(row, 1) + m(row, 2), 1, 1e-12);
        const MakerFit fit = maker_fit(camera, illuminant(light));
        // Real cameras leave 1 to 3 dE00 on vivid test sets; none here is better than a colorimeter or
        // useless.
        EXPECT_GT(fit.mean_de00, 0.05) << camera.name << ' ' << light;
        EXPECT_LT(fit.mean_de00, 3.5) << camera.name << ' ' << light;
      }
    }
  }
}

TEST(SceneToneCurves, RiseFromDarkToLight) {
  Random random(2);
  for (const Pool pool : {Pool::tuning, Pool::held_out})
    for (int i = 0; i < 100; ++i) {
      const ToneCurve curve = random_tone_curve(random, pool);
      EXPECT_GE(curve(0), 0) << curve.name;
      EXPECT_LE(curve(0), 0.05) << curve.name;
      EXPECT_GE(curve(1), 0.97) << curve.name;
      for (float y = 0.01f; y < 1; y += 0.01f)
        EXPECT_GT(curve(y) - curve(y - 0.01f), 1e-4f) << curve.name << " at " << y;
      EXPECT_NEAR(curve(0.18f), 0.46, 0.22) << curve.name;
    }
}

}  // namespace
}  // namespace colorlib::scenes
