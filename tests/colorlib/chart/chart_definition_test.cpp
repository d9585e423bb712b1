#include <colorlib/chart/chart_definition.hpp>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <colorlib/base/strict_text.hpp>
#include <fstream>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::HasSubstr;

const std::string sound = R"({
  "format": "tintfall-chart", "version": 1, "name": "small", "title": "A small chart",
  "sheet_mm": {"width": 100.0, "height": 60},
  "markers": {"family": "tag36h11", "items": [{"id": 7, "x_mm": 5, "y_mm": 5, "side_mm": 10}]},
  "patches": [
    {"id": "N01", "role": "neutral", "x_mm": 20, "y_mm": 5, "width_mm": 10, "height_mm": 8, "nominal_lab": [94, 0, 0]},
    {"id": "C01", "role": "colour", "x_mm": 30, "y_mm": 5, "width_mm": 10, "height_mm": 8, "nominal_lab": [40, 10.5, -3]}],
  "windows": [{"id": "W1", "x_mm": 40, "y_mm": 20, "width_mm": 30, "height_mm": 30}],
  "backings": [{"id": "black", "x_mm": 40, "y_mm": 20, "width_mm": 15, "height_mm": 30, "nominal_lab": [18, 0, 0]}],
  "texts": [{"kind": "ruler", "x_mm": 5, "y_mm": 50, "width_mm": 30, "height_mm": 5}],
  "paper_lab": [95, 0, -2], "made_by": {"anything": [1, 2]}
})";

/// The sound definition with one piece of its text replaced.
Result<ChartDefinition> with(const std::string& from, const std::string& to) {
  std::string text = sound;
  const auto at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  text.replace(at, from.size(), to);
  return parse_chart(text, "small.json");
}

TEST(ChartDefinitionTest, ReadsEveryKeyAndPassesOverUnknownOnes) {
  const auto chart = parse_chart(sound, "small.json");
  ASSERT_TRUE(chart) << chart.error().message;
  EXPECT_EQ(chart->name, "small");
  EXPECT_EQ(chart->title, "A small chart");
  EXPECT_EQ(chart->width_mm, 100);
  EXPECT_EQ(chart->height_mm, 60);
  ASSERT_EQ(chart->markers.size(), 1u);
  EXPECT_EQ(chart->markers[0].id, 7);
  EXPECT_EQ(chart->markers[0].side_mm, 10);
  ASSERT_EQ(chart->patches.size(), 2u);
  EXPECT_EQ(chart->patches[0].role, PatchRole::neutral);
  EXPECT_EQ(chart->patches[1].role, PatchRole::colour);
  EXPECT_EQ(chart->patches[1].place, (RectangleMm{30, 5, 10, 8}));
  EXPECT_EQ(chart->patches[1].nominal_lab, (Lab{40, 10.5, -3}));
  ASSERT_EQ(chart->windows.size(), 1u);
  EXPECT_EQ(chart->windows[0].id, "W1");
  ASSERT_EQ(chart->backings.size(), 1u);
  EXPECT_EQ(chart->backings[0].nominal_lab, (Lab{18, 0, 0}));
  ASSERT_EQ(chart->texts.size(), 1u);
  EXPECT_EQ(chart->texts[0].kind, PrintedTextKind::ruler);
  ASSERT_TRUE(chart->paper_lab);
  EXPECT_EQ(*chart->paper_lab, (Lab{95, 0, -2}));
}

TEST(ChartDefinitionTest, MarkersTitleWindowsAndPaperMayBeAbsent) {
  const auto chart = parse_chart(
      R"({"format": "tintfall-chart", "version": 1, "name": "grid", "sheet_mm": {"width": 50, "height": 50},
          "patches": [{"id": "1", "role": "colour", "x_mm": 0, "y_mm": 0, "width_mm": 50, "height_mm": 50,
                       "nominal_lab": [50, 0, 0]}]})",
      "grid.json");
  ASSERT_TRUE(chart) << chart.error().message;
  EXPECT_EQ(chart->title, "grid");
  EXPECT_TRUE(chart->markers.empty());
  EXPECT_TRUE(chart->windows.empty());
  EXPECT_FALSE(chart->paper_lab);
}

