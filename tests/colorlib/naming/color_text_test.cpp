#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/naming/color_text.hpp>
#include <tests/colorlib/naming/reference_tables.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;

Result<TypedColor> typed(std::string_view text, const White& white = white_d50) {
  return color_from_text(text, white, namer().renotation());
}

TEST(ColorText, ReadsThreeKinds) {
  for (const char* text : {"50 -5 3.5", " 50,-5,3.5 ", "50; -5; 3.5", "5e1\t-5\t+3.5"}) {
    const auto color = typed(text);
    ASSERT_TRUE(color) << text;
    EXPECT_EQ(color->kind, ColorTextKind::lab);
    EXPECT_EQ(color->lab, (Lab{50, -5, 3.5}));
  }
  const auto munsell = typed("5yr 4/6");
  ASSERT_TRUE(munsell);
  EXPECT_EQ(munsell->kind, ColorTextKind::munsell);
  EXPECT_THAT(munsell->lab, NearInDeltaE(namer().renotation().lab_from_munsell({15, 4, 6}), 1e-9));
  EXPECT_EQ(typed("N 5")->kind, ColorTextKind::munsell);
}

// (255, 0, 0) and (200, 150, 90): CIELAB under D65 by IEC 61966-2-1 and the white 95.047, 100, 108.883.
TEST(ColorText, ReadsHexCodesWithAndWithoutTheSign) {
  for (const auto& [code, under_d65] :
       {std::pair{"ff0000", Lab{53.2329, 80.1093, 67.2201}}, {"#C8965A", Lab{65.6163, 11.8725, 38.6593}}}) {
    const auto color = typed(code);
    ASSERT_TRUE(color);
    EXPECT_EQ(color->kind, ColorTextKind::srgb_hex);
    EXPECT_THAT(
        color->lab,
        NearInDeltaE(adapted_lab(under_d65, white_d65, white_d50, AdaptationMethod::bradford), 0.001));
  }
  EXPECT_EQ(typed("123456")->kind, ColorTextKind::srgb_hex) << "six digits are a code, not a number";
  EXPECT_NEAR(typed("FFFFFF")->lab.l, 100, 0.01);
}

TEST(ColorText, TakesCielabOfAnotherWhite) {
  const auto color = typed("62 12 40", white_d65);
  ASSERT_TRUE(color);
  EXPECT_THAT(
      color->lab,
      NearInDeltaE(adapted_lab({62, 12, 40}, white_d65, white_d50, AdaptationMethod::bradford), 1e-9));
  EXPECT_EQ(*white_from_name("d65"), white_d65);
  EXPECT_EQ(*white_from_name("C"), white_c);
  for (const char* name : {"", "D93", "daylight", "F2"})
    EXPECT_THAT(white_from_name(name), FailsWith(ErrorCode::bad_call, HasSubstr("not known"))) << name;
}

TEST(ColorText, RefusesNotationsFarBeyondThePublishedChips) {
  EXPECT_THAT(typed("5YR 5/60"),
              FailsWith(ErrorCode::bad_call, HasSubstr("the published chips end at chroma")));
  const double edge = namer().renotation().greatest_chroma(15, 5);
  EXPECT_TRUE(typed(fmt::format("5YR 5/{:.1f}", edge + 1.9))) << "a step beyond is continued";
  EXPECT_FALSE(typed(fmt::format("5YR 5/{:.1f}", edge + 2.2)));
  EXPECT_TRUE(typed("N 10"));
  EXPECT_TRUE(typed("N 0"));
}

TEST(ColorText, RefusesTheRest) {
  for (const char* text : {"", "  ", "50", "50 0", "50 0 0 0", "50 x 0", "50 nan 0", "150 0 0", "-1 0 0",
                           "50 300 0", "#fff", "#12345", "#gggggg", "12345", "5YR", "brown", "50 0 inf"})
    EXPECT_THAT(typed(text), FailsWith(ErrorCode::bad_call, HasSubstr("Reading the"))) << text;
}

RC_GTEST_PROP(ColorTextProperty, AnyTextIsReadOrRefused, (const std::string& text)) {
  const auto color = typed(text);
  if (!color) RC_ASSERT(!color.error().advice.empty());
}

}  // namespace
}  // namespace colorlib
