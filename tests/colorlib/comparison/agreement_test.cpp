#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/comparison/agreement.hpp>
#include <colorlib/naming/tolerance.hpp>
#include <numbers>
#include <random>
#include <tests/colorlib/comparison/normal_colors.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::DoubleNear;

const Lab rust{42, 19, 29}, cream{88, 1.5, 17}, soot{16, 1.5, 1.5}, moss{66, -8, 17};

/// The covariance whose readings scatter equally in every direction of dE00, by `deviation` in each.
Matrix3 even_covariance(const Lab& lab, double deviation) {
  const Matrix3 root = inverse(ciede2000_metric_root(lab));
  return deviation * deviation * (root * root);
}

TEST(Agreement, IsEnOfTheStandardInOneCoordinate) {
  const Matrix3 u_a = Matrix3::diagonal(0.36, 0.01, 0.01), u_b = Matrix3::diagonal(0.16, 0.01, 0.01);
  const auto found = agreement_between({{62.4, 5, 5}, u_a}, {{60.9, 5, 5}, u_b});
  EXPECT_THAT(found.en_lab[0], DoubleNear(1.040063, 5e-7));
  EXPECT_THAT(found.zeta[0], DoubleNear(2.080126, 5e-7));
  EXPECT_EQ(found.zeta[1], 0);
  // Jointly in three coordinates the same difference must be larger to be shown.
  EXPECT_THAT(found.en, DoubleNear(2.080126 / joint_coverage_factor, 5e-7));
  EXPECT_THAT(found.de00_expanded, DoubleNear(found.de00 / found.en, 1e-12));
}

TEST(Agreement, TurnsItsSignsWithTheOrder) {
  const UncertainColor a{rust, Matrix3::diagonal(0.3, 0.2, 0.1)},
      b{{43, 18.2, 30}, Matrix3::diagonal(0.1, 0.2, 0.4)};
  for (const AgreementRule& rule : {AgreementRule{}, AgreementRule{1.0}}) {
    const auto one = agreement_between(a, b, rule), other = agreement_between(b, a, rule);
    EXPECT_DOUBLE_EQ(one.de00, other.de00);
    EXPECT_DOUBLE_EQ(one.en, other.en);
    EXPECT_DOUBLE_EQ(one.zeta[2], -other.zeta[2]);
    EXPECT_THAT(one.within_probability, DoubleNear(other.within_probability, 0.01));
    EXPECT_EQ(one.verdict, other.verdict);
  }
}

/// [JCGM101] as the reference: where the errors are even in dE00, the expanded uncertainty is the quantile of
/// dE00 that two readings of one colour show.
TEST(Agreement, ExpandsTheDifferenceAsMonteCarloDoes) {
  constexpr int draws = 200'000;
  for (const Lab& color : {rust, cream, soot, moss}) {
    const Matrix3 covariance = even_covariance(color, 0.5);
    NormalColors colors(17);
    std::vector<double> differences;
    for (int i = 0; i < draws; ++i)
      differences.push_back(
          difference_ciede2000(colors.draw(color, covariance), colors.draw(color, covariance)));
    const auto place = differences.begin() + static_cast<std::ptrdiff_t>(draws * joint_coverage);
    std::nth_element(differences.begin(), place, differences.end());
    const auto found =
        agreement_between({{color.l + 0.3, color.a - 0.2, color.b + 0.2}, covariance}, {color, covariance});
    std::printf("Lab(%g, %g, %g): expanded %.4f, Monte Carlo of %d draws %.4f\n", color.l, color.a, color.b,
                found.de00_expanded, draws, *place);
    // dE00 is not quite quadratic over this range; near black and near the neutral axis least so.
    EXPECT_THAT(found.de00_expanded / *place, DoubleNear(1, 0.01));
  }
}

TEST(Agreement, OfEqualReadingsHasTheUncertaintyOfItsWorstDirection) {
  const Matrix3 covariance = Matrix3::diagonal(1.0, 0.01, 0.01);
  const auto found = agreement_between({rust, covariance}, {rust, covariance});
  EXPECT_EQ(found.en, 0);
  EXPECT_EQ(found.de00, 0);
  const double along_l = joint_coverage_factor * std::sqrt(2.0);
  EXPECT_THAT(found.de00_expanded,
              DoubleNear(difference_ciede2000({42 - along_l / 2, 19, 29}, {42 + along_l / 2, 19, 29}), 1e-9));
}

