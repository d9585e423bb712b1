#include <gtest/gtest.h>

#include <colorlib/specimen/regions.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;

std::string with_regions(const std::string& items) {
  return R"({"format": "tintfall-regions", "version": 1, "frame": "chart", "regions": [)" + items + "]}";
}

TEST(Regions, ReadsTheDocumentedExample) {
  const auto regions = parse_regions(with_regions(R"(
    {"id": "A", "kind": "spot", "controls": ["B", "C"], "shape": "ellipse", "centre": [105.0, 75.0], "radii": [8.0, 6.0]},
    {"id": "B", "kind": "control", "shape": "polygon", "points": [[80,60],[95,60],[95,70],[80,70]]},
    {"id": "C", "kind": "water", "shape": "ellipse", "centre": [120.0, 75.0], "radii": [6.0, 6.0]})"),
                                     "r.json");
  ASSERT_TRUE(regions) << regions.error().message;
  ASSERT_EQ(regions->items.size(), 3u);
  EXPECT_EQ(regions->items[0].kind, RegionKind::spot);
  EXPECT_TRUE(regions->items[0].contains(112.9, 75));
  EXPECT_FALSE(regions->items[0].contains(105, 81.1));
  EXPECT_TRUE(regions->items[1].contains(94, 69));
  EXPECT_FALSE(regions->items[1].contains(96, 65));
  const auto again = parse_regions(regions_json(*regions), "again.json");
  ASSERT_TRUE(again);
  EXPECT_EQ(regions_json(*again), regions_json(*regions));
}

TEST(Regions, SayWhetherTheOutlineWasFound) {
  const std::string found =
      R"({"id": "W1", "kind": "deposit", "found": true, "shape": "ellipse", "centre": [1,1], "radii": [1,1]})";
  const auto regions = parse_regions(with_regions(found), "r.json");
  ASSERT_TRUE(regions) << regions.error().message;
  EXPECT_TRUE(regions->items[0].found);
  const auto again = parse_regions(regions_json(*regions), "again.json");
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_TRUE(again->items[0].found);
}

TEST(Regions, RefusesEachFaultByName) {
  const std::pair<std::string, std::string> cases[] = {
      {"", "sound JSON"},
      {"[", "sound JSON"},
      {"[]", "format"},
      {R"({"format": "tintfall-regions", "version": 2, "regions": []})", "version"},
      {R"({"format": "tintfall-regions", "version": 1, "frame": "moon", "regions": []})", "frame"},
      {with_regions(""), "empty"},
      {with_regions("1"), "region 1"},
      {with_regions(R"({"id": "A", "kind": "lamp", "shape": "ellipse", "centre": [1,1], "radii": [1,1]})"),
       "'lamp'"},
      {with_regions(R"({"id": "A", "kind": "spot", "shape": "ellipse", "centre": [1], "radii": [1,1]})"),
       "centre"},
      {with_regions(R"({"id": "A", "kind": "spot", "shape": "ellipse", "centre": [1,1], "radii": [0,1]})"),
       "radius"},
      {with_regions(R"({"id": "A", "kind": "spot", "shape": "ellipse", "centre": [1,"x"], "radii": [1,1]})"),
       "centre"},
      {with_regions(
           R"({"id": "A", "kind": "spot", "shape": "ellipse", "centre": [1,1e999], "radii": [1,1]})"),
       ""},
      {with_regions(R"({"id": "A", "kind": "spot", "shape": "polygon", "points": [[1,1],[2,2]]})"), "points"},
      {with_regions(R"({"id": "A", "kind": "spot", "shape": "star"})"), "shape"},
      {with_regions(R"({"id": "A\u001b[2J", "kind": "spot", "shape": "star"})"), "control character"},
      {with_regions(R"({"id": "A\u009b2J", "kind": "spot", "shape": "star"})"), "control character"},
      {with_regions(R"({"id": "A\u202e", "kind": "lamp\u001b[2J", "shape": "star"})"), "'lamp?[2J'"},
      {with_regions(
           R"({"id": "A", "kind": "spot", "controls": ["\u001b[2J"], "shape": "ellipse", "centre": [1,1], "radii": [1,1]})"),
       "'?[2J'"},
      {with_regions(
           R"({"id": "A", "kind": "spot", "found": 1, "shape": "ellipse", "centre": [1,1], "radii": [1,1]})"),
       "found"},
      {with_regions(
           R"({"id": "A", "kind": "spot", "controls": ["Z"], "shape": "ellipse", "centre": [1,1], "radii": [1,1]})"),
       "'Z'"},
      {with_regions(R"({"id": "A", "kind": "spot", "shape": "ellipse", "centre": [1,1], "radii": [1,1]},
                       {"id": "A", "kind": "spot", "shape": "ellipse", "centre": [1,1], "radii": [1,1]})"),
       "twice"},
      {std::string(5000, '['), "sound JSON"}};
  for (const auto& [text, words] : cases)
    EXPECT_THAT(parse_regions(text, "r.json"), FailsWith(ErrorCode::unreadable_regions, HasSubstr(words)))
        << text.substr(0, 80);
}

TEST(PolygonShape, GivesItsLoopsBackWithoutBridges) {
  const PolygonShape ring{{{0, 0},
                           {9, 0},
                           {9, 9},
                           {0, 9},
                           {0, 0},
                           {2, 2},
                           {2, 4},
                           {4, 4},
                           {2, 2},
                           {0, 0},
                           {6, 6},
                           {6, 8},
                           {8, 8},
                           {6, 6}}};
  const auto loops = ring.loops();
  ASSERT_EQ(loops.size(), 3u);
  EXPECT_EQ(loops[0].size(), 4u);
  EXPECT_EQ(loops[1].size(), 3u);
  EXPECT_EQ(loops[2].front(), (std::array<double, 2>{6, 6}));
  EXPECT_EQ((PolygonShape{{{0, 0}, {9, 0}, {9, 9}}}).loops().size(), 1u);
}

TEST(RegionIds, AreLettersThenNumbers) {
  EXPECT_EQ(region_id_at(0), "A");
  EXPECT_EQ(region_id_at(25), "Z");
  EXPECT_EQ(region_id_at(26), "R27");
}

TEST(RegionOption, TakesKindPlaceAndRadius) {
  const auto region = region_from_option("deposit@105.5,74,8", "R1");
  ASSERT_TRUE(region);
  EXPECT_EQ(region->id, "R1");
  EXPECT_EQ(region->kind, RegionKind::deposit);
  EXPECT_TRUE(region->contains(113.4, 74));
  for (const char* wrong : {"", "deposit", "deposit@1,2", "deposit@1,2,3,4", "deposit@a,2,3", "deposit@1,2,0",
                            "deposit@1,2,-3", "deposit@nan,2,3", "lamp@1,2,3", "@1,2,3"})
    EXPECT_THAT(region_from_option(wrong, "R1"), FailsWith(ErrorCode::bad_call, testing::_)) << wrong;
}

}  // namespace
}  // namespace colorlib
