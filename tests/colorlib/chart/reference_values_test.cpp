#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <colorlib/chart/reference_values.hpp>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <cstdio>
#include <fstream>
#include <random>
#include <sstream>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

ChartDefinition chart_of(const std::vector<std::string>& ids) {
  ChartDefinition chart;
  chart.name = "small";
  for (const auto& id : ids) {
    Patch patch;
    patch.id = id;
    patch.nominal_lab = {50, 1, 2};
    chart.patches.push_back(patch);
  }
  return chart;
}

const ChartDefinition& small() {
  static const ChartDefinition chart = chart_of({"N01", "C01", "C02"});
  return chart;
}

const std::string lab_columns = "SAMPLE_ID LAB_L LAB_A LAB_B";
const std::string lab_rows = "N01 94.10 -0.52 2.13\nC01 52.31 26.04 -35.7\nC02 15.25 4.1 3\n";

std::string cgats(const std::string& columns, const std::string& rows, const std::string& header = "",
                  int sets = 3) {
  const auto fields = 1 + std::count(columns.begin(), columns.end(), ' ');
  return fmt::format(
      "CGATS.17\n{}NUMBER_OF_FIELDS {}\nBEGIN_DATA_FORMAT\n{}\nEND_DATA_FORMAT\nNUMBER_OF_SETS "
      "{}\nBEGIN_DATA\n{}END_DATA\n",
      header, fields, columns, sets, rows);
}

Result<ReferenceValues> parsed(const std::string& text, const ChartDefinition& chart = small()) {
  return parse_reference(text, "ref.txt", chart);
}

/// The values that `lab_rows` states.
void expect_lab_rows(const Result<ReferenceValues>& values) {
  ASSERT_TRUE(values) << values.error().message;
  ASSERT_EQ(values->patches.size(), 3u);
  EXPECT_EQ(values->patches[0].id, "N01");
  EXPECT_EQ(values->patches[0].lab, (Lab{94.10, -0.52, 2.13}));
  EXPECT_EQ(values->patches[1].lab, (Lab{52.31, 26.04, -35.7}));
  EXPECT_EQ(values->patches[2].lab, (Lab{15.25, 4.1, 3}));
}

TEST(ReferenceValuesTest, ReadsLabColumns) {
  const auto values = parsed(cgats(lab_columns, lab_rows, "ORIGINATOR \"A laboratory\"\n"));
  expect_lab_rows(values);
  EXPECT_EQ(values->kind, ReferenceKind::measured);
  EXPECT_THAT(values->remarks, IsEmpty());
  EXPECT_THAT(values->source, AllOf(HasSubstr("ref.txt"), HasSubstr("A laboratory")));
  for (const auto& patch : values->patches)
    EXPECT_THAT(patch.standard_uncertainty, ElementsAre(0.2, 0.2, 0.2));
}

TEST(ReferenceValuesTest, FollowsTheOrderOfTheChartAndLeavesOtherRowsOut) {
  const auto values = parsed(cgats(
      lab_columns,
      "X1 50 0 0\nC02 15.25 4.1 3\nC01 52.31 26.04 -35.7\nX2 no number here\nN01 94.1 -0.52 2.13\n", "", 5));
  expect_lab_rows(values);
  EXPECT_THAT(values->remarks, Contains(AllOf(HasSubstr("2 rows"), HasSubstr("'X1', 'X2'"))));
}

TEST(ReferenceValuesTest, TakesOddButClearSpellings) {
  const std::string sound = cgats(lab_columns, lab_rows);
  expect_lab_rows(parsed("\xEF\xBB\xBF" + sound));
  std::string crlf;
  for (const char c : sound) crlf += c == '\n' ? std::string("\r\n") : std::string(1, c);
  expect_lab_rows(parsed(crlf));
  std::string tabs = sound;
  std::replace(tabs.begin(), tabs.end(), ' ', '\t');
  expect_lab_rows(parsed(tabs));
  expect_lab_rows(parsed(cgats("Sample_Id lab_l lab_a lab_b", lab_rows)));
  expect_lab_rows(parsed(
      cgats(lab_columns, "\"N01\" \"94.10\" -0.52 2.13\n\"C01\" 52.31 26.04 -35.7\n\"C02\" 15.25 4.1 3\n")));
  expect_lab_rows(parsed(
      cgats(lab_columns, "N01 94.10 -0.52 2.13 # a comment\n\nC01 52.31 26.04\n-35.7 C02 15.25 4.1 3\n")));
  expect_lab_rows(
      parsed(cgats(lab_columns, lab_rows,
                   "KEYWORD \"ODD_KEY\"\nODD_KEY \"anything\"\nWEIGHTING_FUNCTION \"odd form\"\n")));
}

