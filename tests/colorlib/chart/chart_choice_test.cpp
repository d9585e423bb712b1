#include <gtest/gtest.h>
#include <colorlib/chart/chart_choice.hpp>

#include "tests/colorlib/chart/sheet_photo.hpp"
#include "tests/support/color_matchers.hpp"

namespace colorlib {
namespace {

using testing::AllOf;
using testing::HasSubstr;

/// Markers of `chart` where an upright sheet at 10 px/mm would show them.
std::vector<MarkerSighting> seen_of(const ChartDefinition& chart, const std::vector<std::size_t>& which,
                                    double left_px = 0) {
  std::vector<MarkerSighting> seen;
  for (const std::size_t i : which) {
    MarkerSighting s;
    s.id = chart.markers[i].id;
    const auto corners = corners_of(chart.markers[i]);
    for (std::size_t k = 0; k < 4; ++k) s.corners_px[k] = {left_px + 10 * corners[k].x, 10 * corners[k].y};
    seen.push_back(s);
  }
  return seen;
}

std::vector<ChartDefinition> two_charts() {
  std::vector<ChartDefinition> charts = {test::small_frame(100), test::small_frame(200)};
  charts[0].name = "first";
  charts[1].name = "second";
  return charts;
}

TEST(ChooseChart, GoesByTheMarkers) {
  const auto charts = two_charts();
  const auto choice = choose_chart(seen_of(charts[1], {3, 1}), charts);
  ASSERT_TRUE(choice);
  EXPECT_EQ(choice->chart, 1u);
  EXPECT_EQ(choice->marker, (std::vector<std::size_t>{3, 1}));
  EXPECT_TRUE(choice->remarks.empty());
}

TEST(ChooseChart, AStrayMarkerOfAnotherChartIsRemarked) {
  const auto charts = two_charts();
  auto seen = seen_of(charts[0], {0, 1, 2});
  seen.push_back(seen_of(charts[1], {0})[0]);
  const auto choice = choose_chart(seen, charts);
  ASSERT_TRUE(choice);
  EXPECT_EQ(choice->chart, 0u);
  EXPECT_EQ(choice->marker.size(), 3u);
  // Alone, the first chart does not know that id at all.
  const auto alone = choose_chart(seen, std::span(charts).subspan(0, 1));
  ASSERT_TRUE(alone);
  ASSERT_EQ(alone->remarks.size(), 1u);
  EXPECT_THAT(alone->remarks[0], HasSubstr("200"));
}

TEST(ChooseChart, NamesTheShippedChartWhoseMarkersItSaw) {
  const auto a5 = find_chart("frame-a5"), a4 = find_chart("frame-a4");
  ASSERT_TRUE(a5 && a4);
  const auto choice = choose_chart(seen_of(*a5, {0, 1, 2}), std::span(&*a4, 1));
  EXPECT_THAT(choice, FailsWith(ErrorCode::chart_not_found,
                                HasSubstr("another chart only: they are those of frame-a5.")));
  EXPECT_THAT(choice.error().advice, HasSubstr("Name frame-a5 as the chart, or photograph"));
}

TEST(ChooseChart, SaysWhichMarkersItSaw) {
  const auto charts = two_charts();
  EXPECT_THAT(
      choose_chart(seen_of(test::small_frame(300), {0, 2}), charts),
      FailsWith(ErrorCode::chart_not_found, AllOf(HasSubstr("300, 302"), HasSubstr("another chart"))));
  auto both = seen_of(charts[0], {0, 1, 2});
  for (const auto& s : seen_of(charts[1], {0, 1}, 3000)) both.push_back(s);
  EXPECT_THAT(choose_chart(both, charts), FailsWith(ErrorCode::chart_not_found, HasSubstr("two charts")));
  EXPECT_TRUE(choose_chart(both, std::span(charts).subspan(0, 1)));  // the user said which
  auto twice = seen_of(charts[0], {0, 1});
  for (const auto& s : seen_of(charts[0], {0, 1}, 3000)) twice.push_back(s);
  EXPECT_THAT(choose_chart(twice, charts), FailsWith(ErrorCode::chart_not_found, HasSubstr("two copies")));
  const std::vector<ChartDefinition> same_ids = {charts[0], [] {
                                                   auto c = test::small_frame(100);
                                                   c.name = "third";
                                                   return c;
                                                 }()};
  EXPECT_THAT(choose_chart(seen_of(charts[0], {0, 1}), same_ids),
              FailsWith(ErrorCode::chart_not_found, HasSubstr("both")));
}

TEST(DropMisplacedMarker, LeavesOutTheOneThatTheOthersDisown) {
  const auto charts = two_charts();
  for (std::size_t moved = 0; moved < 4; ++moved) {
    auto choice = choose_chart(seen_of(charts[0], {0, 1, 2, 3}), charts);
    ASSERT_TRUE(choice);
    EXPECT_EQ(drop_misplaced_marker(charts[0], *choice), -1);
    for (PointPx& c : choice->sighting[moved].corners_px) c.x += 250;
    EXPECT_EQ(drop_misplaced_marker(charts[0], *choice), static_cast<int>(100 + moved));
    EXPECT_EQ(choice->marker.size(), 3u);
  }
  // Of two that disagree nobody can say which is wrong.
  auto choice = choose_chart(seen_of(charts[0], {0, 1}), charts);
  ASSERT_TRUE(choice);
  for (PointPx& c : choice->sighting[0].corners_px) c.y += 250;
  EXPECT_EQ(drop_misplaced_marker(charts[0], *choice), -1);
}

TEST(DropMisplacedMarker, LensDistortionAccusesNobody) {
  const auto charts = two_charts();
  test::RandomStance random(45);
  for (int trial = 0; trial < 100; ++trial) {
    test::Stance stance;
    stance.tilt_deg = random.uniform(0, 30);
    stance.tilt_towards_deg = random.uniform(0, 360);
    stance.rotation_deg = random.uniform(0, 360);
    stance.fill = 0.95;
    stance.radial = trial % 2 ? 0.03 : -0.03;
    const test::Camera camera(charts[0], stance);
    auto seen = seen_of(charts[0], {0, 1, 2, 3});
    for (std::size_t i = 0; i < 4; ++i)
      for (std::size_t k = 0; k < 4; ++k)
        seen[i].corners_px[k] = camera.placement().px_from_mm(corners_of(charts[0].markers[i])[k]);
    auto choice = choose_chart(seen, charts);
    ASSERT_TRUE(choice);
    EXPECT_EQ(drop_misplaced_marker(charts[0], *choice), -1) << trial;
  }
}

}  // namespace
}  // namespace colorlib