/// The promise: equal colours are called different in 4.55 % of pairs, whatever the covariances.
TEST(Agreement, CallsEqualColoursDifferentAsRarelyAsItSays) {
  constexpr int pairs = 50'000, judged = 1000;
  NormalColors colors(18);
  int beyond = 0, wrong = 0, wrong_with_tolerance = 0;
  for (int i = 0; i < pairs; ++i) {
    const Lab truth = colors.any_color();
    const Matrix3 of_a = colors.any_covariance(), of_b = colors.any_covariance();
    const UncertainColor a{colors.draw(truth, of_a), of_a}, b{colors.draw(truth, of_b), of_b};
    const bool shown = difference_statistic(a, b) > joint_coverage_factor * joint_coverage_factor;
    beyond += shown;
    if (i >= judged) continue;
    EXPECT_EQ(agreement_between(a, b).verdict == Verdict::different, shown);
    wrong += shown;
    wrong_with_tolerance += agreement_between(a, b, {1.0}).verdict == Verdict::different;
  }
  std::printf(
      "%d pairs of equal colours, seed 18: E_n > 1 in %.2f %%; with a tolerance of 1 %.2f %% of %d "
      "different\n",
      pairs, 100.0 * beyond / pairs, 100.0 * wrong_with_tolerance / judged, judged);
  // Three standard errors of a share of 50 000.
  EXPECT_THAT(100.0 * beyond / pairs, DoubleNear(4.55, 0.28));
  EXPECT_LE(wrong_with_tolerance, wrong);
}

/// Pairs whose true difference is the tolerance are as far as "same" reaches and as near as "different"
/// begins: neither may be said often.
TEST(Agreement, IsRarelyWrongAtTheEdgeOfItsTolerance) {
  constexpr int pairs = 1500;
  NormalColors colors(19);
  for (const double size : {0.3, 1.0}) {
    int same = 0, different = 0;
    for (int i = 0; i < pairs; ++i) {
      const Lab truth = colors.any_color();
      const Matrix3 covariance = size * size * colors.any_covariance();
      const Lab other = colors.at_difference(truth, default_tolerance_de00);
      const auto found =
          agreement_between({colors.draw(truth, covariance), covariance},
                            {colors.draw(other, covariance), covariance}, {default_tolerance_de00});
      same += found.verdict == Verdict::same;
      different += found.verdict == Verdict::different;
    }
    std::printf(
        "true difference = tolerance = 2, uncertainty x %.1f, %d pairs, seed 19: same %.2f %%, different "
        "%.2f %%\n",
        size, pairs, 100.0 * same / pairs, 100.0 * different / pairs);
    // 5 % and three standard errors.
    EXPECT_LE(same, pairs * 0.067);
    EXPECT_LE(different, pairs * 0.067);
  }
}

TEST(Agreement, SaysSameOnlyWhenADifferenceWouldHaveBeenSeen) {
  const Lab near{42.1, 19.1, 28.9};
  const auto sure =
      agreement_between({rust, Matrix3::diagonal(.04, .04, .04)}, {near, Matrix3::diagonal(.04, .04, .04)});
  EXPECT_EQ(sure.verdict, Verdict::same);
  EXPECT_GT(sure.within_probability, 0.99);
  const auto unsure =
      agreement_between({rust, Matrix3::diagonal(4, 4, 4)}, {near, Matrix3::diagonal(4, 4, 4)});
  EXPECT_EQ(unsure.verdict, Verdict::undecided) << "agreeing by being vague is no agreement";
  const auto far =
      agreement_between({rust, Matrix3::diagonal(.04, .04, .04)}, {cream, Matrix3::diagonal(.04, .04, .04)});
  EXPECT_EQ(far.verdict, Verdict::different);
  EXPECT_LT(far.within_probability, 1e-3);
}

TEST(Agreement, CallsASmallSureDifferenceTheSameOnlyWithATolerance) {
  const Matrix3 small = Matrix3::diagonal(.003, .003, .003);
  const UncertainColor a{rust, small}, b{{42.8, 19, 29}, small};
  EXPECT_EQ(agreement_between(a, b).verdict, Verdict::different);
  EXPECT_EQ(agreement_between(a, b, {2.0}).verdict, Verdict::same);
  EXPECT_EQ(agreement_between(a, b, {0.2}).verdict, Verdict::different);
}

TEST(Agreement, StandsReadingsWithoutUncertainty) {
  const auto equal = agreement_between({rust, {}}, {rust, {}});
  EXPECT_EQ(equal.verdict, Verdict::same);
  const auto differing = agreement_between({rust, {}}, {{42, 19, 30}, {}});
  EXPECT_EQ(differing.verdict, Verdict::different);
  EXPECT_TRUE(std::isfinite(differing.en));
  for (const double zeta : differing.zeta) EXPECT_TRUE(std::isfinite(zeta));
}

TEST(Agreement, IsPrintedSoThatItsSideOfTheLimitShows) {
  EXPECT_EQ(en_text(0.5), "0.50");
  EXPECT_EQ(en_text(1.004), "1.004");
  EXPECT_EQ(en_text(0.9961), "0.996");
  EXPECT_EQ(en_text(1.0002), "1.0002") << "1.000 would still say the limit";
  EXPECT_EQ(en_text(1), "1.00");
  EXPECT_EQ(en_text(1.006), "1.01");
  EXPECT_EQ(en_text(12.345678), "12.35");
}

}  // namespace
}  // namespace colorlib