TEST(ReferenceValuesTest, CountsWhatTheFileDoesNotState) {
  const std::string body =
      "BEGIN_DATA_FORMAT\n" + lab_columns + "\nEND_DATA_FORMAT\nBEGIN_DATA\n" + lab_rows + "END_DATA\n";
  expect_lab_rows(parsed("CGATS.17\n" + body));
  expect_lab_rows(parsed("CGATS.17\nORIGINATOR \"x\"\n" + body));
  expect_lab_rows(parsed(body));
  expect_lab_rows(parsed("# written by hand\nORIGINATOR \"x\"\n" + body));
}

TEST(ReferenceValuesTest, ReadsOnlyTheFirstTable) {
  const auto values = parsed(cgats(lab_columns, lab_rows) + cgats("SAMPLE_ID RGB_R", "1 2\n", "", 1));
  expect_lab_rows(values);
  EXPECT_THAT(values->remarks, Contains(HasSubstr("first table")));
}

TEST(ReferenceValuesTest, IdsAreTakenAsSpelled) {
  // LittleCMS alone would turn the ids into 1 and 16, and lose the sign of "-0,5".
  const auto values =
      parsed(cgats(lab_columns, "01 50,25 -0,5 0\n0x10 60 0 0\n", "", 2), chart_of({"01", "0x10"}));
  ASSERT_TRUE(values) << values.error().message;
  EXPECT_EQ(values->patches[0].lab, (Lab{50.25, -0.5, 0}));
}

TEST(ReferenceValuesTest, MatchesBySampleNameWhereIdsAreNumbers) {
  const auto values = parsed(cgats("SAMPLE_ID SAMPLE_NAME LAB_L LAB_A LAB_B",
                                   "1 N01 94.10 -0.52 2.13\n2 C01 52.31 26.04 -35.7\n3 C02 15.25 4.1 3\n"));
  expect_lab_rows(values);
  EXPECT_THAT(values->remarks, Contains(HasSubstr("SAMPLE_NAME")));
}

TEST(ReferenceValuesTest, ReadsTablesFromSpreadsheets) {
  const std::string comma =
      "SAMPLE_ID,LAB_L,LAB_A,LAB_B\nN01,94.10,-0.52,2.13\nC01,52.31,26.04,-35.7\nC02,15.25,4.1,3\n";
  expect_lab_rows(parsed(comma));
  expect_lab_rows(parsed("\xEF\xBB\xBF# originator: A laboratory\n" + comma));
  std::string tab = comma;
  std::replace(tab.begin(), tab.end(), ',', '\t');
  expect_lab_rows(parsed(tab));
  std::string semicolon = comma;
  std::replace(semicolon.begin(), semicolon.end(), ',', ';');
  expect_lab_rows(parsed(semicolon));
  std::replace(semicolon.begin(), semicolon.end(), '.', ',');
  const auto decimal_comma = parsed(semicolon);
  expect_lab_rows(decimal_comma);
  EXPECT_THAT(decimal_comma->remarks, Contains(HasSubstr("decimal commas")));
}

TEST(ReferenceValuesTest, DecimalCommasAreTakenUnlessPointsStandBesideThem) {
  const auto values =
      parsed(cgats(lab_columns, "N01 94,10 -0,52 2,13\nC01 52,31 26,04 -35,7\nC02 15,25 4,1 3\n"));
  expect_lab_rows(values);
  EXPECT_THAT(values->remarks, Contains(HasSubstr("decimal commas")));
  EXPECT_THAT(parsed(cgats(lab_columns, "N01 94.10 -0.52 2.13\nC01 52,31 26 -35\nC02 15 4 3\n")),
              FailsWith(ErrorCode::unreadable_reference,
                        AllOf(HasSubstr("decimal commas (line 9, patch 'C01', column 'LAB_L')"),
                              HasSubstr("points (line 8"))));
}

TEST(ReferenceValuesTest, ReadsXyzColumns) {
  const Lab lab{52.31, 26.04, -35.7};
  const Xyz xyz = xyz_from_lab(lab, white_d50);
  const auto rows = [&](double scale) {
    return fmt::format("N01 {0} {1} {2}\nC01 {3:.8f} {4:.8f} {5:.8f}\nC02 0 0 0\n", white_d50.x * scale,
                       white_d50.y * scale, white_d50.z * scale, xyz.x * scale, xyz.y * scale, xyz.z * scale);
  };
  for (const double scale : {100.0, 1.0}) {
    const auto values = parsed(cgats("SAMPLE_ID XYZ_X XYZ_Y XYZ_Z", rows(scale)));
    ASSERT_TRUE(values) << values.error().message;
    EXPECT_THAT(values->patches[0].lab, NearInDeltaE(Lab{100, 0, 0}, 1e-6));
    EXPECT_THAT(values->patches[1].lab, NearInDeltaE(lab, 1e-5));  // eight decimals in the file
    EXPECT_THAT(values->patches[2].lab, NearInDeltaE(Lab{0, 0, 0}, 1e-6));
    EXPECT_EQ(values->remarks.empty(), scale == 100.0);
  }
}

// ---- Light and observer
// -------------------------------------------------------------------------------------

