#include <gtest/gtest.h>
#include <colorlib/chart/paper_sampler.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>

#include "tests/colorlib/chart/sheet_photo.hpp"

namespace colorlib {
namespace {

double distance_mm(const RectangleMm& r, const PointMm& p) {
  const double dx = std::max({r.x - p.x, 0.0, p.x - r.x - r.width}),
               dy = std::max({r.y - p.y, 0.0, p.y - r.y - r.height});
  return std::max(dx, dy);  // blocks are squares
}

TEST(BarePaperPlaces, KeepTheirDistances) {
  const auto chart = test::small_frame();
  const SampleOptions options;
  const auto places = bare_paper_places(chart, options);
  EXPECT_GT(places.size(), 600u);
  const double half = options.paper_block_mm / 2, slack = 1e-9;
  for (const PointMm& p : places) {
    EXPECT_GE(std::min({p.x, p.y, chart.width_mm - p.x, chart.height_mm - p.y}),
              options.paper_edge_gap_mm + half - slack);
    for (const Patch& patch : chart.patches)
      EXPECT_GE(distance_mm(patch.place, p), options.paper_gap_mm + half - slack);
    for (const ChartWindow& w : chart.windows)
      EXPECT_GE(distance_mm(w.place, p), options.paper_gap_mm + half - slack);
    for (const Marker& m : chart.markers)
      EXPECT_GE(distance_mm({m.x_mm, m.y_mm, m.side_mm, m.side_mm}, p),
                m.side_mm / 8 + options.paper_gap_mm + half - slack);
  }
}

TEST(BarePaperPlaces, AreAllThatKeepTheirDistances) {
  // By brute force over the same grid.
  const auto chart = test::small_frame();
  const SampleOptions options;
  const auto places = bare_paper_places(chart, options);
  ASSERT_FALSE(places.empty());
  const double half = options.paper_block_mm / 2, edge = options.paper_edge_gap_mm + half, slack = 1e-9;
  std::size_t count = 0;
  double left = 1e9, top = 1e9;
  for (const PointMm& p : places) left = std::min(left, p.x), top = std::min(top, p.y);
  EXPECT_LT(left - options.paper_grid_mm, edge);
  EXPECT_LT(top - options.paper_grid_mm, edge);
  for (int row = 0; row < 100; ++row)
    for (int column = 0; column < 100; ++column) {
      const PointMm at{left + column * options.paper_grid_mm, top + row * options.paper_grid_mm};
      bool bare = at.x <= chart.width_mm - edge + slack && at.y <= chart.height_mm - edge + slack;
      const auto clear_of = [&](const RectangleMm& r, double gap) {
        bare = bare && distance_mm(r, at) >= gap + half - slack;
      };
      for (const Patch& q : chart.patches) clear_of(q.place, options.paper_gap_mm);
      for (const ChartWindow& w : chart.windows) clear_of(w.place, options.paper_gap_mm);
      for (const Marker& m : chart.markers)
        clear_of({m.x_mm, m.y_mm, m.side_mm, m.side_mm}, m.side_mm / 8 + options.paper_gap_mm);
      count += bare;
    }
  EXPECT_EQ(places.size(), count);
}

TEST(EvenlySpread, LeavesNoHoleAndNoCrowd) {
  std::vector<PointMm> grid;
  for (int i = 0; i < 80; ++i)
    for (int j = 0; j < 50; ++j) grid.push_back({2.5 * i, 2.5 * j});
  const auto chosen = evenly_spread(grid, 150);
  ASSERT_EQ(chosen.size(), 150u);
  EXPECT_EQ(chosen, evenly_spread(grid, 150));
  double closest = 1e9, hole = 0;
  for (std::size_t i = 0; i < chosen.size(); ++i)
    for (std::size_t j = i + 1; j < chosen.size(); ++j)
      closest = std::min(closest, std::hypot(chosen[i].x - chosen[j].x, chosen[i].y - chosen[j].y));
  for (const PointMm& p : grid) {
    double nearest = 1e9;
    for (const PointMm& c : chosen) nearest = std::min(nearest, std::hypot(p.x - c.x, p.y - c.y));
    hole = std::max(hole, nearest);
  }
  std::printf("closest pair %.1f mm, largest hole %.1f mm\n", closest, hole);
  // The greedy choice guarantees hole <= closest; 150 squares of an area of 200 x 125 mm have sides of 13 mm.
  EXPECT_LE(hole, closest + 1e-9);
  EXPECT_GT(closest, 9);
  EXPECT_EQ(evenly_spread(grid, 5000).size(), grid.size());
  EXPECT_TRUE(evenly_spread(grid, 0).empty());
  EXPECT_TRUE(evenly_spread({}, 10).empty());
}

struct Pictured {
  test::PrintedSheet sheet = test::printed(test::small_frame());
  test::Stance stance;
  Pictured() {
    stance.width_px = 1600;
    stance.height_px = 1200;
    stance.rotation_deg = 21;
    stance.tilt_deg = 10;
  }
};

TEST(SamplePaper, MeasuresPaperAndNothingElse) {
  Pictured pictured;
  const test::Camera camera(pictured.sheet.chart, pictured.stance);
  test::Look look;
  look.noise_sd = 0.003;
  look.light_slope = 0;
  const Photo photo = test::photograph(pictured.sheet, camera, look);
  const PaperSamples samples = sample_paper(photo, pictured.sheet.chart, camera.placement(), {});
  ASSERT_EQ(samples.blocks.size(), 150u);
  double low = 1, high = 0;
  for (const PaperSample& s : samples.blocks) {
    low = std::min(low, s.encoded[1]);
    high = std::max(high, s.encoded[1]);
    EXPECT_GE(s.pixels, 9);
    EXPECT_LE(s.inner_sd, 0.008);
  }
  std::printf("paper from %.4f to %.4f, %d dropped\n", low, high, samples.dropped);
  EXPECT_LT(high - low, 0.012);  // 0.003 over at least 3 pixels a side, and 8-bit steps
}

TEST(SamplePaper, SoilWordsAndGlintsAreLeftOut) {
  Pictured pictured;
  // A stain, words, and a pale yellow smudge that is hardly darker.
  const std::vector<RectangleMm> stain = {{60, 110, 30, 6}}, words = {{100, 110, 30, 6}},
                                 smudge = {{140, 110, 12, 6}};
  auto& ink = pictured.sheet.ink;
  const auto tint = [&](const RectangleMm& r, float red, float green, float blue, bool lines) {
    for (int row = static_cast<int>(10 * r.y); row < static_cast<int>(10 * (r.y + r.height)); ++row)
      for (int column = static_cast<int>(10 * r.x); column < static_cast<int>(10 * (r.x + r.width));
           ++column) {
        if (lines && row % 8 > 2) continue;
        float* p = ink.at(row, column);
        p[0] *= red, p[1] *= green, p[2] *= blue;
      }
  };
  tint(stain[0], 0.6f, 0.6f, 0.6f, false);
  tint(words[0], 0.1f, 0.1f, 0.1f, true);
  tint(smudge[0], 0.95f, 0.93f, 0.72f, false);
  const test::Camera camera(pictured.sheet.chart, pictured.stance);
  const Photo photo = test::photograph(pictured.sheet, camera, {});
  SampleOptions options;
  options.most_paper = 400;
  const PaperSamples samples = sample_paper(photo, pictured.sheet.chart, camera.placement(), options);
  EXPECT_GT(samples.blocks.size(), 300u);
  EXPECT_GT(samples.dropped, 15);
  for (const PaperSample& s : samples.blocks)
    for (const auto* soiled : {&stain[0], &words[0], &smudge[0]})
      EXPECT_GT(distance_mm(*soiled, s.place), 0) << s.place.x << ", " << s.place.y;
}

TEST(SamplePaper, ClippedPaperIsDroppedAndCounted) {
  Pictured pictured;
  const test::Camera camera(pictured.sheet.chart, pictured.stance);
  test::Look look;
  look.exposure = 1.15;
  look.light_slope = 0.5;
  const Photo photo = test::photograph(pictured.sheet, camera, look);
  const PaperSamples samples = sample_paper(photo, pictured.sheet.chart, camera.placement(), {});
  EXPECT_GT(samples.dropped, 50);
  EXPECT_GT(samples.blocks.size(), 50u);
  for (const PaperSample& s : samples.blocks)
    for (const double v : s.encoded) EXPECT_LT(v, 0.992);
}

TEST(SamplePaper, ASheetWithoutBarePaperGivesNone) {
  ChartDefinition chart = test::small_frame();
  chart.windows = {{"all", {0, 0, chart.width_mm, chart.height_mm}}};
  EXPECT_TRUE(bare_paper_places(chart, {}).empty());
  const Photo photo = test::photograph_of_nothing(0, 200, 150);
  EXPECT_TRUE(sample_paper(photo, chart, Placement{}, {}).blocks.empty());
  SampleOptions odd;
  odd.most_paper = 0;
  EXPECT_TRUE(sample_paper(photo, test::small_frame(), Placement{}, odd).blocks.empty());
  odd.most_paper = -3;
  odd.paper_grid_mm = 0;
  EXPECT_TRUE(sample_paper(photo, test::small_frame(), Placement{}, odd).blocks.empty());
}

}  // namespace
}  // namespace colorlib
