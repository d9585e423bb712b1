#include <fmt/format.h>
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>
#include <tests/end_to_end/bad_call.hpp>
#include <tests/end_to_end/demo_photo.hpp>

namespace tintfall {
namespace {

using nlohmann::json;
using testing::Eq;
using testing::HasSubstr;

/// The shipped definition as JSON, to be spoilt.
json definition() {
  std::ifstream stream(std::string(TINTFALL_SOURCE_FOLDER) + "/charts/frame-a5.json");
  return json::parse(stream);
}

class BadInputs : public testing::Test {
 protected:
  void SetUp() override { scratch_.write("photo.jpg", demo_photo().scene.jpeg_bytes); }
  std::string photo() const { return scratch_.path("photo.jpg"); }
  void expect_chart_refused(const std::string& text, const std::string& word) {
    expect_refused({"read", photo(), "--chart", scratch_.write("chart.json", text)},
                   {3, "unreadable-chart", word});
  }
  void expect_reference_refused(const std::string& text, const std::string& word) {
    expect_refused({"read", photo(), "--chart", "frame-a5", "--reference", scratch_.write("ref.txt", text)},
                   {3, "unreadable-reference", word});
    // The chart may also be told by its markers, and the reference read afterwards.
    expect_refused({"read", photo(), "--reference", scratch_.path("ref.txt")},
                   {3, "unreadable-reference", word});
  }
  void expect_regions_refused(const std::string& text, const std::string& word) {
    expect_refused({"read", photo(), "--regions", scratch_.write("regions.json", text)},
                   {3, "unreadable-regions", word});
  }
  const ScratchFolder scratch_;
};

using BadCharts = BadInputs;
using BadReferences = BadInputs;
using BadRegions = BadInputs;

TEST_F(BadCharts, UnknownMissingOrNoJson) {
  expect_refused({"read", photo(), "--chart", "frame-a55"}, {3, "unreadable-chart", "frame-a5"});
  expect_refused({"read", photo(), "--chart", scratch_.path("none.json")},
                 {3, "unreadable-chart", "does not exist"});
  expect_chart_refused("", "empty");
  expect_chart_refused("words", "");
  expect_chart_refused(definition().dump().substr(0, 500), "");
  expect_chart_refused(std::string(100000, '['), "");
  expect_chart_refused(json(1).dump(), "");
}

TEST_F(BadCharts, WrongTypesNameTheEntryAndTheKey) {
  const std::pair<const char*, json> wrong[] = {
      {"/format", "other"},
      {"/version", 2},
      {"/name", 5},
      {"/sheet_mm/width", "210"},
      {"/sheet_mm/width", -210},
      {"/sheet_mm/height", 1e9},
      {"/markers/items/0/id", "0"},
      {"/markers/items/0/side_mm", 0},
      {"/markers/family", "tag16h5"},
      {"/patches", 7},
      {"/patches/3/x_mm", nullptr},
      {"/patches/3/role", "purple"},
      {"/patches/3/nominal_lab", {50, 0}},
      {"/patches/3/nominal_lab", {50, "0", 0}},
      {"/windows/0/width_mm", -3},
      {"/paper_lab", "white"},
  };
  for (const auto& [pointer, value] : wrong) {
    json chart = definition();
    const json::json_pointer place(pointer);
    chart[place] = value;
    expect_chart_refused(chart.dump(), place.back());
  }
}

TEST_F(BadCharts, NotANumber) {
  std::string text = definition().dump();
  const auto place = text.find("\"x_mm\":");
  ASSERT_NE(place, std::string::npos);
  const auto end = text.find_first_of(",}", place);
  for (const char* bad : {"NaN", "Infinity", "-Infinity", "1e999"})
    expect_chart_refused(text.substr(0, place + 7) + bad + text.substr(end), "");
}

TEST_F(BadCharts, Duplicates) {
  json twice = definition();
  twice["patches"][4]["id"] = twice["patches"][5]["id"];
  expect_chart_refused(twice.dump(), "twice");
  json markers = definition();
  markers["markers"]["items"][0]["id"] = markers["markers"]["items"][1]["id"];
  expect_chart_refused(markers.dump(), "twice");
}

TEST_F(BadCharts, AMillionPatches) {
  json chart = definition();
  const json patch = chart["patches"][0];
  std::string text =
      R"({"format": "tintfall-chart", "version": 1, "name": "x", "sheet_mm": {"width": 210, "height": 148}, "patches": [{})";
  for (int i = 1; i < 1'000'000; ++i) text += ",{}";
  expect_chart_refused(text.append("]}"), "1000000 entries");
  for (int i = 0; i < 1'000'000; ++i) text += ",{\"id\":\"C01\"}";
  expect_chart_refused(text.append("]}"), "larger than");
  json many = definition();
  for (int i = 0; i < 2000; ++i) {
    json copy = patch;
    copy["id"] = fmt::format("M{}", i);
    many["patches"].push_back(copy);
  }
  expect_chart_refused(many.dump(), "2000");
}

TEST_F(BadCharts, AnotherChartThanTheOneInThePhoto) {
  expect_refused({"read", photo(), "--chart", "strip"}, {4, "chart-not-found", ""});
}

TEST_F(BadCharts, CornersThatCannotBe) {
  const auto call = [&](std::vector<std::string> corners) {
    std::vector<std::string> arguments{"read", photo(), "--chart", "frame-a5", "--corners"};
    arguments.insert(arguments.end(), corners.begin(), corners.end());
    return arguments;
  };
  expect_refused(call({"0,0", "0,0", "0,0", "0,0"}), {2, "bad-call", ""});
  expect_refused(call({"100,100", "900,100", "100,800", "900,800"}), {2, "bad-call", ""});  // crossed
  expect_refused(call({"-90000,0", "90000,0", "90000,90000", "-90000,90000"}),
                 {2, "bad-call", ""});  // far outside
}

TEST_F(BadReferences, MissingEmptyOrNoTable) {
  expect_refused({"read", photo(), "--reference", scratch_.path("none.txt")},
                 {3, "unreadable-reference", "does not exist"});
  expect_reference_refused("", "empty");
  expect_reference_refused("some words about colours\n", "");
  expect_reference_refused(demo_photo().scene.jpeg_bytes, "");
}

/// The line of a patch in the reference text.
std::pair<std::size_t, std::size_t> line_of(const std::string& text, const std::string& id) {
  const auto begin = text.find("\n" + id);
  EXPECT_NE(begin, std::string::npos);
  return {begin + 1, text.find('\n', begin + 1)};
}

TEST_F(BadReferences, OnePatchIsMissing) {
  std::string text = demo_photo().reference_text;
  const std::string id = demo_photo().chart.patches[7].id;
  const auto [begin, end] = line_of(text, id);
  text.erase(begin, end + 1 - begin);
  const auto sets = text.find("NUMBER_OF_SETS");
  ASSERT_NE(sets, std::string::npos);
  text.replace(sets, text.find('\n', sets) - sets,
               "NUMBER_OF_SETS " + std::to_string(demo_photo().chart.patches.size() - 1));
  expect_reference_refused(text, id);
}

TEST_F(BadReferences, WordsInPlaceOfANumberAreNamedByRow) {
  for (const char* bad : {"abc", "nan", "1e400", "0x10", "12..5"}) {
    std::string text = demo_photo().reference_text;
    const std::string id = demo_photo().chart.patches[7].id;
    const auto [begin, end] = line_of(text, id);
    const auto gap = text.find_first_of(" \t", begin);
    const auto number = text.find_first_not_of(" \t", gap);
    text.replace(number, text.find_first_of(" \t", number) - number, bad);
    expect_reference_refused(text, id);
  }
}

TEST_F(BadReferences, APatchTwice) {
  std::string text = demo_photo().reference_text;
  const auto [begin, end] = line_of(text, demo_photo().chart.patches[7].id);
  text.insert(end + 1, text.substr(begin, end + 1 - begin));
  const auto sets = text.find("NUMBER_OF_SETS");
  text.replace(sets, text.find('\n', sets) - sets,
               "NUMBER_OF_SETS " + std::to_string(demo_photo().chart.patches.size() + 1));
  expect_reference_refused(text, demo_photo().chart.patches[7].id);
}

/// The reference as a spreadsheet would save it.
std::string spreadsheet(char separator, char decimal, const std::string& line_end, bool mark) {
  std::string text(mark ? "\xEF\xBB\xBF" : "");
  const auto number = [&](double value) {
    std::string digits = std::to_string(value);
    digits[digits.find('.')] = decimal;
    return digits;
  };
  const std::string s(1, separator);
  text += "SAMPLE_ID" + s + "LAB_L" + s + "LAB_A" + s + "LAB_B" + line_end;
  const auto& demo = demo_photo();
  for (std::size_t i = 0; i < demo.chart.patches.size(); ++i) {
    const auto& lab = demo.scene.reference.patches[i].lab;
    text += demo.chart.patches[i].id + s + number(lab.l) + s + number(lab.a) + s + number(lab.b) + line_end;
  }
  return text;
}

/// L*, a*, b* of the first reading.
std::array<double, 3> first_lab(const CommandRun& run) {
  return json::parse(run.out)["readings"][0]["lab"].get<std::array<double, 3>>();
}

TEST_F(BadReferences, TablesOfSpreadsheetsReadLikeTheOriginal) {
  const auto original =
      run_tintfall({"read", photo(), "--reference",
                    scratch_.write("o.csv", spreadsheet(',', '.', "\n", false)), "--json", "-"});
  ASSERT_THAT(original.status, Eq(0)) << original.err;
  for (const auto& text : {spreadsheet(';', ',', "\r\n", true), spreadsheet(';', '.', "\n", true),
                           spreadsheet('\t', ',', "\r\n", false)}) {
    const auto run =
        run_tintfall({"read", photo(), "--reference", scratch_.write("t.csv", text), "--json", "-"});
    ASSERT_THAT(run.status, Eq(0)) << run.err;
    EXPECT_THAT(first_lab(run), Eq(first_lab(original)));
    EXPECT_THAT(json::parse(run.out)["chart"]["reference"], Eq("measured"));
  }
  // Commas between columns and in numbers: nobody can tell them apart.
  expect_reference_refused(spreadsheet(',', ',', "\n", false), "line 2");
}

TEST_F(BadRegions, MissingOrMalformed) {
  expect_refused({"read", photo(), "--regions", scratch_.path("none.json")},
                 {3, "unreadable-regions", "does not exist"});
  expect_regions_refused("{", "JSON");
  expect_regions_refused(demo_photo().regions_text.substr(0, 60), "JSON");
  expect_regions_refused(R"({"format": "tintfall-regions", "version": 1, "regions": []})", "regions");
  expect_regions_refused(
      R"({"format": "tintfall-regions", "version": 1, "regions": [{"id": "A", "kind": "moon"}]})", "A");
  json twice = json::parse(demo_photo().regions_text);
  twice["regions"][1]["id"] = twice["regions"][0]["id"];
  expect_regions_refused(twice.dump(), "twice");
  expect_regions_refused(std::string(100000, '['), "");
}

TEST_F(BadRegions, ALineEnclosesNothing) {
  const std::string line = scratch_.write("line.json", R"({"format": "tintfall-regions", "version": 1,
    "frame": "chart", "regions": [{"id": "A", "kind": "deposit", "shape": "polygon",
                                   "points": [[90, 60], [91, 60], [92, 60]]}]})");
  expect_refused({"read", photo(), "--regions", line}, {5, "untrustworthy", "its outline encloses no area"});
}

TEST_F(BadRegions, OneGivenTwice) {
  expect_refused({"read", photo(), "--region", "deposit@105,74,4", "--region", "substrate@105,74,4",
                  "--region", "deposit@105,74,4"},
                 {2, "bad-call", "The regions 'A' and 'C' are the same: deposit"});
}

TEST_F(BadRegions, AMillionOfAnything) {
  std::string keys = R"({"format": "tintfall-regions", "version": 1, "regions": [{"id": "A")",
              empty = R"({"format": "tintfall-regions", "version": 1, "regions": [{})";
  for (int i = 0; i < 1'000'000; ++i) {
    keys += fmt::format(",\"k{}\":1", i);
    empty += ",{}";
  }
  expect_regions_refused(keys + "}]}", "A");
  expect_regions_refused(empty + "]}", "");
}

TEST_F(BadRegions, OutsideTheSheetOrThePhoto) {
  expect_refused({"read", photo(), "--region", "deposit@205,74,12"},
                 {3, "unreadable-regions", "outside the sheet"});
  expect_refused({"read", photo(), "--region", "deposit@1e6,1e6,1"},
                 {3, "unreadable-regions", "outside the sheet"});
  expect_refused({"read", photo(), "--region", "deposit@105,-4,3"},
                 {3, "unreadable-regions", "outside the sheet"});
  expect_regions_refused(R"({"format": "tintfall-regions", "version": 1, "frame": "photo", "regions":
                            [{"id": "A", "kind": "deposit", "shape": "ellipse", "centre": [5000, 100], "radii": [30, 30]}]})",
                         "outside the photo");
}