struct Statement {
  const char* header;
  White white;
  const char* remark;
};
void PrintTo(const Statement& s, std::ostream* out) { *out << s.header; }

class StatedLightTest : public testing::TestWithParam<Statement> {};

TEST_P(StatedLightTest, ColoursAreAdaptedByBradfordAndTheRemarkSaysSo) {
  const auto values = parsed(cgats(lab_columns, lab_rows, GetParam().header));
  ASSERT_TRUE(values) << values.error().message;
  const Lab stated[] = {{94.10, -0.52, 2.13}, {52.31, 26.04, -35.7}, {15.25, 4.1, 3}};
  for (std::size_t i = 0; i < 3; ++i)
    EXPECT_THAT(
        values->patches[i].lab,
        NearInDeltaE(adapted_lab(stated[i], GetParam().white, white_d50, AdaptationMethod::bradford), 1e-9));
  if (*GetParam().remark) {
    EXPECT_THAT(values->remarks, ElementsAre(HasSubstr(GetParam().remark)));
  } else {
    EXPECT_THAT(values->remarks, IsEmpty());
  }
}

INSTANTIATE_TEST_SUITE_P(
    Spellings, StatedLightTest,
    testing::Values(
        Statement{"WEIGHTING_FUNCTION \"ILLUMINANT, D50\"\nWEIGHTING_FUNCTION \"OBSERVER, 2 degree\"\n",
                  white_d50, ""},
        Statement{"WEIGHTING_FUNCTION \"ILLUMINANT, D65\"\n", white_d65,
                  "adapted from D65 to D50 by Bradford"},
        Statement{"WEIGHTING_FUNCTION \"ILLUMINANT, D65; OBSERVER, 2 degree\"\n", white_d65, "D65"},
        Statement{"WEIGHTING_FUNCTION \"ILLUMINANT, A\"\n", white_a, "adapted from A to D50"},
        Statement{"WEIGHTING_FUNCTION \"ILLUMINANT, C\"\nWEIGHTING_FUNCTION \"OBSERVER, 1931\"\n", white_c,
                  "C"},
        Statement{"WEIGHTING_FUNCTION \"D65/2\"\n", white_d65, "D65"},
        Statement{"ILLUMINANT \"D65\"\nOBSERVER \"2\"\n", white_d65, "D65"},
        Statement{"ILLUMINANT \"C\"\n", white_c, "adapted from C"},
        Statement{"DESCRIPTOR \"Sheet 3, measured for D65 and the CIE 1931 observer\"\n", white_d65, "D65"},
        Statement{"DESCRIPTOR \"Chart C, batch A, page 10\"\n", white_d50, ""},
        Statement{"DESCRIPTOR \"printed beside a D65 lamp\"\nWEIGHTING_FUNCTION \"ILLUMINANT, D50\"\n",
                  white_d50, ""},
        Statement{"MEASUREMENT_SOURCE \"Illumination=D50 ObserverAngle=2\xC2\xB0 Filter=No\"\n", white_d50,
                  ""}));

TEST(StatedChartTest, AnotherChartsFileIsRefused) {
  const ChartDefinition frame = find_chart("frame-a5").value(), strip = find_chart("strip").value(),
                        backings = find_chart("two-backings-a5").value();
  const auto of_frame = [&](const std::string& descriptor, const ChartDefinition& chart) {
    std::string rows;
    for (const Patch& patch : frame.patches) {
      const auto own = std::find_if(chart.patches.begin(), chart.patches.end(),
                                    [&](const Patch& other) { return other.id == patch.id; });
      const Lab& lab = (own == chart.patches.end() ? patch : *own).nominal_lab;
      rows += fmt::format("{} {} {} {}\n", patch.id, lab.l, lab.a, lab.b);
    }
    return parse_reference(cgats(lab_columns, rows, "DESCRIPTOR \"" + descriptor + "\"\n",
                                 static_cast<int>(frame.patches.size())),
                           "ref.txt", chart);
  };
  // The frame's file holds every id of these charts.
  for (const ChartDefinition* chart : {&strip, &backings})
    EXPECT_THAT(of_frame("reference values of frame-a5, simulated", *chart),
                FailsWith(ErrorCode::unreadable_reference, HasSubstr("it is of chart 'frame-a5'")))
        << chart->name;
  EXPECT_TRUE(of_frame("reference values of Frame-A5", frame));
  EXPECT_TRUE(of_frame("measured in strip mode", frame)) << "a word, and the file is more than the strip's";
  EXPECT_TRUE(of_frame("strip beside frame-a5", strip)) << "this chart is named as well";
  EXPECT_TRUE(of_frame("frame-a5x, batch 2", strip)) << "another word";
  EXPECT_TRUE(of_frame("", strip));
}

TEST(StatedLightTest, TablesStateTheirLightInComments) {
  const auto values =
      parsed("# illuminant: D65\nSAMPLE_ID,LAB_L,LAB_A,LAB_B\nN01,94,0,0\nC01,50,0,0\nC02,20,0,0\n");
  ASSERT_TRUE(values) << values.error().message;
  EXPECT_THAT(values->remarks, ElementsAre(HasSubstr("adapted from D65")));
}

