#include <gmock/gmock.h>

#include <colorlib/chart/chart_definition.hpp>
#include <tests/support/color_matchers.hpp>
#include <tests/viewer/command/command_run.hpp>
#include <viewer/command/sheet_settings.hpp>

namespace tintfall {
namespace {

using colorlib::ErrorCode;
using colorlib::FailsWith;
using testing::AllOf;
using testing::ElementsAre;
using testing::Eq;
using testing::HasSubstr;
using testing::IsEmpty;

TEST(SheetSettings, NoFileMeansNoSheets) {
  const ScratchFolder scratch;
  const auto sheets = read_sheets(scratch.path("none.json"));
  ASSERT_TRUE(sheets.has_value());
  EXPECT_THAT(*sheets, IsEmpty());
}

TEST(SheetSettings, WhatIsWrittenIsReadBackSortedByLabel) {
  const ScratchFolder scratch;
  const PrintedSheet b{"B", "strip", "", ""}, a{"A \"5\"; ü", "/x/own.json", "/x/r.txt", "2031-03-01"};
  ASSERT_TRUE(write_sheets(scratch.path("new/folder/sheets.json"), {b, a}).has_value());
  const auto sheets = read_sheets(scratch.path("new/folder/sheets.json"));
  ASSERT_TRUE(sheets.has_value()) << sheets.error().message;
  EXPECT_THAT(*sheets, ElementsAre(a, b));
}

TEST(SheetSettings, DamagedFilesAreNamedNotGuessed) {
  const ScratchFolder scratch;
  const std::pair<const char*, const char*> cases[] = {
      {"{", "JSON"},
      {"[]", "JSON"},
      {R"({"format": "tintfall-sheets", "version": 2, "sheets": []})", "version"},
      {R"({"format": "tintfall-sheets", "version": 1})", "sheets"},
      {R"({"format": "tintfall-sheets", "version": 1, "sheets": [{"label": "A"}]})", "chart"},
      {R"({"format": "tintfall-sheets", "version": 1, "sheets": [7]})", "entry 1"},
      {R"({"format": "tintfall-sheets", "version": 1, "sheets": [{"label": "", "chart": "strip"}]})",
       "label"},
      {R"({"format": "tintfall-sheets", "version": 1, "sheets": [{"label": "A", "chart": "strip", "printed": "1.3.31"}]})",
       "date"},
      {R"({"format": "tintfall-sheets", "version": 1, "sheets": [{"label": "A", "chart": "x"}, {"label": "A", "chart": "y"}]})",
       "twice"},
  };
  for (const auto& [text, word] : cases)
    EXPECT_THAT(read_sheets(scratch.write("s.json", text)),
                FailsWith(ErrorCode::unreadable_table, HasSubstr(word)))
        << text;
}

TEST(SheetSettings, DatesAreDaysThatExist) {
  for (const char* good : {"2031-03-01", "2032-02-29", "2000-02-29"}) EXPECT_TRUE(is_date(good)) << good;
  for (const char* bad : {"", "2031-3-1", "2031-13-01", "2031-02-29", "1900-02-29", "2031-04-31",
                          "2031-00-10", "01.03.2031", "20x1-03-01"})
    EXPECT_FALSE(is_date(bad)) << bad;
}

TEST(SheetCommand, AddsListsRecallsAndRemoves) {
  const ScratchFolder scratch;
  EXPECT_THAT(run_tintfall({"sheet", "list"}).out, HasSubstr("No sheet"));
  EXPECT_THAT(
      run_tintfall({"sheet", "add", "A5-03", "--chart", "frame-a5", "--printed", "2031-03-01"}).status,
      Eq(0));
  EXPECT_THAT(run_tintfall({"sheet", "add", "field", "--chart", "strip"}).status, Eq(0));
  const auto list = run_tintfall({"sheet", "list"});
  EXPECT_THAT(list.out, AllOf(HasSubstr("A5-03: chart frame-a5"), HasSubstr("2031-03-01"),
                              HasSubstr("field: chart strip")));
  EXPECT_THAT(run_tintfall({"sheet", "list", "--json", "-"}).out, HasSubstr("\"label\": \"A5-03\""));

  const auto unknown = run_tintfall({"read", "x.jpg", "--sheet", "A5-04"});
  EXPECT_THAT(unknown.status, Eq(2));
  EXPECT_THAT(unknown.err, HasSubstr("the known ones are A5-03, field"));

  EXPECT_THAT(run_tintfall({"sheet", "add", "field", "--chart", "frame-a5"}).status, Eq(2))
      << "not replaced without a word";
  EXPECT_THAT(run_tintfall({"sheet", "add", "field", "--chart", "frame-a5", "--replace"}).status, Eq(0));
  EXPECT_THAT(run_tintfall({"sheet", "remove", "field"}).status, Eq(0));
  EXPECT_THAT(run_tintfall({"sheet", "list"}).out, testing::Not(HasSubstr("field")));
  const auto gone = run_tintfall({"sheet", "remove", "field"});
  EXPECT_THAT(gone.status, Eq(2));
  EXPECT_THAT(gone.err,
              testing::AllOf(HasSubstr("the known ones are A5-03"), HasSubstr("Name one of the known")));
  EXPECT_THAT(gone.err, testing::Not(HasSubstr("sheet add")));
}

TEST(SheetCommand, TakesOnlySheetsThatCanBeRead) {
  const ScratchFolder scratch;
  EXPECT_THAT(run_tintfall({"sheet", "add", "A", "--chart", "no-such-chart"}).status, Eq(3));
  EXPECT_THAT(run_tintfall({"sheet", "add", "A", "--chart", "frame-a5", "--reference",
                            scratch.write("r.txt", "no table")})
                  .status,
              Eq(3));
  std::string of_frame =
      "CGATS.17\nDESCRIPTOR \"frame-a5, measured\"\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\n"
      "END_DATA_FORMAT\nBEGIN_DATA\n";
  const auto frame = colorlib::find_chart("frame-a5").value();
  for (const auto& patch : frame.patches) of_frame += patch.id + " 50 0 0\n";
  const auto strip = run_tintfall({"sheet", "add", "A", "--chart", "strip", "--reference",
                                   scratch.write("f.txt", of_frame + "END_DATA\n")});
  EXPECT_THAT(strip.status, Eq(3));
  EXPECT_THAT(strip.err, HasSubstr("it is of chart 'frame-a5'"));
  EXPECT_THAT(run_tintfall({"sheet", "add", "A", "--chart", "frame-a5", "--printed", "yesterday"}).status,
              Eq(2));
  EXPECT_THAT(run_tintfall({"sheet", "add", " A", "--chart", "frame-a5"}).status, Eq(2));
  EXPECT_FALSE(scratch.has("settings/tintfall/sheets.json"));
}

TEST(SheetCommand, NamesTheSheetWhoseFileIsGone) {
  const ScratchFolder scratch;
  std::filesystem::create_directories(scratch.path("settings/tintfall"));
  const std::string gone = scratch.path("moved.txt");
  ASSERT_TRUE(write_sheets(scratch.path("settings/tintfall/sheets.json"),
                           {{"A5-03", "frame-a5", gone, ""}, {"field", "strip", "", ""}}));
  const auto list = run_tintfall({"sheet", "list"});
  EXPECT_THAT(list.out,
              HasSubstr("A5-03: chart frame-a5, reference " + gone + "\n  missing: " + gone + "\n"));
  EXPECT_THAT(list.out, testing::Not(HasSubstr("strip, nominal colours\n  missing")));
  EXPECT_THAT(run_tintfall({"sheet", "list", "--json", "-"}).out, HasSubstr("\"missing\": [\n"));
  const auto read = run_tintfall({"read", "x.jpg", "--sheet", "A5-03"});
  EXPECT_THAT(read.status, Eq(3));
  EXPECT_THAT(read.err, AllOf(HasSubstr("the sheet 'A5-03': '" + gone + "' does not exist"),
                              HasSubstr("sheet add LABEL")));
  scratch.write("moved.txt", "there again");
  EXPECT_THAT(run_tintfall({"sheet", "list"}).out, testing::Not(HasSubstr("missing")));
}

TEST(SheetCommand, DamagedSettingsAreLeftAsTheyAre) {
  const ScratchFolder scratch;
  std::filesystem::create_directories(scratch.path("settings/tintfall"));
  scratch.write("settings/tintfall/sheets.json", "{broken");
  const auto run = run_tintfall({"sheet", "add", "A", "--chart", "frame-a5"});
  EXPECT_THAT(run.status, Eq(3));
  EXPECT_THAT(scratch.read("settings/tintfall/sheets.json"), Eq("{broken"));
}

}  // namespace
}  // namespace tintfall