TEST_F(BadRegions, TooSmallToRead) {
  expect_refused({"read", photo(), "--region", "deposit@105,74,0.3"}, {5, "untrustworthy", "pixels"});
}

TEST_F(BadInputs, FieldsThatAreNone) {
  expect_refused({"read", photo(), "--fields", scratch_.write("f.csv", "item,colour\nQH-03,red\n")},
                 {3, "unreadable-table", "colour"});
  expect_refused({"read", photo(), "--fields", scratch_.path("none.csv")},
                 {3, "unreadable-table", "does not exist"});
}

TEST_F(BadInputs, OutputsThatCannotBeWritten) {
  const auto json_run = run_tintfall({"read", photo(), "--json", scratch_.path("no/folder/out.json")});
  EXPECT_THAT(json_run.status, Eq(3));
  EXPECT_THAT(json_run.err, HasSubstr("cannot-write"));
  expect_refused({"read", photo(), "--overlay", scratch_.path("no/folder/out.png")},
                 {3, "cannot-write", "out.png"});
}

// Told before the work: the photo that is named does not even exist, and that is not what is said.
TEST_F(BadInputs, MissingFoldersAreToldBeforePhotosAreRead) {
  const std::string none = scratch_.path("none.jpg"), missing = scratch_.path("no/folder/out.");
  for (const auto& [option, ending] : {std::pair("--overlay", "png"), std::pair("--icc", "icc")})
    expect_refused({"read", none, option, missing + ending},
                   {3, "cannot-write", "no/folder' does not exist"});
  for (const auto& [option, ending] :
       {std::pair("--plot", "svg"), std::pair("--strip", "png"), std::pair("--journal", "journal")})
    expect_refused({"series", none, "--region", "spot@105,74,4", option, missing + ending},
                   {3, "cannot-write", "no/folder' does not exist"});
  for (const std::string command : {"read", "series"}) {
    const auto run = run_tintfall({command, none, "--region", "spot@105,74,4", "--json", missing + "json"});
    EXPECT_EQ(run.status, 3);
    EXPECT_THAT(run.err, testing::AllOf(HasSubstr("cannot-write"), HasSubstr("--json names")));
  }
  expect_refused({"read", none, "--overlay", scratch_.path(".")}, {3, "cannot-write", "that is a folder"});
  expect_refused({"chart", "transfer", none, none + "2", none + "3", "--from", "frame-a5", "--from-reference",
                  none + "4", "--to", "frame-a5", "--out", missing + "txt"},
                 {3, "cannot-write", "no/folder' does not exist"});
}

}  // namespace
}  // namespace tintfall
