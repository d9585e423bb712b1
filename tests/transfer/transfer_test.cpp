/// Reference values carried over from a known sheet to a badly printed one, on simulated photographs from
/// cameras, inks, papers and lights that no constant was chosen on. TINTFALL_FULL=1 does many and writes
/// docs/results/transfer.md.

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <cstdlib>
#include <fstream>

#include "tests/transfer/transfer_run.hpp"

namespace colorlib::transfer {
namespace {

using testing::HasSubstr;

constexpr std::uint64_t first_seed = 7001;

RunSettings held_out(scenes::Condition condition, int sheets) {
  RunSettings settings;
  settings.condition = condition;
  settings.pool = scenes::Pool::held_out;
  settings.first_seed = first_seed;
  settings.sheets = sheets;
  return settings;
}

void show(const Row& row) {
  std::printf("held-out, seeds from %llu\n%s%s", static_cast<unsigned long long>(first_seed),
              table_head().c_str(), table_row(row).c_str());
  for (const auto& sentence : row.refusals) std::printf("refused: %s\n", sentence.c_str());
}

TEST(Transfer, ABadPrintGetsTrueValuesAndReadsHonestly) {
  const Row row = run(held_out(scenes::Condition::daylight_phone, 4));
  show(row);
  EXPECT_EQ(row.refused, 0);
  // The sheet is as bad as is asked for: about 5 dE00.
  EXPECT_GE(quantile(row.print_de00, 0.5), 4);
  EXPECT_LE(quantile(row.patch_de00, 0.5), 0.7);
  // The 232 patches of four sheets share four lights and cameras: far fewer than that many independent
  // trials.
  EXPECT_GE(covered(row.patch_de00, row.patch_expanded), 0.85);
  EXPECT_LE(quantile(row.patch_expanded, 0.5), 3 * quantile(row.patch_de00, 0.5));
  EXPECT_GE(row.reading_de00.size(), 20u);
  EXPECT_GE(covered(row.reading_de00, row.reading_expanded), 0.85);
}

/// One photo of two sheets of one kind, the printed one below.
struct TwoSheetsPhoto {
  ChartDefinition chart = find_chart("frame-a5").value();
  scenes::Scene scene;
  TransferSheets sheets;

