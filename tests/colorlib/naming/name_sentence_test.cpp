#include <gtest/gtest.h>

#include <colorlib/naming/name_sentence.hpp>
#include <tests/colorlib/naming/reference_tables.hpp>

namespace colorlib {
namespace {

ColorDescription description(std::vector<NameShare> names, double de00_expanded) {
  ColorDescription words;
  words.name = names.front();
  words.alternatives.assign(names.begin() + 1, names.end());
  words.de00_expanded = de00_expanded;
  return words;
}

TEST(NameSentence, SaysNameProbabilityAlternativesAndUncertainty) {
  const Wording wording;
  EXPECT_EQ(sentence_from(description({{"moderate brown", 1, 0}}, 0), wording), "moderate brown");
  EXPECT_EQ(
      sentence_from(description({{"moderate brown", 0.82, 0}, {"strong brown", 0.17, 0.4}}, 1.31), wording),
      "moderate brown (82 %), otherwise strong brown; within ΔE00 1.3 (95 %)");
  EXPECT_EQ(
      sentence_from(description({{"a", 0.5, 0}, {"b", 0.3, 1}, {"c", 0.1, 1}, {"d", 0.05, 1}}, 2), wording),
      "a (50 %), otherwise b, c or d; within ΔE00 2.0 (95 %)");
  EXPECT_EQ(sentence_from(description({{"a", 0.5, 0}, {"b", 0.3, 1}, {"c", 0.1, 1}}, 2), wording),
            "a (50 %), otherwise b or c; within ΔE00 2.0 (95 %)");
  EXPECT_EQ(sentence_from(description({{"moderate brown", 1, 0}}, 0.4), wording),
            "moderate brown (> 99 %); within ΔE00 0.4 (95 %)");
}

TEST(NameSentence, SaysWhatLiesBeyondTheData) {
  auto words = description({{"vivid red", 1, 0}}, 0);
  words.outside_renotation = true;
  EXPECT_EQ(sentence_from(words, Wording()), "vivid red; beyond the published colors, named by the nearest");
  EXPECT_EQ(sentence_from(words, *Wording::for_spelling(Spelling::british, source_folder())),
            "vivid red; beyond the published colours, named by the nearest");
  EXPECT_EQ(sentence_from(ColorDescription{}, Wording()), "no color");
}

TEST(NameSentence, NeverClaimsCertainty) {
  EXPECT_EQ(percentage_from(0.824), "82 %");
  EXPECT_EQ(percentage_from(0.9951), "> 99 %");
  EXPECT_EQ(percentage_from(1), "> 99 %");
  EXPECT_EQ(percentage_from(0.004), "< 1 %");
  EXPECT_EQ(percentage_from(0), "< 1 %");
}

}  // namespace
}  // namespace colorlib
