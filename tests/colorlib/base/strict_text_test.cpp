#include <gmock/gmock.h>
#include <rapidcheck.h>

#include <colorlib/base/strict_text.hpp>
#include <cstdio>
#include <cstdlib>

namespace colorlib {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::Optional;

TEST(NumberFromText, TakesPlainNumbers) {
  EXPECT_THAT(number_from("95.1"), Optional(95.1));
  EXPECT_THAT(number_from(" \t-0.5 "), Optional(-0.5));
  EXPECT_THAT(number_from("+3"), Optional(3.0));
  EXPECT_THAT(number_from("1.5e-3"), Optional(0.0015));
  EXPECT_THAT(number_from("2E2"), Optional(200.0));
  EXPECT_THAT(number_from(".5"), Optional(0.5));
  EXPECT_THAT(number_from("0"), Optional(0.0));
}

TEST(NumberFromText, RefusesEverythingElse) {
  for (const char* text : {"",    " ",     "nan",   "NaN",    "inf",   "-inf",  "infinity", "0x10", "95,1",
                           "1 2", "12abc", "abc",   "--1",    "+-1",   "++1",   "-",        "+",    ".",
                           "e5",  "1e",    "1e400", "-1e400", "1.2.3", "1_000", "\u0663"})
    EXPECT_EQ(number_from(text), std::nullopt) << "'" << text << "'";
}

TEST(NumberFromText, TakesADecimalCommaOnlyWhenAsked) {
  EXPECT_THAT(number_from_with_decimal_comma("95,1"), Optional(95.1));
  EXPECT_THAT(number_from_with_decimal_comma("95.1"), Optional(95.1));
  EXPECT_THAT(number_from_with_decimal_comma("-1,5e1"), Optional(-15.0));
  for (const char* text : {"1,2,3", "1.000,5", "1,000.5", ",", "a,b", "nan"})
    EXPECT_EQ(number_from_with_decimal_comma(text), std::nullopt) << text;
}

TEST(NumberFromText, ReadsBackWhatWasPrintedInFull) {
  EXPECT_TRUE(rc::check("a finite double survives 17 digits", [](double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.17g", value);
    RC_ASSERT(number_from(text) == std::optional<double>(value));
  }));
}

TEST(NumberFromText, AgreesWithTheStandardLibraryOnArbitraryText) {
  EXPECT_TRUE(rc::check("what is taken, strtod takes whole and equal", [] {
    const auto text =
        *rc::gen::container<std::string>(rc::gen::elementOf(std::string("0123456789.,eE+- nax")));
    if (const auto value = number_from(text)) {
      char* end = nullptr;
      const std::string copy(trimmed(text));
      RC_ASSERT(std::strtod(copy.c_str(), &end) == *value);
      RC_ASSERT(*end == '\0');
    }
  }));
}

TEST(Trimming, TakesBlanksFromBothEndsOnly) {
  EXPECT_EQ(trimmed(" \t a b\r\n"), "a b");
  EXPECT_EQ(trimmed(" \t "), "");
  EXPECT_EQ(trimmed(""), "");
}

TEST(ByteOrderMark, IsTakenFromTheFrontOnly) {
  EXPECT_EQ(without_byte_order_mark("\xEF\xBB\xBFL,a,b"), "L,a,b");
  EXPECT_EQ(without_byte_order_mark("L\xEF\xBB\xBF"), "L\xEF\xBB\xBF");
  EXPECT_EQ(without_byte_order_mark("\xEF\xBB"), "\xEF\xBB");
}

TEST(Lines, EndWithAnyOfTheThreeLineEnds) {
  EXPECT_THAT(lines_of("a\nb\r\nc\rd"), ElementsAre("a", "b", "c", "d"));
  EXPECT_THAT(lines_of("a\n\nb\n"), ElementsAre("a", "", "b"));
  EXPECT_THAT(lines_of("a\r\r\nb"), ElementsAre("a", "", "b"));
  EXPECT_THAT(lines_of(""), IsEmpty());
}

TEST(Fields, AreSplitAndTrimmed) {
  EXPECT_THAT(fields_of("a, b ,,d", ','), Optional(ElementsAre("a", "b", "", "d")));
  EXPECT_THAT(fields_of("", ','), Optional(ElementsAre("")));
  EXPECT_THAT(fields_of("a\t\tb", '\t'), Optional(ElementsAre("a", "", "b")));
}

TEST(Fields, QuotesKeepSeparatorsAndDoubledQuotes) {
  EXPECT_THAT(fields_of(R"("a,b",c)", ','), Optional(ElementsAre("a,b", "c")));
  EXPECT_THAT(fields_of(R"("say ""ochre""",x)", ','), Optional(ElementsAre(R"(say "ochre")", "x")));
}

TEST(Fields, AnOpenQuoteIsRefused) {
  EXPECT_EQ(fields_of(R"(a,"b,c)", ','), std::nullopt);
  EXPECT_EQ(fields_of(R"(")", ','), std::nullopt);
}

TEST(QuotableText, StaysAsItIsWhenItIsShortAndClean) {
  EXPECT_EQ(quotable("rusty ochre"), "rusty ochre");
  EXPECT_EQ(quotable("b* für L* 50"), "b* für L* 50");
}

TEST(QuotableText, IsCutBetweenCharacters) {
  EXPECT_EQ(quotable("abcdef", 3), "abc...");
  EXPECT_EQ(quotable("äöü", 2), "äö...");
  EXPECT_EQ(quotable("äöü", 3), "äöü");
}

TEST(QuotableText, ReplacesWhatNoMessageMayHold) {
  EXPECT_EQ(quotable(std::string_view("a\0b\x1b[1m\n", 8)), "a?b?[1m?");
  EXPECT_EQ(quotable("\xFF\xC3"), "??");
  EXPECT_EQ(quotable("\xC0\x80"), "??") << "overlong";
  EXPECT_EQ(quotable("\xED\xA0\x80"), "???") << "surrogate";
  EXPECT_EQ(quotable("\xF4\x90\x80\x80"), "????") << "beyond the last character";
  EXPECT_EQ(quotable("\xF0\x9F\x8D\x84"), "\xF0\x9F\x8D\x84");
  EXPECT_EQ(quotable("a\tb"), "a?b");
}

TEST(Controls, OfBothSetsAndTurnsOfDirectionAreNoPlainText) {
  for (const char* odd :
       {"\x1b", "\x07", "\x7f", "\r", "\xC2\x80", "\xC2\x9B", "\xC2\x9F", "\xD8\x9C", "\xE2\x80\x8E",
        "\xE2\x80\x8F", "\xE2\x80\xAA", "\xE2\x80\xAE", "\xE2\x81\xA6", "\xE2\x81\xA9"}) {
    EXPECT_EQ(quotable(odd), "?");
    EXPECT_EQ(without_controls(std::string("a") + odd + "[2J"), "a?[2J");
  }
  for (const char* plain : {"\xC2\xA0", "\xC2\xB1", "\xE2\x80\x90", "\xE2\x80\xAF", "\xE2\x81\xAA",
                            "\xD7\x90", "\xF0\x9F\x8D\x84"})
    EXPECT_EQ(without_controls(plain), plain);
  EXPECT_EQ(without_controls("two\tlines\nof text"), "two\tlines\nof text");
  EXPECT_EQ(without_controls("\x9b"), "?") << "no UTF-8";
}

TEST(Controls, AreFoundInFields) {
  for (const char* odd : {"a\x1b[2J", "a\xC2\x9B", "\x7f"}) EXPECT_TRUE(holds_control_character(odd));
  EXPECT_TRUE(holds_control_character(std::string_view("\0", 1)));
  for (const char* sound : {"", "two\tlines\r\nof text", "\xC3\xBC", "\xE2\x80\x8F", "\xff"})
    EXPECT_FALSE(holds_control_character(sound));
}

TEST(Controls, GiveWayInFieldsToWhatIsPrinted) {
  for (const char* odd : {"\x1b", "\x7f", "\xC2\x9B"})
    EXPECT_EQ(without_field_controls(std::string("a") + odd + "[2J.jpg"), "a?[2J.jpg");
  EXPECT_EQ(without_field_controls(std::string_view("a\0b", 3)), "a?b");
  for (const char* sound : {"", "two\tlines\r\nof text", "\xC3\xBC.jpg", "\xE2\x80\x8F", "\xff"})
    EXPECT_EQ(without_field_controls(sound), sound);
}

TEST(Controls, AreEscapedInJson) {
  EXPECT_EQ(json_without_controls("{\n  \"a\": \"\xC2\x9B\x7F\xC2\xB1\"}"),
            "{\n  \"a\": \"\\u009b\\u007f\xC2\xB1\"}");
  EXPECT_EQ(json_without_controls("\"\xff\""), "\"\\ufffd\"");
}

TEST(WholeCharacters, CutsOffTheUnfinishedOneOnly) {
  EXPECT_EQ(whole_characters(""), 0u);
  EXPECT_EQ(whole_characters("ab"), 2u);
  EXPECT_EQ(whole_characters("a\xC3"), 1u);
  EXPECT_EQ(whole_characters("a\xC3\xBC"), 3u);
  EXPECT_EQ(whole_characters("a\xF0\x9F\x8D"), 1u);
  EXPECT_EQ(whole_characters("a\xF0\x9F\x8D\x84"), 5u);
  EXPECT_EQ(whole_characters("\x80\x80\x80\x80"), 4u) << "no beginning in reach: nothing to wait for";
}

}  // namespace
}  // namespace colorlib
