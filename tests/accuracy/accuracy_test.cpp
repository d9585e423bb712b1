/// The promise, tested: whole readings of simulated photographs from cameras, tone curves, inks, lights and
/// pigments that no constant was fitted to; only the width of linear photos' budget, and the form of
/// developed ones', were settled with such runs in sight (docs/explanation/uncertainty.md). Prints the table.
/// TINTFALL_FULL=1 runs every condition and writes docs/results/accuracy.md.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <optional>

#include "tests/accuracy/accuracy_run.hpp"
#include "tests/accuracy/baseline_table.hpp"
#include "tests/support/result_page.hpp"

namespace colorlib::accuracy {
namespace {

constexpr std::uint64_t first_seed = 5001, unseen_seed = 22001;
constexpr int scenes_a_condition = 150;

RunSettings held_out_settings(int scenes) {
  RunSettings settings;
  settings.pool = scenes::Pool::held_out;
  settings.first_seed = first_seed;
  settings.scenes = scenes;
  return settings;
}

ConditionRun held_out_run(scenes::Condition condition, int scenes) {
  return run_condition(condition, held_out_settings(scenes));
}

TEST(Accuracy, DaylightReadingsAreTrueAndSaySoHonestly) {
  const ConditionRun linear = held_out_run(scenes::Condition::daylight_linear, 100);
  const ConditionRun phone = held_out_run(scenes::Condition::daylight_phone, 100);
  const Figures l = figures_of({linear}), p = figures_of({phone}), pooled = figures_of({linear, phone});
  std::printf("held-out scenes, seeds %llu to %llu, 6 specimens each\n%s%s%s%s",
              static_cast<unsigned long long>(first_seed), static_cast<unsigned long long>(first_seed + 99),
              table_head().c_str(), table_row("daylight-linear", l).c_str(),
              table_row("daylight-phone", p).c_str(), table_row("pooled", pooled).c_str());
  for (const auto* run : {&linear, &phone})
    for (const auto& sentence : run->refusals) std::printf("refused: %s\n", sentence.c_str());

  EXPECT_GE(pooled.readings, 600u);
  // The project's aims for one daylight-like light.
  EXPECT_LE(l.median, 0.45);
  EXPECT_LE(l.p95, 1.3);
  EXPECT_LE(p.median, 0.6);
  EXPECT_LE(p.p95, 1.7);
  // 95 % is promised; 1200 readings in 200 scenes have a standard error of about one point, more because
  // those of one scene share its errors.
  EXPECT_GE(pooled.covered, 0.91);
  EXPECT_LE(pooled.covered, 0.98);
  EXPECT_LE(pooled.median_expanded, 3.0 * pooled.median);
  EXPECT_LE(pooled.refused, 0.03);
}

TEST(Accuracy, SheetsArePlacedWithinHalfAPixel) {
  const ConditionRun run = held_out_run(scenes::Condition::daylight_phone, 60);
  double worst = 0;
  for (const double rms : run.placement_rms_px) worst = std::max(worst, rms);
  std::printf("60 scenes, seed %llu on: %d found, worst rms %.3f px over the sheet\n",
              static_cast<unsigned long long>(first_seed), static_cast<int>(run.placement_rms_px.size()),
              worst);
  EXPECT_GE(run.placement_rms_px.size(), 60u * 99 / 100);
  EXPECT_LE(worst, 0.5);
}

TEST(Accuracy, AShadowsEdgeAcrossTheOpeningIsRefusedByName) {
  const ConditionRun run = held_out_run(scenes::Condition::shadow_edge, 20);
  const auto named = std::count_if(run.refusals.begin(), run.refusals.end(), [](const std::string& sentence) {
    return sentence.find("as at a shadow's edge") != std::string::npos;
  });
  std::printf("20 scenes: %.0f %% refused, %d refusals in all, %d of them name the shadow\n",
              100 * figures_of({run}).refused, static_cast<int>(run.refusals.size()),
              static_cast<int>(named));
  EXPECT_GE(figures_of({run}).refused, 0.6);
  EXPECT_GE(named, 0.8 * static_cast<double>(run.refusals.size()));
}

TEST(Accuracy, FullTable) {
  if (!std::getenv("TINTFALL_FULL")) GTEST_SKIP() << "runs with ./run tests --full";
  std::string text =
      "# Accuracy on simulated photographs\n\nHeld-out cameras, tone curves, inks, papers, lights and "
      "pigments (no constant was "
      "fitted to them; the width of linear photos' budget, and the form of developed ones', were settled "
      "with runs of the first hundred in sight), " +
      std::to_string(scenes_a_condition) +
      " scenes a condition, 1600 x 1200 px, sheet frame-a5 or a grid without markers. \u0394E00 of readings "
      "against "
      "the "
      "truth; *covered*: truth within the stated 95 % tolerance (\u00b1 its standard error, by scenes); "
      "*joint*: d\u00b2 \u2264 7.815 under the stated covariance; L / a / b: truth "
      "within the expanded uncertainty of the coordinate, in %; U: the stated tolerance. On thin films the "
      "truth is the region "
      "as seen; on foil it is the deposit without the bare gaps, because a mirror has no colour of its own. "
      "Written by `./run tests --full`.\n\n" +
      table_head();
  const auto add_row = [&](const ConditionRun& run) {
    const std::string row = table_row(run.condition, figures_of({run}));
    std::printf("%s", row.c_str());
    text += row;
  };
  std::vector<TwoReadings> runs;
  for (const auto condition : scenes::all_conditions()) {
    runs.push_back(run_condition_twice(condition, held_out_settings(scenes_a_condition)));
    add_row(runs.back().light_unstated);
  }
  text +=
      "\n## The light said\n\nThe same photographs, and what the user says when asked what the light was "
      "(`--light`): the tolerance changes, the colour does not.\n\n" +
      light_said_head();
  const auto add_said = [&](const std::string& name, const std::vector<ConditionRun>& unsaid,
                            const std::vector<ConditionRun>& said) {
    const std::string row = light_said_row(name, figures_of(unsaid), figures_of(said));
    std::printf("%s", row.c_str());
    text += row;
  };
  for (const auto& run : runs) add_said(run.light_stated.condition, {run.light_unstated}, {run.light_stated});
  text +=
      "\n### By light\n\nAll these conditions together but for raised specimens and shadow edges, whose "
      "errors are of another kind. Warm lamps are those of the "
      "conditions named so (2650 to 3100 K), cool ones (3800 to 4400 K) stand in a third of the scenes of "
      "foil, curled sheets, local tone and thin films.\n\n" +
      light_said_head();
  const auto add_light = [&](const std::string& name, LightKind kind, std::optional<bool> warm = {},
                             bool raw_alone = false) {
    std::vector<ConditionRun> unsaid, said;
    for (const auto& [plain, stated] : runs) {
      const std::string& condition = plain.condition;
      if (condition == "raised" || condition == "shadow-edge" ||
          (warm && *warm != condition.starts_with("lamp")) || (raw_alone && !condition.ends_with("-linear")))
        continue;
      unsaid.push_back(under_light(plain, kind));
      said.push_back(under_light(stated, kind));
    }
    add_said(name, unsaid, said);
  };
  add_light("daylight", LightKind::daylight);
  add_light("warm lamps", LightKind::lamp, true);
  add_light("cool lamps", LightKind::lamp, false);
  add_light("tubes", LightKind::tube);
  add_light("daylight and a lamp", LightKind::mixed);
  text += "\nThe raw ones among them, whose files tell the camera's own white in daylight (off by 2 %):\n\n" +
          light_said_head();
  add_light("raw, daylight", LightKind::daylight, {}, true);
  add_light("raw, warm lamps", LightKind::lamp, true, true);
  add_light("raw, cool lamps", LightKind::lamp, false, true);
  add_light("raw, daylight and a lamp", LightKind::mixed, {}, true);
  text +=
      "\n## Materials of no particular kind\n\nInks, pigments and phosphors of the broad pool "
      "(tests/scenes/README.md), drawn at random: stranger than "
      "real ones; no constant was set on these scenes. The width of developed photos' budget was set "
      "on other scenes of this pool and the tuning pool; 40 "
      "scenes a condition.\n\n" +
      table_head();
  using scenes::Condition;
  const auto add_unseen = [&](scenes::Pool pool, std::initializer_list<Condition> conditions) {
    RunSettings settings;
    settings.pool = pool;
    settings.first_seed = unseen_seed;
    settings.scenes = 40;
    for (const auto condition : conditions) add_row(run_condition(condition, settings));
  };
  add_unseen(scenes::Pool::broad, {Condition::daylight_phone, Condition::lamp_linear, Condition::lamp_phone,
                                   Condition::fluorescent_phone});
  text +=
      "\n## Published cameras and lamps\n\nThe held-out inks, papers, pigments and phones, seen by cameras "
      "whose sensitivities laboratories published, under CIE's LED "
      "lamps, illuminant A, daylight and tubes (tests/scenes/README.md). No constant was chosen with such "
      "scenes (others of the pool were looked at once, before the fit took its present form); 40 scenes a "
      "condition.\n\n" +
      table_head();
  add_unseen(
      scenes::Pool::measured,
      {Condition::daylight_linear, Condition::daylight_phone, Condition::lamp_linear, Condition::lamp_phone,
       Condition::fluorescent_phone, Condition::two_lights_linear, Condition::two_lights_phone});
  write_result_page("accuracy.md", text);
}

TEST(Accuracy, BesideGeneralMethods) {
  if (!std::getenv("TINTFALL_FULL")) GTEST_SKIP() << "runs with ./run tests --full";
  using scenes::Condition;
  RunSettings settings;
  settings.pool = scenes::Pool::held_out;
  settings.first_seed = first_seed;
  settings.scenes = 60;
  std::string text =
      "# Beside general methods\n\nThe same held-out photographs (60 a condition) corrected by one "
      "regression on the patches, as a careful person "
      "does it with general tools: grey balance, matrices, root and ordinary polynomials, on the sRGB curve "
      "or a curve fitted to the "
      "neutrals; the true places of patches and regions handed over. Median / 95th percentile of \u0394E00; "
      "of the baselines each figure "
      "is the best of all of them, chosen afterwards. *After true paper*: the picture divided by the true "
      "picture of bare paper first, "
      "which no real photo offers. Written by `./run tests --full`.\n\n" +
      comparison_head();
  for (const auto condition :
       {Condition::daylight_linear, Condition::daylight_phone, Condition::lamp_linear, Condition::lamp_phone,
        Condition::fluorescent_phone, Condition::two_lights_linear, Condition::two_lights_phone,
        Condition::foil_linear, Condition::foil_phone, Condition::grid_unmarked}) {
    const Comparison comparison = compare_with_baselines(condition, settings);
    const std::string row = comparison_row(comparison);
    std::printf("%s", row.c_str());
    text += row;
    // Whatever the light, the fit has to beat what general tools reach as they come.
    EXPECT_LT(comparison.our_median, comparison.best_median) << comparison.condition;
  }
  write_result_page("baselines.md", text);
}

}  // namespace
}  // namespace colorlib::accuracy
