#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <colorlib/naming/munsell.hpp>
#include <cstdio>
#include <limits>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;

Munsell read(std::string_view text) {
  const auto munsell = munsell_from_notation(text);
  EXPECT_TRUE(munsell) << text << ": " << (munsell ? "" : munsell.error().message);
  return munsell ? *munsell : Munsell{-1, -1, -1};
}

TEST(Munsell, ReadsNotations) {
  EXPECT_EQ(read("8.2YR 5.1/5.5"), (Munsell{18.2, 5.1, 5.5}));
  EXPECT_EQ(read(" 5 yr 5 / 6 "), (Munsell{15, 5, 6}));
  EXPECT_EQ(read("10R4/2"), (Munsell{10, 4, 2}));
  EXPECT_EQ(read("0YR 4/2"), (Munsell{10, 4, 2}));
  EXPECT_EQ(read("10RP 4/2"), (Munsell{0, 4, 2}));
  EXPECT_EQ(read("2.5PB 3/10"), (Munsell{72.5, 3, 10}));
  for (const char* neutral : {"N 5.2", "n5.2", "N5.2/", "N 5.2/0", "5R 5.2/0"})
    EXPECT_EQ(read(neutral), (Munsell{0, 5.2, 0})) << neutral;
}

TEST(Munsell, RefusesWhatIsNoNotation) {
  for (const char* text :
       {"",         "5",        "5YR",      "5YR 5",   "5YR/6",     "YR 5/6",    "11YR 5/6", "-1YR 5/6",
        "5YR 11/6", "5YR 5/-2", "5YR 5/61", "5XR 5/6", "5YR nan/6", "5YR 5/6/7", "N",        "N 11",
        "N 5/2",    "N x",      "5RR 5/5",  "5YR 5/",  "\xff\xfe",  "5YR5,1/6"})
    EXPECT_THAT(munsell_from_notation(text), FailsWith(ErrorCode::bad_call, HasSubstr("Munsell notation")))
        << text;
}

TEST(Munsell, PrintsNotations) {
  EXPECT_EQ(notation_from({18.2, 5.1, 5.5}), "8.2YR 5.1/5.5");
  EXPECT_EQ(notation_from({10, 4, 2}), "10.0R 4.0/2.0");
  EXPECT_EQ(notation_from({0, 4, 2}), "10.0RP 4.0/2.0");
  EXPECT_EQ(notation_from({99.97, 4, 2}), "10.0RP 4.0/2.0");
  EXPECT_EQ(notation_from({9.98, 4, 2}), "10.0R 4.0/2.0");
  EXPECT_EQ(notation_from({0.04, 4, 2}), "10.0RP 4.0/2.0");
  EXPECT_EQ(notation_from({0.06, 4, 2}), "0.1R 4.0/2.0");
  EXPECT_EQ(notation_from({33, 5.24, 0.04}), "N 5.2");
  EXPECT_EQ(notation_from({33, 0, 0}), "N 0.0");
}

RC_GTEST_PROP(MunsellProperty, PrintedNotationsReadBackToTheTenth, ()) {
  const double hue = *rc::gen::inRange(0, 1000) / 10.0;
  const double value = *rc::gen::inRange(0, 101) / 10.0, chroma = *rc::gen::inRange(0, 501) / 10.0;
  const auto back = munsell_from_notation(notation_from({hue, value, chroma}));
  RC_ASSERT(back.has_value());
  RC_ASSERT(std::abs(back->value - value) < 1e-9);
  RC_ASSERT(std::abs(back->chroma - chroma) < 1e-9);
  if (chroma > 0) RC_ASSERT(std::abs(hue_steps_between(back->hue_step, hue)) < 1e-9);
}

RC_GTEST_PROP(MunsellProperty, AnyTextIsReadOrRefused, (const std::string& text)) {
  const auto read = munsell_from_notation(text);
  if (!read) RC_ASSERT(!read.error().message.empty());
}

TEST(Munsell, HuesWrap) {
  EXPECT_EQ(wrapped_hue_step(100), 0);
  EXPECT_EQ(wrapped_hue_step(-2.5), 97.5);
  EXPECT_EQ(wrapped_hue_step(-1e-20), 0);
  EXPECT_EQ(hue_steps_between(98, 2), 4);
  EXPECT_EQ(hue_steps_between(2, 98), -4);
  EXPECT_EQ(hue_steps_between(0, 50), 50);
}

// ASTM D1535 at whole values: the percent luminance and its L* as tabulated with this project's figures;
// computed elsewhere by Python from the published polynomial. Tolerance: half a unit of the last digit.
TEST(MunsellValue, MeetsThePublishedScale) {
  const double table[][2] = {{1, 1.1799},  {2, 3.0481},  {3, 6.3912},  {4, 11.7008}, {5, 19.2718},
                             {6, 29.3012}, {7, 41.9854}, {8, 57.6196}, {9, 76.6956}, {10, 100.0}};
  for (const auto& [value, percent] : table) {
    EXPECT_NEAR(luminance_from_munsell_value(value) * 100, percent, 5e-5) << value;
    EXPECT_NEAR(munsell_value_from_luminance(percent / 100), value, 5e-5) << value;
  }
  const double inverse[][2] = {{18, 4.851927}, {20, 5.082076}, {50, 7.537720}, {12.23634268, 4.082444}};
  for (const auto& [percent, value] : inverse)
    EXPECT_NEAR(munsell_value_from_luminance(percent / 100), value, 5e-7) << percent;
}

TEST(MunsellValue, GoesBothWays) {
  double worst = 0;
  for (int i = 0; i <= 100'000; ++i) {
    const double value = i / 10'000.0;
    worst =
        std::max(worst, std::abs(munsell_value_from_luminance(luminance_from_munsell_value(value)) - value));
  }
  std::printf("value -> luminance -> value, 100001 values: worst %.2g\n", worst);
  EXPECT_LE(worst, 1e-10);  // the bound the header states
}

TEST(MunsellValue, HoldsWhatIsBeyond) {
  EXPECT_EQ(munsell_value_from_luminance(-0.1), 0);
  EXPECT_EQ(munsell_value_from_luminance(0), 0);
  EXPECT_NEAR(munsell_value_from_luminance(1.5), 10, 1e-9);
  EXPECT_EQ(munsell_value_from_luminance(std::numeric_limits<double>::quiet_NaN()), 0);
  EXPECT_EQ(luminance_from_munsell_value(-1), 0);
  EXPECT_NEAR(luminance_from_munsell_value(12), 1, 1e-12);
}

}  // namespace
}  // namespace colorlib