  explicit TwoSheetsPhoto(double gap_mm = 8) {
    scenes::SceneSettings settings =
        scenes::random_scene(scenes::Condition::daylight_phone, 31, scenes::Pool::tuning);
    settings.specimens.clear();
    settings.sensor.paper_level *= 0.75;
    settings.sheet.curl = {};
    settings.view.rotation_deg = 4;
    settings.second = scenes::SecondSheet{chart, settings.sheet, 77, 0, chart.height_mm + gap_mm, 0};
    scene = scenes::render(settings, chart);
    sheets = {chart, scene.reference, chart};
  }
};

TEST(Transfer, TwoPrintsOfOneKindAreToldApartByTheirSide) {
  const TwoSheetsPhoto photo;
  Progress quiet;
  const auto unsaid = locate_two_sheets(photo.scene.photo, photo.chart, photo.chart, {}, quiet);
  ASSERT_FALSE(unsaid);
  EXPECT_EQ(unsaid.error().code, ErrorCode::bad_call);
  EXPECT_THAT(unsaid.error().message, HasSubstr("bear the same markers"));
  EXPECT_THAT(unsaid.error().advice, HasSubstr("left, right, above or below"));

  TwoSheetsHints hints;
  hints.known_side = SheetSide::above;
  const auto found = locate_two_sheets(photo.scene.photo, photo.chart, photo.chart, hints, quiet);
  ASSERT_TRUE(found) << found.error().message;
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(found->known.corners_px[i].x, photo.scene.corners_px[i].x, 1.5);
    EXPECT_NEAR(found->known.corners_px[i].y, photo.scene.corners_px[i].y, 1.5);
    EXPECT_NEAR(found->other.corners_px[i].x, photo.scene.second_corners_px[i].x, 1.5);
    EXPECT_NEAR(found->other.corners_px[i].y, photo.scene.second_corners_px[i].y, 1.5);
  }
  hints.known_side = SheetSide::below;
  EXPECT_GT(
      locate_two_sheets(photo.scene.photo, photo.chart, photo.chart, hints, quiet)->known.corners_px[0].y,
      found->known.corners_px[0].y + 100)
      << "the user's word decides";
  hints.known_side = SheetSide::left;
  const auto wrong = locate_two_sheets(photo.scene.photo, photo.chart, photo.chart, hints, quiet);
  ASSERT_FALSE(wrong) << "the sheets lie one above the other";
  EXPECT_EQ(wrong.error().code, ErrorCode::chart_not_found);
  EXPECT_THAT(wrong.error().message, HasSubstr("no line parts two sheets"));
}

TEST(Transfer, OneSheetIsNotTakenForTwo) {
  auto settings = scenes::random_scene(scenes::Condition::daylight_phone, 31, scenes::Pool::tuning);
  settings.specimens.clear();
  settings.sheet.curl = {};
  const ChartDefinition chart = find_chart("frame-a5").value();
  const scenes::Scene scene = scenes::render(settings, chart);
  Progress quiet;
  for (const SheetSide side : {SheetSide::left, SheetSide::right, SheetSide::above, SheetSide::below}) {
    TwoSheetsHints hints;
    hints.known_side = side;
    const auto found = locate_two_sheets(scene.photo, chart, chart, hints, quiet);
    ASSERT_FALSE(found) << sheet_side_name(side);
    EXPECT_EQ(found.error().code, ErrorCode::chart_not_found);
    EXPECT_THAT(found.error().message, HasSubstr("only one sheet was found")) << sheet_side_name(side);
  }
  TwoSheetsHints by_hand;
  by_hand.known_corners = by_hand.other_corners = scene.corners_px;
  const auto twice = locate_two_sheets(scene.photo, chart, chart, by_hand, quiet);
  ASSERT_FALSE(twice);
  EXPECT_THAT(twice.error().message, HasSubstr("only one sheet was found"));
}

TEST(Transfer, RefusesWhatWouldNotBeTrue) {
  const TwoSheetsPhoto near, far(90);
  Progress quiet;
  TwoSheetsHints hints;
  hints.known_side = SheetSide::above;
  TransferSheets nominal = near.sheets;
  nominal.known_values = nominal_reference(near.chart);
  const auto without_values = read_sheet_beside(near.scene.photo, nominal, hints, {}, quiet);
  ASSERT_FALSE(without_values);
  EXPECT_THAT(without_values.error().message, HasSubstr("nominal values only"));

  const auto apart = read_sheet_beside(far.scene.photo, far.sheets, hints, {}, quiet);
  ASSERT_FALSE(apart);
  EXPECT_EQ(apart.error().code, ErrorCode::untrustworthy);
  EXPECT_THAT(apart.error().message, HasSubstr("mm apart"));

  // The printed sheet's values in place of the known one's: its patches do not show what they say.
  const auto one = read_sheet_beside(near.scene.photo, near.sheets, hints, {}, quiet);
  ASSERT_TRUE(one) << one.error().message;
  EXPECT_NEAR(one->gap_mm, 8, 1.5);
  EXPECT_EQ(one->side, SheetSide::below);
  const std::vector<SheetBeside> two{*one, *one};
  const auto few = transferred_reference(two, near.sheets, {});
  ASSERT_FALSE(few);
  EXPECT_EQ(few.error().code, ErrorCode::bad_call);

  std::vector<SheetBeside> covered_patch{*one, *one, *one};
  for (SheetBeside& photo : covered_patch)
    photo.patches[3].refused = Error{ErrorCode::untrustworthy, "It is covered.", ""};
  const auto guessed = transferred_reference(covered_patch, near.sheets, {});
  ASSERT_TRUE(guessed) << guessed.error().message;
  EXPECT_THAT(guessed->guessed, testing::Contains(std::size_t{3}));
  EXPECT_THAT(guessed->remarks.front(), HasSubstr(near.chart.patches[3].id));
  EXPECT_GE(guessed->values.patches[3].standard_uncertainty[0], nominal_reference_uncertainty);
  EXPECT_THAT(guessed->guessed, testing::Not(testing::Contains(std::size_t{4})));
  EXPECT_LT(guessed->values.patches[4].standard_uncertainty[0], 1);
  for (SheetBeside& photo : covered_patch)
    for (std::size_t p = 0; p < 20; ++p)
      photo.patches[p].refused = Error{ErrorCode::untrustworthy, "It is covered.", ""};
  const auto missing = transferred_reference(covered_patch, near.sheets, {});
  ASSERT_FALSE(missing);
  EXPECT_THAT(missing.error().message,
              HasSubstr("of 58 patches can be used in fewer than two of the 3 photos"));
}

TEST(Transfer, FullTable) {
  if (std::getenv("TINTFALL_FULL") == nullptr) GTEST_SKIP() << "set TINTFALL_FULL=1; it takes some minutes";
  // TINTFALL_FULL=1: thirty sheets a row; another number: so many.
  const int asked = std::atoi(std::getenv("TINTFALL_FULL"));
  const int sheets = asked > 1 ? asked : 30;
  std::string table = table_head();
  for (const auto condition : {scenes::Condition::daylight_linear, scenes::Condition::daylight_phone,
                               scenes::Condition::lamp_phone, scenes::Condition::two_lights_phone})
    for (const bool change : {true, false}) {
      RunSettings settings = held_out(condition, sheets);
      settings.change_places = change;
      const Row row = run(settings);
      table += table_row(row);
      for (const auto& sentence : row.refusals) std::printf("refused: %s\n", sentence.c_str());
      std::printf("%s", table_row(row).c_str());
      std::fflush(stdout);
    }
  const char* folder = std::getenv("TINTFALL_RESULTS_DIR");
  if (folder == nullptr) return;
  std::ofstream(std::string(folder) + "/transfer.md") << fmt::format(
      "# Reference values carried over by photograph\n\n"
      "Held-out scenes (cameras, tone curves, inks, papers, lights and pigments that no constant was chosen "
      "on), seeds {} to {}: each row "
      "{} printed frames of A5 with random print errors, each in 4 photos beside a frame of known values "
      "(standard uncertainty 0.2 a "
      "coordinate) of another press and paper. *Print error*: ΔE00 between a patch and the chart's nominal "
      "colour. *Values*: ΔE00 between "
      "the values carried over and the truth, a patch each; *stated*: the 95 % quantile that the standard "
      "uncertainties in the file come "
      "to; *covered*: share of patches within it. *Readings*: flat specimens on the same printed sheet in "
      "two further photos in other light of the "
      "kind, read with the new values; figures as in [accuracy.md](accuracy.md). Refused photos beyond those "
      "counted are left out.\n\n"
      "*Places kept*: the printed sheet lay below the known one in every photo; else it changed places. "
      "Frames are stated to lie flat.\n\n{}\n"
      "Written by tests/transfer.\n",
      first_seed, first_seed + sheets - 1, sheets, table);
}

}  // namespace
}  // namespace colorlib::transfer