TEST(StatedLightTest, WhatCannotBeConvertedIsRefused) {
  for (const char* header :
       {"WEIGHTING_FUNCTION \"OBSERVER, 10 degree\"\n", "WEIGHTING_FUNCTION \"D50/10\"\n",
        "OBSERVER \"10\"\n", "WEIGHTING_FUNCTION \"OBSERVER, 1964\"\n", "DESCRIPTOR \"D65, 10\xC2\xB0\"\n",
        "MEASUREMENT_SOURCE \"ObserverAngle=10\"\n"})
    EXPECT_THAT(parsed(cgats(lab_columns, lab_rows, header)),
                FailsWith(ErrorCode::unreadable_reference, HasSubstr("10 degree observer")))
        << header;
  EXPECT_THAT(parsed(cgats(lab_columns, lab_rows, "WEIGHTING_FUNCTION \"ILLUMINANT, F12\"\n")),
              FailsWith(ErrorCode::unreadable_reference, HasSubstr("illuminant F12")));
  EXPECT_THAT(
      parsed(cgats(lab_columns, lab_rows, "WEIGHTING_FUNCTION \"ILLUMINANT, D65\"\nILLUMINANT \"D50\"\n")),
      FailsWith(ErrorCode::unreadable_reference, HasSubstr("D50 and D65")));
}

/// The numbers of one file of colord-data: SPECTRAL_START_NM, _END_NM and the rows of its data.
struct Colord {
  double start = 0, end = 0;
  std::vector<std::vector<double>> rows;
};

Colord colord(const std::string& file) {
  Colord data;
  std::ifstream stream("/usr/share/colord/" + file);
  EXPECT_TRUE(stream) << file << " of colord-data is needed";
  std::string line;
  bool inside = false;
  while (std::getline(stream, line)) {
    std::istringstream words(line);
    std::string word;
    if (line.starts_with("SPECTRAL_START_NM")) words >> word >> data.start;
    if (line.starts_with("SPECTRAL_END_NM")) words >> word >> data.end;
    if (line.starts_with("END_DATA")) inside = false;
    if (inside) {
      data.rows.emplace_back();
      while (words >> word) data.rows.back().push_back(std::atof(word.c_str()));
    }
    if (line == "BEGIN_DATA") inside = true;
  }
  return data;
}

/// Tristimulus values by sums over 380 to 780 nm by 5, computed here from colord-data alone; scale Y = 1.
Xyz sums(const std::vector<double>& reflectance, double reflectance_start, const Colord& light,
         const Colord& observer) {
  Xyz sum;
  double norm = 0;
  const double step = (light.end - light.start) / static_cast<double>(light.rows[0].size() - 1);
  for (double nm = 380; nm <= 780; nm += 5) {
    const auto o = static_cast<std::size_t>(std::lround((nm - observer.start) / 5));
    const double s = light.rows[0][static_cast<std::size_t>(std::lround((nm - light.start) / step))];
    const double r = reflectance.empty()
                         ? 1
                         : reflectance[static_cast<std::size_t>(std::lround((nm - reflectance_start) / 5))];
    sum.x += s * r * observer.rows[0][o];
    sum.y += s * r * observer.rows[1][o];
    sum.z += s * r * observer.rows[2][o];
    norm += s * observer.rows[1][o];
  }
  return {sum.x / norm, sum.y / norm, sum.z / norm};
}

TEST(StatedLightTest, WhitesOfTheIlluminantsAgreeWithTheirSpectra) {
  const Colord observer = colord("cmf/CIE1931-2deg-XYZ.cmf");
  double worst = 0;
  for (const std::string name : {"A", "C", "D50", "D55", "D65", "E", "F2", "F7", "F11"}) {
    const Xyz white = sums({}, 0, colord("illuminant/CIE-" + name + ".sp"), observer);
    const auto values = parsed(cgats("SAMPLE_ID XYZ_X XYZ_Y XYZ_Z",
                                     fmt::format("N01 {0:.6f} {1:.6f} {2:.6f}\nC01 0 0 0\nC02 0 0 0\n",
                                                 white.x * 100, white.y * 100, white.z * 100),
                                     fmt::format("WEIGHTING_FUNCTION \"ILLUMINANT, {}\"\n", name)));
    ASSERT_TRUE(values) << name << ": " << values.error().message;
    const double off = difference_ciede2000(values->patches[0].lab, {100, 0, 0});
    worst = std::max(worst, off);
    // Published whites are rounded to 0.01 of 100 and were summed at 1 nm for some, here at 5.
    EXPECT_LT(off, 0.1) << name;
  }
  std::printf("worst white: dE00 %.3f\n", worst);
}

// ---- Spectra
// ------------------------------------------------------------------------------------------------

