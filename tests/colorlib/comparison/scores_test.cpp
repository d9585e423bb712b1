#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/comparison/scores.hpp>

namespace colorlib {
namespace {

using testing::DoubleNear;

constexpr double six_digits = 5e-7;

TEST(Scores, OfTheWorkedResult) {
  EXPECT_THAT(en_score(62.4, 1.2, 60.9, 0.8), DoubleNear(1.040063, six_digits));
  EXPECT_THAT(zeta_score(62.4, 0.6, 60.9, 0.4), DoubleNear(2.080126, six_digits));
  EXPECT_THAT(z_score(62.4, 60.9, 0.75), DoubleNear(2.0, six_digits));
  EXPECT_THAT(z_prime_score(62.4, 60.9, 0.75, 0.4), DoubleNear(1.764706, six_digits));
}

TEST(Scores, EnIsHalfOfZetaWhenBothHaveCoverageFactorTwo) {
  for (const double x : {-3.0, 0.0, 0.7, 55.5})
    EXPECT_DOUBLE_EQ(en_score(x, 1.4, 0.2, 0.6), zeta_score(x, 0.7, 0.2, 0.3) / 2);
}

TEST(Scores, WithoutUncertaintyAreZeroOrInfinite) {
  EXPECT_EQ(en_score(5, 0, 5, 0), 0);
  EXPECT_TRUE(std::isinf(zeta_score(5, 0, 4, 0)));
  EXPECT_LT(z_score(4, 5, 0), 0);
}

TEST(Scores, AreGraded) {
  EXPECT_EQ(grade_word(grade_from(-2.0)), "satisfactory");
  EXPECT_EQ(grade_word(grade_from(2.0801)), "questionable");
  EXPECT_EQ(grade_word(grade_from(-3.0)), "unsatisfactory");
}

}  // namespace
}  // namespace colorlib
