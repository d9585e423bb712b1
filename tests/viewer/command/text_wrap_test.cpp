#include <gmock/gmock.h>

#include <viewer/command/text_wrap.hpp>

namespace tintfall {
namespace {

using testing::Eq;

TEST(Wrapped, BreaksAtSpacesAndIndentsWhatFollows) {
  EXPECT_THAT(wrapped("one two three", 0, 2, 8), Eq("one two\n  three"));
  EXPECT_THAT(wrapped("one two", 4, 4, 8), Eq("one\n    two"));
}

TEST(Wrapped, KeepsRunsOfSpacesInsideALine) {
  EXPECT_THAT(wrapped("L* 5   a* 6", 0, 0, 40), Eq("L* 5   a* 6"));
}

TEST(Wrapped, CountsCharactersNotBytes) {
  // Ten letters of two bytes each and a space fit into 21 columns beside ten more.
  EXPECT_THAT(wrapped("ääääääääää öööööööööö", 0, 0, 21), Eq("ääääääääää öööööööööö"));
}

TEST(Wrapped, LongWordsStandAlone) {
  EXPECT_THAT(wrapped("a /very/long/path b", 0, 0, 6), Eq("a\n/very/long/path\nb"));
}

TEST(Wrapped, EmptyStaysEmpty) { EXPECT_THAT(wrapped("   ", 0, 4, 10), Eq("")); }

}  // namespace
}  // namespace tintfall