std::vector<std::string> test_colour_ids() {
  std::vector<std::string> ids;
  for (int i = 1; i <= 14; ++i) ids.push_back(fmt::format("TCS{:02}", i));
  return ids;
}

TEST(SpectralReferenceTest, TestColoursOfCie13AgreeWithAnIndependentComputation) {
  const auto values = read_reference("/usr/share/colord/ref/CIE-TCS.sp", chart_of(test_colour_ids()));
  ASSERT_TRUE(values) << values.error().message;
  EXPECT_THAT(values->remarks, Contains(HasSubstr("1 row names no patch")));  // the file's fifteenth
  std::ifstream stream("/usr/share/colord/ref/CIE-TCS.sp");
  const Colord observer = colord("cmf/CIE1931-2deg-XYZ.cmf"), d50 = colord("illuminant/CIE-D50.sp");
  const Colord colours = colord("ref/CIE-TCS.sp");
  const Xyz white = sums({}, 0, d50, observer);
  double worst = 0;
  for (std::size_t i = 0; i < 14; ++i) {
    // The first word of a row is its name, read as 0.
    const std::vector<double> reflectance(colours.rows[i].begin() + 1, colours.rows[i].end());
    const Lab wanted = lab_from_xyz(sums(reflectance, colours.start, d50, observer), white);
    const Lab& got = values->patches[i].lab;
    for (const double off : {got.l - wanted.l, got.a - wanted.a, got.b - wanted.b})
      worst = std::max(worst, std::abs(off));
  }
  std::printf("worst coordinate of the 14 test colours: %.5f\n", worst);
  EXPECT_LT(worst, 0.01);
}

/// A smooth reflectance of its own for each patch.
double reflectance(std::size_t patch, double nm) {
  return 0.4 + 0.3 * std::sin((nm - 400) / (60.0 + 40 * static_cast<double>(patch)));
}

std::string spectral_file(const std::string& name_format, double from, double to, double step, double scale,
                          const std::string& header = "", const std::string& more_columns = "",
                          const std::string& more_cells = "") {
  std::string columns = "SAMPLE_ID" + more_columns, rows;
  for (double nm = from; nm <= to; nm += step) columns += ' ' + fmt::format(fmt::runtime(name_format), nm);
  for (std::size_t i = 0; i < 3; ++i) {
    rows += small().patches[i].id + more_cells;
    for (double nm = from; nm <= to; nm += step) rows += fmt::format(" {:.6f}", scale * reflectance(i, nm));
    rows += "\n";
  }
  return cgats(columns, rows, header);
}

TEST(SpectralReferenceTest, ManySpellingsOfColumnsGiveTheSameColours) {
  const auto first = parsed(spectral_file("SPECTRAL_NM{:.0f}", 380, 730, 10, 1));
  ASSERT_TRUE(first) << first.error().message;
  for (const char* spelling : {"nm{:.0f}", "SPEC_{:.0f}", "R_{:.0f}", "SPECTRAL_{:.0f}", "SPECTRAL_NM_{:.0f}",
                               "R{:.0f}nm", "nm_{:.1f}", "SPEC_{:.0f}000", "REFLECTANCE_{:.0f}"}) {
    const auto values = parsed(spectral_file(spelling, 380, 730, 10, 1));
    ASSERT_TRUE(values) << spelling << ": " << values.error().message;
    for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(values->patches[i].lab, first->patches[i].lab) << spelling;
  }
  std::string table = spectral_file("{:.0f}", 380, 730, 10, 1);
  table = table.substr(table.find("SAMPLE_ID"));
  table.erase(table.find("END_DATA_FORMAT"), table.find("BEGIN_DATA") + 11 - table.find("END_DATA_FORMAT"));
  table.erase(table.rfind("END_DATA"));
  std::replace(table.begin(), table.end(), ' ', ';');
  const auto values = parsed(table);
  ASSERT_TRUE(values) << values.error().message;
  for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(values->patches[i].lab, first->patches[i].lab);
}

TEST(SpectralReferenceTest, PercentIsRecognised) {
  const auto one = parsed(spectral_file("R_{:.0f}", 400, 700, 10, 1)),
             percent = parsed(spectral_file("R_{:.0f}", 400, 700, 10, 100));
  ASSERT_TRUE(one && percent);
  for (std::size_t i = 0; i < 3; ++i)
    EXPECT_THAT(percent->patches[i].lab, NearInDeltaE(one->patches[i].lab, 0.001));
  EXPECT_THAT(one->remarks, IsEmpty());
  EXPECT_THAT(percent->remarks, Contains(HasSubstr("percent")));
}

