#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/naming/color_distribution.hpp>
#include <colorlib/naming/color_scale.hpp>
#include <fstream>
#include <tests/colorlib/naming/reference_tables.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::HasSubstr;

Result<ColorScale> parsed(std::string_view text, double tolerance_de00 = default_tolerance_de00) {
  return ColorScale::parse(text, "plate", namer().renotation(), tolerance_de00);
}

constexpr const char* cgats =
    "CGATS.17\nORIGINATOR \"a measured plate\"\nNUMBER_OF_FIELDS 5\nBEGIN_DATA_FORMAT\nSAMPLE_ID SAMPLE_NAME "
    "LAB_L LAB_A LAB_B\n"
    "END_DATA_FORMAT\nNUMBER_OF_SETS 2\nBEGIN_DATA\n01 \"pale straw\" 85 1.5 22\n02 ochre 62 12 "
    "40\nEND_DATA\n";

TEST(ColorScale, ReadsTables) {
  for (const char* text :
       {"name,L,a,b\nA,92,0,6\nB,88.5,2,17\n", "\xEF\xBB\xBFname;L;a;b\r\nA;92;0;6\r\nB;88,5;2;17\r\n",
        "# a plate\nSample_ID\tLAB_L\tLAB_A\tLAB_B\nA\t92\t0\t6\nB\t88.5\t2\t17\n",
        "a,b,name,l\n0,6,A,92\n2,17,B,88.5\n"}) {
    const auto scale = parsed(text);
    ASSERT_TRUE(scale) << text << scale.error().message;
    ASSERT_EQ(scale->entries().size(), 2u);
    EXPECT_EQ(scale->entries()[0].name, "A");
    EXPECT_EQ(scale->entries()[1].lab, (Lab{88.5, 2, 17}));
    EXPECT_EQ(scale->entries()[1].tolerance_de00, default_tolerance_de00);
    EXPECT_TRUE(scale->remark().empty());
  }
}

TEST(ColorScale, ReadsMunsellAndTolerances) {
  const auto scale = parsed("name,munsell,tolerance_de00\nA,2.5Y 8/4,3\nB,N 5,\n", 1.5);
  ASSERT_TRUE(scale);
  EXPECT_THAT(scale->entries()[0].lab,
              NearInDeltaE(namer().renotation().lab_from_munsell({22.5, 8, 4}), 1e-9));
  EXPECT_EQ(scale->entries()[0].tolerance_de00, 3);
  EXPECT_EQ(scale->entries()[1].tolerance_de00, 1.5);
}

TEST(ColorScale, ReadsCgats) {
  const auto scale = parsed(cgats);
  ASSERT_TRUE(scale) << scale.error().message;
  ASSERT_EQ(scale->entries().size(), 2u);
  EXPECT_EQ(scale->entries()[0].name, "pale straw");
  EXPECT_EQ(scale->entries()[1].lab, (Lab{62, 12, 40}));
  EXPECT_EQ(scale->entries()[1].line, 10u);
}

TEST(ColorScale, AdaptsAnotherIlluminantAndSaysSo) {
  const Lab under_d65{62, 12, 40};
  const Lab adapted = adapted_lab(under_d65, white_d65, white_d50, AdaptationMethod::bradford);
  for (const char* text :
       {"# illuminant: D65\nname,L,a,b\nA,62,12,40\n",
        "CGATS.17\nWEIGHTING_FUNCTION \"ILLUMINANT, D65\"\nWEIGHTING_FUNCTION \"OBSERVER, 2 degree\"\n"
        "BEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\nA 62 12 "
        "40\nEND_DATA\n"}) {
    const auto scale = parsed(text);
    ASSERT_TRUE(scale) << scale.error().message;
    EXPECT_THAT(scale->entries()[0].lab, NearInDeltaE(adapted, 1e-9));
    EXPECT_THAT(scale->remark(), HasSubstr("D65"));
  }
  const auto c = parsed("# illuminant: C\nname,L,a,b\nA,62,12,40\n");
  ASSERT_TRUE(c);
  EXPECT_THAT(c->remark(), HasSubstr("adapted from C"));
  const auto year = parsed("# source: a monograph of 1964\nname,L,a,b\nA,62,12,40\n");
  ASSERT_TRUE(year);
  EXPECT_TRUE(year->remark().empty());
}