TEST(ChartDefinitionTest, TakesAByteOrderMark) {
  EXPECT_TRUE(parse_chart("\xEF\xBB\xBF" + sound, "small.json"));
}

struct BadPiece {
  const char* from;
  const char* to;
  const char* entry;  ///< named in the sentence
  const char* key;    ///< named in the sentence
};

void PrintTo(const BadPiece& piece, std::ostream* out) { *out << piece.from << " -> " << piece.to; }

class BadDefinitionTest : public testing::TestWithParam<BadPiece> {};

TEST_P(BadDefinitionTest, IsRefusedByEntryAndKey) {
  const BadPiece& bad = GetParam();
  EXPECT_THAT(with(bad.from, bad.to),
              FailsWith(ErrorCode::unreadable_chart,
                        AllOf(HasSubstr("small.json"), HasSubstr(bad.entry), HasSubstr(bad.key))));
}

TEST(ChartDefinitionTest, WhatWasFoundIsShortenedBetweenCharactersNotInside) {
  for (const std::string front : {"", "x", "xy", "xyz"}) {
    std::string name;
    for (int i = 0; i < 60; ++i) name += "\u20AC";  // 3 bytes
    const auto chart = with("\"width\": 100.0", "\"width\": \"" + front + name + "\"");
    ASSERT_THAT(chart, FailsWith(ErrorCode::unreadable_chart, HasSubstr("...")));
    EXPECT_EQ(quotable(chart.error().message, 1000), chart.error().message) << "well-formed UTF-8";
    EXPECT_THAT(chart.error().message, HasSubstr("found \"" + front + "\u20AC"));
  }
}

