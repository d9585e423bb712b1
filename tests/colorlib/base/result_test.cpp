#include <gtest/gtest.h>

#include <colorlib/base/result.hpp>
#include <set>
#include <string>

namespace colorlib {
namespace {

constexpr ErrorCode every_code[] = {
    ErrorCode::bad_call,          ErrorCode::unreadable_photo,     ErrorCode::unsupported_photo,
    ErrorCode::unreadable_chart,  ErrorCode::unreadable_reference, ErrorCode::unreadable_regions,
    ErrorCode::unreadable_record, ErrorCode::unreadable_catalogue, ErrorCode::unreadable_table,
    ErrorCode::chart_not_found,   ErrorCode::untrustworthy,        ErrorCode::cannot_write,
    ErrorCode::cancelled};

TEST(ErrorCodes, EachHasASpellingOfItsOwnInLowerCaseAndHyphens) {
  std::set<std::string> names;
  for (const auto code : every_code) {
    const std::string name(code_name(code));
    EXPECT_EQ(name.find_first_not_of("abcdefghijklmnopqrstuvwxyz-"), std::string::npos) << name;
    EXPECT_NE(name, "unknown");
    EXPECT_TRUE(names.insert(name).second) << name << " stands for two codes";
  }
}

TEST(ErrorCodes, SpellingsThatScriptsRelyOnStay) {
  EXPECT_EQ(code_name(ErrorCode::chart_not_found), "chart-not-found");
  EXPECT_EQ(code_name(ErrorCode::unreadable_photo), "unreadable-photo");
  EXPECT_EQ(code_name(ErrorCode::untrustworthy), "untrustworthy");
}

Result<int> half_of(int number) {
  if (number % 2 != 0) return fail(ErrorCode::bad_call, "Halving: an odd number.", "Give an even one.");
  return number / 2;
}

Result<std::string> half_in_words(int number) {
  const auto half = half_of(number);
  if (!half) return fail(half.error());
  return std::to_string(*half);
}

TEST(Results, HoldAValue) {
  const auto words = half_in_words(8);
  ASSERT_TRUE(words);
  EXPECT_EQ(*words, "4");
}

TEST(Results, PassAnErrorOnUnchanged) {
  const auto words = half_in_words(7);
  ASSERT_FALSE(words);
  EXPECT_EQ(words.error().code, ErrorCode::bad_call);
  EXPECT_EQ(words.error().message, "Halving: an odd number.");
  EXPECT_EQ(words.error().advice, "Give an even one.");
}

}  // namespace
}  // namespace colorlib