TEST(ColorScale, RefusesUnusableConditions) {
  for (const char* line :
       {"# observer: 10 degree", "# illuminant: D50, 10 deg", "# CIE 1964 observer", "# D50/10"})
    EXPECT_THAT(parsed(std::string(line) + "\nname,L,a,b\nA,62,12,40\n"),
                FailsWith(ErrorCode::unreadable_table, HasSubstr("10 degree")))
        << line;
  EXPECT_THAT(parsed("# illuminant: F2\nname,L,a,b\nA,62,12,40\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("illuminant F2")));
  EXPECT_THAT(parsed("# illuminant: D50\n# illuminant: D65\nname,L,a,b\nA,62,12,40\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("D50 and D65")));
}

TEST(ColorScale, NamesTheMalformedLine) {
  for (const auto& [rows, line, sentence] :
       {std::tuple{"A,92,0,6\n,88,2,17\n", "line 3", "name is missing"},
        {"A,92,0,6\nB,pale,2,17\n", "line 3", "'pale'"},
        {"A,92,0\n", "line 2", "3 fields"},
        {"A,920,0,6\n", "line 2", "not within 0 to 110"},
        {"A,92,0,6\n\nB,88,-200,17\n", "line 4", "not within -150 to 150"},
        {"A,nan,0,6\n", "line 2", "'nan'"},
        {"A,1e400,0,6\n", "line 2", "not a number"}})
    EXPECT_THAT(parsed(std::string("name,L,a,b\n") + rows),
                FailsWith(ErrorCode::unreadable_table,
                          AllOf(HasSubstr("'plate'"), HasSubstr(line), HasSubstr(sentence))))
        << rows;
  EXPECT_THAT(parsed("name,munsell\nA,5XR 5/5\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("line 2")));
  EXPECT_THAT(parsed("name,L,a\nA,1,2\n"), FailsWith(ErrorCode::unreadable_table, HasSubstr("L, a, b")));
  EXPECT_THAT(parsed("name,L,a,b\n"), FailsWith(ErrorCode::unreadable_table, HasSubstr("no colour")));
  EXPECT_THAT(parsed(""), FailsWith(ErrorCode::unreadable_table, HasSubstr("column names")));
  EXPECT_THAT(parsed("name,L,a,b,tolerance\nA,50,0,0,-1\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("line 2")));
}

TEST(ColorScale, NamesTheMalformedLineOfCgats) {
  const auto changed = [](std::string_view from, std::string_view to) {
    std::string text = cgats;
    text.replace(text.find(from), from.size(), to);
    return text;
  };
  for (const auto& [from, to, line] : {std::tuple{"62 12 40", "62 12", "line 10"},
                                       {"62 12 40", "62 twelve 40", "line 10"},
                                       {"85 1.5", "185 1.5", "line 9"},
                                       {"\"pale straw\"", "\"pale straw", "line 9"},
                                       {"NUMBER_OF_SETS 2", "NUMBER_OF_SETS 3", "NUMBER_OF_SETS"},
                                       {"END_DATA\n", "", "END_DATA is missing"},
                                       {"\"pale straw\"", "\"\"", "line 9"}}) {
    const auto text = from == std::string_view("END_DATA\n")
                          ? std::string(cgats).substr(0, std::string(cgats).rfind("END_DATA"))
                          : changed(from, to);
    EXPECT_THAT(parsed(text), FailsWith(ErrorCode::unreadable_table, HasSubstr(line))) << text;
  }
}

TEST(ColorScale, BoundsItsSize) {
  std::string text = "name,L,a,b\n";
  for (std::size_t i = 0; i <= ColorScale::limit_entries; ++i) text += "x,50,0,0\n";
  EXPECT_THAT(parsed(text), FailsWith(ErrorCode::unreadable_table, HasSubstr("more than 5000")));
  EXPECT_THAT(ColorScale::load("/nowhere/plate.csv", namer().renotation()),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("plate.csv")));
}

RC_GTEST_PROP(ColorScaleProperty, AnyBytesAreReadOrRefused, (const std::string& bytes)) {
  for (const std::string& text :
       {bytes, "name,L,a,b\n" + bytes, cgats + bytes, std::string(cgats).insert(170, bytes)}) {
    const auto scale = parsed(text);
    if (!scale) RC_ASSERT(!scale.error().message.empty());
  }
}

TEST(ColorScale, AnswersWithTheNearestEntry) {
  const auto scale = parsed("name,L,a,b\npale,90,1,10\nmiddle,84,3,20\ndeep,78,6,30\n");
  ASSERT_TRUE(scale);
  const Lab lab{84.5, 3, 20};
  const auto exact = scale->answer(lab, {lab});
  ASSERT_EQ(exact.matches.size(), 1u);
  EXPECT_EQ(exact.matches[0].entry, "middle");
  EXPECT_EQ(exact.matches[0].within, Answer::yes);
  EXPECT_EQ(exact.matches[0].nearest_probability, 1);
  // Halfway with some uncertainty two entries share the colours.
  const Lab between{87, 2, 15};
  const auto shared = scale->answer(between, distribution_of(between, Matrix3::diagonal(1, 1, 4)));
  ASSERT_EQ(shared.matches.size(), 2u);
  EXPECT_NEAR(shared.matches[0].nearest_probability + shared.matches[1].nearest_probability, 1, 1e-9);
  EXPECT_EQ(shared.matches[0].within, Answer::no);
  // Far away there still is a nearest entry, and it says that it does not fit.
  const Lab blue{30, 10, -50};
  EXPECT_EQ(scale->answer(blue, {blue}).matches[0].within, Answer::no);
}

}  // namespace
}  // namespace colorlib
