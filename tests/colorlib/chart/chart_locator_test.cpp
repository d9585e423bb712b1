#include <gtest/gtest.h>
#include <colorlib/chart/chart_locator.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

#include "tests/colorlib/chart/sheet_photo.hpp"
#include "tests/support/color_matchers.hpp"

namespace colorlib {
namespace {

using test::Camera;
using test::Look;
using test::RandomStance;
using test::Stance;
using testing::AllOf;
using testing::AnyOf;
using testing::HasSubstr;

const test::PrintedSheet& frame_sheet() {
  static const test::PrintedSheet sheet = test::printed(test::small_frame());
  return sheet;
}

Result<LocatedSheet> locate(const Photo& photo, const ChartDefinition& chart,
                            const LocateOptions& options = {}) {
  Progress progress;
  return locate_sheet(photo, std::span(&chart, 1), options, progress);
}

/// rms distance between true and found places over a grid of the whole sheet.
double placement_error_px(const Camera& camera, const Placement& placement, const ChartDefinition& chart) {
  double sum = 0;
  int count = 0;
  for (int i = 0; i <= 10; ++i)
    for (int j = 0; j <= 10; ++j) {
      const PointMm p{chart.width_mm * i / 10, chart.height_mm * j / 10};
      const PointPx a = camera.px_from_mm(p), b = placement.px_from_mm(p);
      sum += (a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y);
      ++count;
    }
  return std::sqrt(sum / count);
}

Stance any_stance(RandomStance& random) {
  Stance stance;
  stance.tilt_deg = random.uniform(0, 30);
  stance.tilt_towards_deg = random.uniform(0, 360);
  stance.rotation_deg = random.uniform(0, 360);
  stance.fill = random.uniform(0.65, 0.95);
  stance.radial = random.uniform(-0.03, 0.03);
  return stance;
}

Look any_look(RandomStance& random, unsigned seed) {
  Look look;
  look.blur_px = random.uniform(0.6, 1.5);
  look.light_slope = random.uniform(-0.4, 0.4);
  look.seed = seed;
  return look;
}

Stance plain_stance() {
  Stance stance;
  stance.tilt_deg = 6;
  stance.rotation_deg = 4;
  return stance;
}

const Photo& plain_photo() {
  static const Photo photo = test::photograph(frame_sheet(), Camera(frame_sheet().chart, plain_stance()), {});
  return photo;
}

TEST(LocateSheet, PlacesWithinHalfAPixelInAnyPoseWithTwoMarkersOrMore) {
  constexpr int trials = 200;
  const ChartDefinition& chart = frame_sheet().chart;
  RandomStance random(51);
  double worst = 0, sum = 0;
  int found = 0, false_curls = 0, by_two = 0;
  for (int trial = 0; trial < trials; ++trial) {
    const Camera camera(chart, any_stance(random));
    Look look = any_look(random, static_cast<unsigned>(trial));
    // 0, 1 or 2 of the four markers under something.
    const int covered = trial % 3, first = static_cast<int>(random.uniform(0, 4));
    for (int k = 0; k < covered; ++k) {
      const Marker& m = chart.markers[static_cast<std::size_t>((first + k * (1 + trial % 2)) % 4)];
      look.covered.push_back({m.x_mm + 3, m.y_mm - 2, 18, 12});
    }
    const auto sheet = locate(test::photograph(frame_sheet(), camera, look), chart);
    if (!sheet) {
      std::printf("trial %d, %d covered: %s\n", trial, covered, sheet.error().message.c_str());
      continue;
    }
    ++found;
    by_two += sheet->markers_found == 2;
    false_curls += sheet->curled;
    const double error = placement_error_px(camera, sheet->placement, chart);
    worst = std::max(worst, error);
    sum += error;
    EXPECT_LE(error, 0.5) << "trial " << trial << ", " << covered << " covered";
    EXPECT_LE(sheet->reprojection_px, 0.5) << "trial " << trial;
    EXPECT_NEAR(sheet->corners_px[0].x, camera.px_from_mm({0, 0}).x, 1) << "trial " << trial;
  }
  std::printf(
      "seed 51, %d trials: found %d (%d by two markers), error mean %.3f px, worst %.3f px, curled by "
      "mistake %d\n",
      trials, found, by_two, sum / std::max(1, found), worst, false_curls);
  EXPECT_GE(found, 198);      // 99 %
  EXPECT_GE(by_two, 50);      // else the covers do not cover
  EXPECT_LE(false_curls, 4);  // 2 %
}

TEST(LocateSheet, NoticesASheetWithFiveMillimetresOfSag) {
  constexpr int trials = 60;
  const ChartDefinition& chart = frame_sheet().chart;
  RandomStance random(52);
  int noticed = 0;
  double least = 1e9;
  for (int trial = 0; trial < trials; ++trial) {
    Stance stance = any_stance(random);
    stance.distance_mm = random.uniform(350, 600);
    stance.sag_mm = 5;
    stance.bends_along_x = trial % 2 == 0;
    stance.edges_up = trial % 4 < 2;
    const auto sheet = locate(test::photograph(frame_sheet(), Camera(chart, stance),
                                               any_look(random, static_cast<unsigned>(trial))),
                              chart);
    ASSERT_TRUE(sheet) << sheet.error().message;
    noticed += sheet->curled;
    least = std::min(least, sheet->flatness_mm);
  }
  std::printf("seed 52, %d trials: noticed %d, least flatness %.3f mm\n", trials, noticed, least);
  EXPECT_GE(noticed, 57);  // 95 %
}

TEST(LocateSheet, PatchBordersSharpenWhatMarkersSay) {
  const ChartDefinition& chart = frame_sheet().chart;
  RandomStance random(53);
  double with = 0, without = 0;
  for (int trial = 0; trial < 8; ++trial) {
    const Camera camera(chart, any_stance(random));
    Look look = any_look(random, static_cast<unsigned>(trial));
    look.covered = {{180, 3, 25, 24}, {180, 120, 25, 24}};
    const Photo photo = test::photograph(frame_sheet(), camera, look);
    const auto fine = locate(photo, chart);
    LocateOptions options;
    options.refine_on_patch_edges = false;
    const auto coarse = locate(photo, chart, options);
    ASSERT_TRUE(fine) << fine.error().message;
    EXPECT_GT(fine->edges_used, 200);
    with = std::max(with, placement_error_px(camera, fine->placement, chart));
    if (!coarse) continue;  // two markers alone may leave too much open, and then it is said
    EXPECT_EQ(coarse->edges_used, 0);
    without = std::max(without, placement_error_px(camera, coarse->placement, chart));
  }
  std::printf("two markers on one side: worst %.3f px with patch borders, %.3f px without\n", with, without);
  EXPECT_LT(with, 0.5);
}

TEST(LocateSheet, ChoosesTheChartByItsMarkers) {
  std::vector<ChartDefinition> charts = {test::small_frame(300), test::small_frame(100),
                                         test::touching_grid()};
  charts[0].name = "other";
  Progress progress;
  const auto sheet = locate_sheet(plain_photo(), charts, {}, progress);
  ASSERT_TRUE(sheet) << sheet.error().message;
  EXPECT_EQ(sheet->chart, 1u);
  EXPECT_EQ(sheet->markers_found, 4);
}

TEST(LocateSheet, AMarkerThatWasMovedIsLeftOutAndSaid) {
  ChartDefinition chart = frame_sheet().chart;
  test::PrintedSheet sheet = test::printed([&] {
    ChartDefinition torn = chart;
    torn.markers[2].x_mm -= 30;
    torn.markers[2].y_mm -= 2;
    torn.patches.erase(torn.patches.begin() + 14, torn.patches.begin() + 22);
    return torn;
  }());
  const Camera camera(chart, plain_stance());
  const auto found = locate(test::photograph(sheet, camera, {}), chart);
  ASSERT_TRUE(found) << found.error().message;
  EXPECT_EQ(found->markers_found, 3);
  ASSERT_EQ(found->remarks.size(), 1u);
  EXPECT_THAT(found->remarks[0], HasSubstr("102"));
  EXPECT_LE(placement_error_px(camera, found->placement, chart), 0.5);
}

TEST(LocateSheet, ASheetHalfOutOfTheFrameStillServes) {
  Stance stance = plain_stance();
  stance.shift_x = 0.35;
  const ChartDefinition& chart = frame_sheet().chart;
  const Camera camera(chart, stance);
  const auto sheet = locate(test::photograph(frame_sheet(), camera, {}), chart);
  ASSERT_TRUE(sheet) << sheet.error().message;
  EXPECT_EQ(sheet->markers_found, 2);
  EXPECT_GT(sheet->corners_px[1].x, 960);
  EXPECT_LE(placement_error_px(camera, sheet->placement, chart), 1.5);  // a third of the grid is extrapolated
}

TEST(LocateSheet, DarkAndFaintPhotosAreFound) {
  const ChartDefinition& chart = frame_sheet().chart;
  const Camera camera(chart, plain_stance());
  Look look;
  look.exposure = 0.06;
  look.noise_sd = 0.01;
  const auto dark = locate(test::photograph(frame_sheet(), camera, look), chart);
  ASSERT_TRUE(dark) << dark.error().message;
  EXPECT_LE(placement_error_px(camera, dark->placement, chart), 0.5);
}

TEST(LocateSheet, BadPhotosAreToldInWords) {
  const ChartDefinition& chart = frame_sheet().chart;
  for (int kind = 0; kind < 4; ++kind)
    EXPECT_THAT(locate(test::photograph_of_nothing(kind), chart),
                FailsWith(ErrorCode::chart_not_found, HasSubstr("no marker was found")))
        << "kind " << kind;

  EXPECT_THAT(locate(test::mirrored(plain_photo()), chart),
              FailsWith(ErrorCode::chart_not_found, HasSubstr("the photo is mirrored")));

  EXPECT_THAT(locate(test::cropped(plain_photo(), {0, 0, 480, 360}), chart),
              FailsWith(ErrorCode::chart_not_found, HasSubstr("only 1 of its 4 markers (100)")));

  Look blurred;
  blurred.blur_px = 9;
  EXPECT_THAT(locate(test::photograph(frame_sheet(), Camera(chart, plain_stance()), blurred), chart),
              FailsWith(ErrorCode::chart_not_found, AnyOf(HasSubstr("smeared"), HasSubstr("blurred"))));

  // Markers still decode, but patches run into each other.
  Look soft;
  soft.blur_px = 4.2;
  EXPECT_THAT(locate(test::photograph(frame_sheet(), Camera(chart, plain_stance()), soft), chart),
              FailsWith(ErrorCode::chart_not_found, AnyOf(HasSubstr("smeared"), HasSubstr("blurred"))));

  const Photo overexposed = test::with_values(plain_photo(), [](double v) { return 6 * v + 90; });
  EXPECT_THAT(locate(overexposed, chart), FailsWith(ErrorCode::chart_not_found, HasSubstr("full white")));

  const Photo underexposed = test::with_values(plain_photo(), [](double v) { return v / 40; });
  EXPECT_THAT(locate(underexposed, chart), FailsWith(ErrorCode::chart_not_found, HasSubstr("nearly black")));

  Stance tiny = plain_stance();
  tiny.fill = 0.2;
  Look sharp;
  sharp.blur_px = 0.5;
  EXPECT_THAT(
      locate(test::photograph(frame_sheet(), Camera(chart, tiny), sharp), chart),
      FailsWith(ErrorCode::chart_not_found, AnyOf(HasSubstr("patch spans only"), HasSubstr("no marker"))));
}

TEST(LocateSheet, TellsAWideBlurToATenth) {
  const ChartDefinition& chart = frame_sheet().chart;
  Stance fine = plain_stance();
  fine.width_px = 2400, fine.height_px = 1800;
  for (const double blur_px : {1.0, 3.0, 6.0}) {
    SCOPED_TRACE(blur_px);
    Look look;
    look.blur_px = blur_px;
    const auto sheet = locate(test::photograph(frame_sheet(), Camera(chart, fine), look), chart);
    ASSERT_TRUE(sheet) << sheet.error().message;
    EXPECT_NEAR(sheet->blur_px, std::hypot(blur_px, 0.4), 0.1 * blur_px + 0.1);
  }
}

TEST(LocateSheet, TooSmallAPhotoIsNoTrouble) {
  const ChartDefinition& chart = frame_sheet().chart;
  for (const int side : {1, 2, 7, 19, 40})
    EXPECT_THAT(locate(test::photograph_of_nothing(1, side, side), chart),
                FailsWith(ErrorCode::chart_not_found, HasSubstr("")));
}

TEST(LocateSheet, TwoSheetsOrAnothersSheetAreTold) {
  const ChartDefinition& chart = frame_sheet().chart;
  EXPECT_THAT(locate(plain_photo(), test::small_frame(300)),
              FailsWith(ErrorCode::chart_not_found, AllOf(HasSubstr("another chart"), HasSubstr("100"))));

  // Two photos side by side.
  const Image8& one = std::get<Image8>(plain_photo().store());
  Image8 two(one.rows, 2 * one.columns, 3);
  for (int r = 0; r < one.rows; ++r)
    for (int half = 0; half < 2; ++half)
      std::copy(one.at(r, 0), one.at(r, 0) + 3 * one.columns, two.at(r, half * one.columns));
  EXPECT_THAT(locate(Photo(std::move(two), {}, {}, "two.png"), chart),
              FailsWith(ErrorCode::chart_not_found, HasSubstr("two copies")));
}

TEST(LocateSheet, ADefinitionWhosePatchesAreElsewhereIsRefused) {
  ChartDefinition other = test::small_frame();
  for (Patch& p : other.patches) {
    p.place.x += p.place.x < 105 ? 6 : -6;
    p.place.y += p.place.y < 74 ? 6.5 : -6.5;
  }
  EXPECT_THAT(locate(plain_photo(), other),
              FailsWith(ErrorCode::chart_not_found, HasSubstr("borders of its patches")));
}

TEST(LocateSheet, WithoutMarkersAsksForCorners) {
  const auto grid = test::touching_grid();
  EXPECT_THAT(locate(plain_photo(), grid), FailsWith(ErrorCode::bad_call, HasSubstr("no markers")));
  Progress progress;
  EXPECT_THAT(locate_sheet(plain_photo(), {}, {}, progress), FailsWith(ErrorCode::bad_call, HasSubstr("")));
}

TEST(LocateSheet, StopsWhenAsked) {
  struct Stop : Progress {
    bool cancelled() const override { return true; }
  } stop;
  const ChartDefinition& chart = frame_sheet().chart;
  EXPECT_THAT(locate_sheet(plain_photo(), std::span(&chart, 1), {}, stop),
              FailsWith(ErrorCode::cancelled, HasSubstr("")));
}

// ---- by corners

std::array<PointPx, 4> true_corners(const Camera& camera, const ChartDefinition& chart) {
  return {camera.px_from_mm({0, 0}), camera.px_from_mm({chart.width_mm, 0}),
          camera.px_from_mm({chart.width_mm, chart.height_mm}), camera.px_from_mm({0, chart.height_mm})};
}

Result<LocatedSheet> locate_by(const Photo& photo, const ChartDefinition& chart,
                               const std::array<PointPx, 4>& corners) {
  Progress progress;
  return locate_sheet_by_corners(photo, chart, corners, {}, progress);
}

void place_by_rough_corners(const ChartDefinition& chart, unsigned seed, int trials) {
  const auto sheet = test::printed(chart);
  RandomStance random(seed);
  double worst = 0;
  int found = 0;
  for (int trial = 0; trial < trials; ++trial) {
    Stance stance = any_stance(random);
    stance.fill = random.uniform(0.65, 0.9);
    const Camera camera(chart, stance);
    const Photo photo = test::photograph(sheet, camera, any_look(random, static_cast<unsigned>(trial)));
    auto corners = true_corners(camera, chart);
    const double size = std::hypot(corners[2].x - corners[0].x, corners[2].y - corners[0].y) / std::sqrt(2.0);
    for (PointPx& c : corners) {
      c.x += random.uniform(-0.015, 0.015) * size;
      c.y += random.uniform(-0.015, 0.015) * size;
    }
    const auto located = locate_by(photo, chart, corners);
    if (!located) {
      std::printf("trial %d: %s\n", trial, located.error().message.c_str());
      continue;
    }
    ++found;
    const double error = placement_error_px(camera, located->placement, chart);
    worst = std::max(worst, error);
    EXPECT_LE(error, 0.5) << "trial " << trial;
    EXPECT_EQ(located->markers_found, 0);
  }
  std::printf("%s, seed %u, %d trials: found %d, worst %.3f px\n", chart.name.c_str(), seed, trials, found,
              worst);
  EXPECT_EQ(found, trials);
}

TEST(LocateSheetByCorners, RefinesCornersThatAreOffByOneAndAHalfPercent) {
  ChartDefinition frame = test::small_frame();
  frame.markers.clear();
  place_by_rough_corners(frame, 54, 25);
  place_by_rough_corners(test::touching_grid(), 55, 25);
}

TEST(LocateSheetByCorners, WrongCornersAreToldInWords) {
  const ChartDefinition& chart = frame_sheet().chart;
  const Camera camera(chart, plain_stance());
  const auto c = true_corners(camera, chart);
  const Photo photo = plain_photo();
  EXPECT_TRUE(locate_by(photo, chart, c));
  EXPECT_THAT(locate_by(photo, chart, {c[0], c[3], c[2], c[1]}),
              FailsWith(ErrorCode::bad_call, HasSubstr("anticlockwise")));
  EXPECT_THAT(locate_by(photo, chart, {c[0], c[2], c[1], c[3]}),
              FailsWith(ErrorCode::bad_call, HasSubstr("convex")));
  EXPECT_THAT(locate_by(photo, chart, {c[0], c[1], c[2], c[2]}),
              FailsWith(ErrorCode::bad_call, HasSubstr("0 px long")));
  EXPECT_THAT(locate_by(photo, chart, {c[0], c[1], PointPx{4000, 700}, c[3]}),
              FailsWith(ErrorCode::bad_call, HasSubstr("outside the photo")));
  EXPECT_THAT(locate_by(photo, chart, {c[0], c[1], PointPx{std::nan(""), 700}, c[3]}),
              FailsWith(ErrorCode::bad_call, HasSubstr("no number")));
  EXPECT_THAT(locate_by(photo, chart, {c[2], c[3], c[0], c[1]}),
              FailsWith(ErrorCode::chart_not_found, HasSubstr("turned by 180")));
  EXPECT_THAT(locate_by(test::mirrored(photo), chart,
                        {PointPx{959 - c[1].x, c[1].y}, PointPx{959 - c[0].x, c[0].y},
                         PointPx{959 - c[3].x, c[3].y}, PointPx{959 - c[2].x, c[2].y}}),
              FailsWith(ErrorCode::chart_not_found, HasSubstr("mirrored")));
  EXPECT_THAT(locate_by(photo, test::touching_grid(), c),
              FailsWith(ErrorCode::chart_not_found, HasSubstr("do not fit")));
  EXPECT_THAT(locate_by(test::photograph_of_nothing(1), chart, c),
              FailsWith(ErrorCode::chart_not_found, HasSubstr("do not fit")));
  EXPECT_THAT(locate_by(test::photograph_of_nothing(0), chart, c),
              FailsWith(ErrorCode::chart_not_found, HasSubstr("do not fit")));
}

}  // namespace
}  // namespace colorlib