TEST(SpectralReferenceTest, SpectraMakeForeignConditionsMoot) {
  const auto plain = parsed(spectral_file("R_{:.0f}", 400, 700, 10, 1));
  for (const char* header :
       {"WEIGHTING_FUNCTION \"OBSERVER, 10 degree\"\n", "WEIGHTING_FUNCTION \"ILLUMINANT, D65\"\n",
        "WEIGHTING_FUNCTION \"ILLUMINANT, F12\"\n", ""}) {
    const auto values =
        parsed(spectral_file("R_{:.0f}", 400, 700, 10, 1, header, " LAB_L LAB_A LAB_B", " 70 0 40"));
    ASSERT_TRUE(values) << header << values.error().message;
    for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(values->patches[i].lab, plain->patches[i].lab) << header;
    EXPECT_THAT(values->remarks, Contains(HasSubstr("from the spectra")));
  }
}

TEST(SpectralReferenceTest, UnevenShortOrRepeatedWavelengthsAreRefused) {
  EXPECT_THAT(
      parsed(cgats("SAMPLE_ID R_400 R_410 R_430", "N01 1 1 1\nC01 1 1 1\nC02 1 1 1\n")),
      FailsWith(ErrorCode::unreadable_reference, AllOf(HasSubstr("even steps"), HasSubstr("'R_410'"))));
  EXPECT_THAT(parsed(cgats("SAMPLE_ID R_400 R_410 nm410 R_420", "N01 1 1 1 1\nC01 1 1 1 1\nC02 1 1 1 1\n")),
              FailsWith(ErrorCode::unreadable_reference, HasSubstr("even steps")));
  EXPECT_THAT(parsed(spectral_file("R_{:.0f}", 500, 700, 10, 1)),
              FailsWith(ErrorCode::unreadable_reference, HasSubstr("'N01'")));
  EXPECT_THAT(parsed(spectral_file("R_{:.0f}", 400, 700, 50, 1)),
              FailsWith(ErrorCode::unreadable_reference, HasSubstr("'N01'")));
  EXPECT_THAT(parsed(spectral_file("R_{:.0f}", 400, 700, 10, 1000)),
              FailsWith(ErrorCode::unreadable_reference, HasSubstr("no reflectance")));
}

// ---- Uncertainties, kinds
// --------------------------------------------------------------------------------------

TEST(ReferenceValuesTest, ReadsStandardUncertainties) {
  const auto values =
      parsed(cgats(lab_columns + " STDEV_L STDEV_A STDEV_B",
                   "N01 94 0 2 0.1 0.2 0.3\nC01 52 26 -35 0.4 0.5 0.6\nC02 15 4 3 0.7 0.8 20\n"));
  ASSERT_TRUE(values) << values.error().message;
  EXPECT_THAT(values->patches[0].standard_uncertainty, ElementsAre(0.1, 0.2, 0.3));
  EXPECT_THAT(values->patches[2].standard_uncertainty, ElementsAre(0.7, 0.8, 20.0));
}

TEST(ReferenceValuesTest, AFileMadeByTransferSaysSo) {
  const auto values = parsed(cgats(
      lab_columns, lab_rows, fmt::format("MEASUREMENT_SOURCE \"{}, 3 photographs\"\n", transferred_source)));
  ASSERT_TRUE(values) << values.error().message;
  EXPECT_EQ(values->kind, ReferenceKind::transferred);
  EXPECT_EQ(reference_kind_name(values->kind), "transferred");
  EXPECT_THAT(values->source, HasSubstr("3 photographs"));
}

TEST(ReferenceValuesTest, NominalValuesServeWithAWideUncertainty) {
  const auto values = nominal_reference(small());
  EXPECT_EQ(values.kind, ReferenceKind::nominal);
  EXPECT_EQ(reference_kind_name(values.kind), "nominal");
  ASSERT_EQ(values.patches.size(), 3u);
  EXPECT_EQ(values.patches[1].id, "C01");
  EXPECT_EQ(values.patches[1].lab, (Lab{50, 1, 2}));
  EXPECT_THAT(values.patches[1].standard_uncertainty, ElementsAre(2.0, 2.0, 2.0));
}

// ---- What is refused
// ---------------------------------------------------------------------------------------

struct BadFile {
  const char* what;
  std::string text;
  std::vector<const char*> words;
};
void PrintTo(const BadFile& bad, std::ostream* out) { *out << bad.what; }

class BadReferenceTest : public testing::TestWithParam<BadFile> {};

TEST_P(BadReferenceTest, IsRefusedByPlace) {
  const auto values = parsed(GetParam().text);
  ASSERT_THAT(values, FailsWith(ErrorCode::unreadable_reference, HasSubstr("ref.txt")));
  for (const char* word : GetParam().words) EXPECT_THAT(values.error().message, HasSubstr(word));
}

std::string with_cell(const std::string& cell) {
  return cgats(lab_columns, fmt::format("N01 94 0 2\nC01 {} 26 -35\nC02 15 4 3\n", cell));
}