INSTANTIATE_TEST_SUITE_P(
    Pieces, BadDefinitionTest,
    testing::Values(
        // Format and version.
        BadPiece{"\"tintfall-chart\"", "\"tintfall-record\"", "the top level", "\"format\""},
        BadPiece{"\"tintfall-chart\"", "3", "the top level", "\"format\""},
        BadPiece{"\"version\": 1", "\"version\": 2", "found 2", "\"version\""},
        BadPiece{"\"version\": 1", "\"version\": 1.0", "found 1.0", "\"version\""},
        BadPiece{"\"version\": 1", "\"version\": \"1\"", "the top level", "\"version\""},
        BadPiece{"\"version\": 1", "\"ver\": 1", "found nothing", "\"version\""},
        // Wrong types.
        BadPiece{"\"name\": \"small\"", "\"name\": 7", "the top level", "\"name\""},
        BadPiece{"\"name\": \"small\"", "\"name\": \"\"", "the top level", "\"name\""},
        BadPiece{"\"name\": \"small\"", "\"name\": \"a\\u0000b\"", "the top level", "\"name\""},
        BadPiece{"{\"width\": 100.0, \"height\": 60}", "[100, 60]", "the top level", "\"sheet_mm\""},
        BadPiece{"\"width\": 100.0", "\"width\": \"100\"", "sheet_mm", "\"width\""},
        BadPiece{"\"width\": 100.0", "\"width\": null", "sheet_mm", "\"width\""},
        BadPiece{"\"width\": 100.0", "\"width\": true", "sheet_mm", "\"width\""},
        BadPiece{"\"id\": \"C01\", \"role\"", "\"id\": 1, \"role\"", "patches[1]", "\"id\""},
        BadPiece{"[94, 0, 0]", "[94, 0]", "patches[0] \"N01\"", "\"nominal_lab\""},
        BadPiece{"[94, 0, 0]", "[94, 0, \"0\"]", "patches[0] \"N01\"", "\"nominal_lab\""},
        BadPiece{"[94, 0, 0]", "{\"L\": 94}", "patches[0] \"N01\"", "\"nominal_lab\""},
        BadPiece{"[95, 0, -2]", "\"white\"", "the top level", "\"paper_lab\""},
        BadPiece{"\"windows\": [", "\"windows\": [7, ", "windows[0]", "object"},
        BadPiece{"\"windows\": [", "\"windows\": {\"a\": 1}, \"x\": [", "the top level", "\"windows\""},
        // Sizes and places.
        BadPiece{"\"width\": 100.0", "\"width\": -100.0", "sheet_mm", "\"width\""},
        BadPiece{"\"width\": 100.0", "\"width\": 0", "sheet_mm", "\"width\""},
        BadPiece{"\"width\": 100.0", "\"width\": 1e300", "sheet_mm", "\"width\""},
        BadPiece{"\"x_mm\": 20", "\"x_mm\": -1", "patches[0] \"N01\"", "\"x_mm\""},
        BadPiece{"\"x_mm\": 30", "\"x_mm\": 95", "patches[1] \"C01\"", "off the sheet"},
        BadPiece{"\"width_mm\": 10, \"height_mm\": 8, \"nominal_lab\": [40",
                 "\"width_mm\": 10, \"height_mm\": -8, \"nominal_lab\": [40", "patches[1] \"C01\"",
                 "\"height_mm\""},
        BadPiece{"\"x_mm\": 40", "\"x_mm\": 80", "windows[0] \"W1\"", "off the sheet"},
        BadPiece{"\"side_mm\": 10", "\"side_mm\": 58", "markers.items[0] 7", "off the sheet"},
        BadPiece{"[94, 0, 0]", "[-1, 0, 0]", "patches[0] \"N01\"", "\"nominal_lab\""},
        BadPiece{"[94, 0, 0]", "[94, 0, 1000]", "patches[0] \"N01\"", "\"nominal_lab\""},
        // Names that are not known.
        BadPiece{"\"role\": \"neutral\"", "\"role\": \"grey\"", "patches[0] \"N01\"", "\"role\""},
        BadPiece{"\"kind\": \"ruler\"", "\"kind\": \"poem\"", "texts[0]", "\"kind\""},
        BadPiece{"tag36h11", "tag25h9", "markers", "\"family\""},
        BadPiece{"\"id\": 7", "\"id\": 587", "markers.items[0]", "\"id\""},
        BadPiece{"\"id\": 7", "\"id\": 7.5", "markers.items[0]", "\"id\""},
        BadPiece{"\"id\": 7", "\"id\": 99999999999999999999", "markers.items[0]", "\"id\""},
        // Twice, or in the way of one another.
        BadPiece{"\"id\": \"C01\"", "\"id\": \"N01\"", "patches[1]", "twice"},
        BadPiece{"\"items\": [", "\"items\": [{\"id\": 7, \"x_mm\": 80, \"y_mm\": 5, \"side_mm\": 10},",
                 "markers.items[1]", "twice"},
        BadPiece{"\"paper_lab\"", "\"name\": \"other\", \"paper_lab\"", "\"name\"", "twice"},
        BadPiece{"\"x_mm\": 30", "\"x_mm\": 29", "\"N01\"", "\"C01\" overlap"},
        BadPiece{"\"x_mm\": 20", "\"x_mm\": 14", "\"N01\"", "marker 7 overlap"},
        // No JSON at all.
        BadPiece{"\"width\": 100.0", "\"width\": NaN", "line 3", "not valid JSON"},
        BadPiece{"\"width\": 100.0", "\"width\": 1e999", "small.json", "finite"},
        BadPiece{"\"made_by\": {", "\"made_by\": ", "line 11", "not valid JSON"}));

TEST(ChartDefinitionTest, EmptyWrongOrTruncatedTextIsRefused) {
  for (const std::string text :
       {"", " \n", "[]", "7", "null", "\"tintfall-chart\"", "{}", "\xFF\xD8\xFF\xE0"})
    EXPECT_THAT(parse_chart(text, "small.json"),
                FailsWith(ErrorCode::unreadable_chart, HasSubstr("small.json")))
        << text;
  for (std::size_t length = 0; length + 1 < sound.size(); length += 7)
    EXPECT_FALSE(parse_chart(std::string_view(sound).substr(0, length), "small.json")) << length;
}

