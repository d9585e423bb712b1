#include <gtest/gtest.h>

#include <colorlib/naming/color_distribution.hpp>
#include <colorlib/naming/tolerance.hpp>

namespace colorlib {
namespace {

TEST(Tolerance, AnswersOnlyWhenLikelyEnough) {
  EXPECT_EQ(answer_from(1), Answer::yes);
  EXPECT_EQ(answer_from(0.95), Answer::yes);
  EXPECT_EQ(answer_from(0.94), Answer::undecided);
  EXPECT_EQ(answer_from(0.5), Answer::undecided);
  EXPECT_EQ(answer_from(0.06), Answer::undecided);
  EXPECT_EQ(answer_from(0.04), Answer::no);
  EXPECT_EQ(answer_word(Answer::yes), "yes");
  EXPECT_EQ(answer_word(Answer::no), "no");
  EXPECT_EQ(answer_word(Answer::undecided), "undecided");
}

// In lightness alone at L* 50 a unit of L* is dE00 1: the share within 1 of the center is that of one
// standard deviation of the normal distribution.
TEST(Tolerance, CountsTheShareWithin) {
  const Lab gray{50, 0, 0};
  const auto distribution = distribution_of(gray, Matrix3::diagonal(1, 0, 0));
  EXPECT_NEAR(share_within(distribution, gray, 1), 0.6827, 0.01);
  EXPECT_EQ(share_within(distribution, gray, 50), 1);
  EXPECT_EQ(share_within({}, gray, 50), 0);
  EXPECT_EQ(share_within({gray}, gray, 0), 1);
}

}  // namespace
}  // namespace colorlib