INSTANTIATE_TEST_SUITE_P(
    Files, BadReferenceTest,
    testing::Values(
        BadFile{"text for a number", with_cell("abc"), {"line 9", "'C01'", "'LAB_L'", "'abc'"}},
        BadFile{"nan", with_cell("nan"), {"'C01'", "'LAB_L'", "'nan'"}},
        BadFile{"infinite", with_cell("1e400"), {"'C01'", "'LAB_L'", "'1e400'"}},
        BadFile{"hexadecimal", with_cell("0x20"), {"'C01'", "'LAB_L'", "'0x20'"}},
        BadFile{"two commas", with_cell("1,234,5"), {"'C01'", "'LAB_L'", "'1,234,5'"}},
        BadFile{"empty cell", with_cell("\"\""), {"'C01'", "'LAB_L'", "empty"}},
        BadFile{"unit in the cell", with_cell("52mm"), {"'C01'", "'LAB_L'", "'52mm'"}},
        BadFile{"lightness too high", with_cell("111"), {"line 9", "'C01'", "'LAB_L'", "111"}},
        BadFile{"lightness below 0", with_cell("-1"), {"'C01'", "'LAB_L'", "-1"}},
        BadFile{"a* out of range",
                cgats(lab_columns, "N01 94 0 2\nC01 52 151 -35\nC02 15 4 3\n"),
                {"'C01'", "'LAB_A'", "151"}},
        BadFile{"XYZ out of range",
                cgats("SAMPLE_ID XYZ_X XYZ_Y XYZ_Z", "N01 90 95 80\nC01 -1 2 3\nC02 1 1 1\n"),
                {"'C01'", "'XYZ_X'", "-1"}},
        BadFile{
            "patch missing", cgats(lab_columns, "N01 94 0 2\nC02 15 4 3\n", "", 2), {"2 of the 3", "'C01'"}},
        BadFile{"another chart's file",
                cgats(lab_columns, "A 94 0 2\nB 15 4 3\n", "", 2),
                {"0 of the 3", "'N01', 'C01', 'C02'"}},
        BadFile{"patch twice",
                cgats(lab_columns, "N01 94 0 2\nC01 50 0 0\nC01 51 0 0\nC02 15 4 3\n", "", 4),
                {"'C01'", "twice", "lines 9 and 10"}},
        BadFile{"no ids", cgats("LAB_L LAB_A LAB_B", "94 0 2\n52 0 0\n15 4 3\n"), {"SAMPLE_ID"}},
        BadFile{"no colours",
                cgats("SAMPLE_ID RGB_R RGB_G RGB_B", "N01 1 1 1\nC01 1 1 1\nC02 1 1 1\n"),
                {"no colours"}},
        BadFile{"two of three columns",
                cgats("SAMPLE_ID LAB_L LAB_A", "N01 94 0\nC01 50 0\nC02 15 4\n"),
                {"LAB_B", "only 2"}},
        BadFile{"a column twice",
                cgats("SAMPLE_ID LAB_L LAB_A LAB_B LAB_L", "N01 94 0 2 1\nC01 50 0 0 1\nC02 15 4 3 1\n"),
                {"LAB_L", "twice"}},
        BadFile{"uncertainty of 0",
                cgats(lab_columns + " STDEV_L STDEV_A STDEV_B",
                      "N01 94 0 2 0.1 0 0.3\nC01 52 26 -35 1 1 1\nC02 15 4 3 1 1 1\n"),
                {"'N01'", "'STDEV_A'", "0 is no"}},
        BadFile{"uncertainty of 21",
                cgats(lab_columns + " STDEV_L STDEV_A STDEV_B",
                      "N01 94 0 2 0.1 21 0.3\nC01 52 26 -35 1 1 1\nC02 15 4 3 1 1 1\n"),
                {"'N01'", "'STDEV_A'", "21"}},
        BadFile{"uncertainty of one axis",
                cgats(lab_columns + " STDEV_L", "N01 94 0 2 0.1\nC01 52 26 -35 1\nC02 15 4 3 1\n"),
                {"STDEV_A", "only 1"}},
        BadFile{"wrong number of fields",
                "CGATS.17\nNUMBER_OF_FIELDS 5\nBEGIN_DATA_FORMAT\n" + lab_columns +
                    "\nEND_DATA_FORMAT\nBEGIN_DATA\n" + lab_rows + "END_DATA\n",
                {"NUMBER_OF_FIELDS says 5", "4 columns"}},
        BadFile{
            "wrong number of sets", cgats(lab_columns, lab_rows, "", 4), {"12 cells", "NUMBER_OF_SETS 4"}},
        BadFile{"a cell too few", cgats(lab_columns, "N01 94 0 2\nC01 50 0\nC02 15 4 3\n"), {"11 cells"}},
        BadFile{
            "absurd counts", cgats(lab_columns, lab_rows, "", 2'000'000'000), {"NUMBER_OF_SETS 2000000000"}},
        BadFile{"cut off", cgats(lab_columns, lab_rows).substr(0, 130), {"END_DATA is missing"}},
        BadFile{"no format", "CGATS.17\nBEGIN_DATA\nN01 1 2 3\nEND_DATA\n", {"column names"}},
        BadFile{"includes another file",
                "CGATS.17\n.INCLUDE \"/etc/hostname\"\n" + cgats(lab_columns, lab_rows),
                {".INCLUDE"}},
        BadFile{"empty", "", {"empty"}}, BadFile{"blank", "\n \n\t\n", {"empty"}},
        BadFile{"UTF-16", std::string("\xFF\xFEN\0", 4), {"UTF-16"}},
        BadFile{"zero bytes", std::string("CGATS.17\0\nBEGIN_DATA", 20), {"NUL bytes"}},
        BadFile{"table with a ragged row",
                "SAMPLE_ID,LAB_L,LAB_A,LAB_B\nN01,94,0,2\nC01,52,31,26,-35\nC02,15,4,3\n",
                {"line 3"}},
        BadFile{"table with text for a number",
                "SAMPLE_ID;LAB_L;LAB_A;LAB_B\nN01;94;0;2\nC01;fifty;31;26\nC02;15;4;3\n",
                {"line 3", "'C01'", "'LAB_L'", "'fifty'"}},
        BadFile{"a picture", "\xFF\xD8\xFF\xE0 JFIF", {}}));

TEST(ReferenceValuesTest, FilesThatCannotBeReadAreNamed) {
  EXPECT_THAT(read_reference("/nonexistent/ref.txt", small()),
              FailsWith(ErrorCode::unreadable_reference, HasSubstr("/nonexistent/ref.txt")));
}

TEST(ReferenceValuesTest, ALargeFileIsReadOrRefusedSoon) {
  std::string columns = "SAMPLE_ID LAB_L LAB_A LAB_B", row, rows;
  for (int i = 0; i < 900; ++i) {
    columns += fmt::format(" X{}", i);
    row += " 1";
  }
  int sets = 0;
  while (rows.size() < 3'900'000) rows += fmt::format("Q{} 50 0 0{}\n", sets++, row);
  const auto begin = std::chrono::steady_clock::now();
  EXPECT_THAT(parsed(cgats(columns, rows, "", sets)),
              FailsWith(ErrorCode::unreadable_reference, HasSubstr("0 of the 3")));
  EXPECT_THAT(parsed(cgats(columns, rows + rows, "", 2 * sets)),
              FailsWith(ErrorCode::unreadable_reference, HasSubstr("bytes")));
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  std::printf("two million cells: %.2f s\n", seconds);
  EXPECT_LT(seconds, 20);  // a hang would take minutes; a busy machine a few seconds
}

TEST(ReferenceValuesTest, NoGarbledFileCrashesAndNoneIsReadWrongly) {
  // 20 000 files with one to four bytes changed: each is refused, or every coordinate stays in its range.
  constexpr unsigned seed = 20261;
  constexpr int trials = 20'000;
  std::mt19937 random(seed);
  const std::string files[] = {
      cgats(lab_columns + " STDEV_L STDEV_A STDEV_B",
            "N01 94.1 -0.5 2.1 .1 .2 .3\n\"C01\" 52.31 26.04 -35.7 1 1 1\nC02 15.25 4.1 3 1 1 1\n",
            "ORIGINATOR \"x\"\nWEIGHTING_FUNCTION \"ILLUMINANT, D65\"\n"),
      spectral_file("R_{:.0f}", 400, 700, 20, 1),
      "SAMPLE_ID;LAB_L;LAB_A;LAB_B\nN01;94;0;2\nC01;52;31;26\nC02;15;4;3\n"};
  const std::string alphabet = "0123456789.,;-+eE \t\n\r\"'#ABCDNLX_\xC2\xB0\xFF\x01";
  int taken = 0;
  for (int trial = 0; trial < trials; ++trial) {
    std::string text = files[random() % 3];
    for (unsigned changes = 1 + random() % 4; changes > 0 && !text.empty(); --changes) {
      const auto at = random() % text.size();
      switch (random() % 4) {
        case 0:
          text.erase(at, 1 + random() % 8);
          break;
        case 1:
          text.insert(at, 1, alphabet[random() % alphabet.size()]);
          break;
        case 2:
          text[at] = alphabet[random() % alphabet.size()];
          break;
        default:
          text.resize(at + 1);
          break;
      }
    }
    const auto values = parsed(text);
    if (!values) {
      ASSERT_FALSE(values.error().message.empty());
      continue;
    }
    ++taken;
    for (const auto& patch : values->patches) {
      ASSERT_TRUE(patch.lab.l >= 0 && patch.lab.l <= 110) << text;
      ASSERT_TRUE(std::abs(patch.lab.a) <= 150 && std::abs(patch.lab.b) <= 150) << text;
      for (const double u : patch.standard_uncertainty) ASSERT_TRUE(u > 0 && u <= 20) << text;
    }
  }
  std::printf("seed %u: %d of %d garbled files were still readable\n", seed, taken, trials);
  // Both ways are trodden.
  EXPECT_GT(taken, 500);
  EXPECT_LT(taken, trials - 500);
}

}  // namespace
}  // namespace colorlib