TEST(ChartDefinitionTest, DeepNestingIsRefused) {
  // Two million open brackets would overflow a recursive reader's stack.
  const std::string deep = "{\"a\": " + std::string(2'000'000, '[');
  EXPECT_THAT(parse_chart(deep, "deep.json"), FailsWith(ErrorCode::unreadable_chart, HasSubstr("deep.json")));
  const std::string closed = "{\"a\": " + std::string(500'000, '[') + std::string(500'000, ']') + "}";
  EXPECT_THAT(parse_chart(closed, "deep.json"),
              FailsWith(ErrorCode::unreadable_chart, HasSubstr("deeper than 16")));
}

TEST(ChartDefinitionTest, TooManyEntriesAreRefusedBeforeAnythingIsDoneWithThem) {
  std::string patches = "\"patches\": [{}";
  for (int i = 0; i < 3000; ++i) patches += ", {}";
  EXPECT_THAT(with("\"patches\": [", patches + ", "),
              FailsWith(ErrorCode::unreadable_chart,
                        AllOf(HasSubstr("\"patches\""), HasSubstr("3003 entries"), HasSubstr("2000"))));
}

TEST(ChartDefinitionTest, AMillionPatchesAreRefusedAtOnce) {
  const auto path = std::filesystem::temp_directory_path() / "tintfall_million_patches.json";
  {
    std::ofstream file(path);
    file
        << R"({"format": "tintfall-chart", "version": 1, "name": "m", "sheet_mm": {"width": 10, "height": 10}, "patches": [)";
    for (int i = 0; i < 1'000'000; ++i)
      file
          << (i ? "," : "") << R"({"id": ")" << i
          << R"(", "role": "colour", "x_mm": 0, "y_mm": 0, "width_mm": 1, "height_mm": 1, "nominal_lab": [1, 1, 1]})";
    file << "]}";
  }
  const auto begin = std::chrono::steady_clock::now();
  EXPECT_THAT(read_chart(path), FailsWith(ErrorCode::unreadable_chart, HasSubstr("larger than")));
  // The limit stops the reading after 4 MiB; whole, the file takes many times as long. 2 s leaves room for a
  // busy machine.
  EXPECT_LT(std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count(), 2);
  std::filesystem::remove(path);
}

TEST(ChartDefinitionTest, MissingFilesAndFoldersAreNamed) {
  EXPECT_THAT(read_chart("/nonexistent/chart.json"),
              FailsWith(ErrorCode::unreadable_chart, HasSubstr("/nonexistent/chart.json")));
  EXPECT_THAT(read_chart(std::filesystem::temp_directory_path()),
              FailsWith(ErrorCode::unreadable_chart, HasSubstr("folder")));
}

TEST(FindChartTest, FindsShippedChartsByNameAndFilesByPath) {
  const auto by_name = find_chart("frame-a5");
  ASSERT_TRUE(by_name) << by_name.error().message;
  EXPECT_EQ(by_name->name, "frame-a5");
  const auto by_path = find_chart(TINTFALL_SOURCE_FOLDER "/charts/frame-a5.json");
  ASSERT_TRUE(by_path) << by_path.error().message;
  EXPECT_EQ(by_path->name, "frame-a5");
}

TEST(FindChartTest, AnUnknownNameListsWhatThereIs) {
  EXPECT_THAT(find_chart("frame-a6"),
              FailsWith(ErrorCode::unreadable_chart,
                        AllOf(HasSubstr("'frame-a6'"), HasSubstr("frame-a4, frame-a5, frame-letter"))));
  EXPECT_THAT(find_chart(""), FailsWith(ErrorCode::unreadable_chart, HasSubstr("frame-a5")));
  EXPECT_THAT(find_chart("missing.json"), FailsWith(ErrorCode::unreadable_chart, HasSubstr("missing.json")));
}

}  // namespace
}  // namespace colorlib
