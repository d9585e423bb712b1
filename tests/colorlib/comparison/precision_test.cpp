#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/comparison/precision.hpp>
#include <random>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::DoubleNear;
using testing::HasSubstr;

constexpr double six = 5e-7, four = 5e-5;

/// Four collectors, three repeats: L*; figures computed independently.
const std::vector<std::vector<double>> worked{
    {59.4, 59.7, 59.5}, {60.8, 60.5, 61.0}, {58.9, 59.3, 59.0}, {60.0, 60.1, 59.7}};

TEST(Precision, AStatisticIsToldFromItsCriticalValue) {
  EXPECT_EQ(beside_critical(2.31, 1.43), "2.31, critical 1.43");
  EXPECT_EQ(beside_critical(1.4341, 1.4252), "1.434, critical 1.425");
  EXPECT_EQ(beside_critical(-1.43412, 1.43408), "-1.43412, critical 1.43408");
  EXPECT_EQ(beside_critical(-2.5, 1.43), "-2.50, critical 1.43");
  EXPECT_EQ(beside_critical(1, 1), "1.000000, critical 1.000000");
}

TEST(Precision, OfTheWorkedRound) {
  const auto found = precision_of(worked);
  ASSERT_TRUE(found);
  EXPECT_THAT(found->general_mean, DoubleNear(59.825, six));
  EXPECT_THAT(found->repeatability_sd, DoubleNear(0.208167, six));
  EXPECT_THAT(std::pow(found->repeatability_sd, 2), DoubleNear(0.043333, six));
  EXPECT_THAT(found->between_sd, DoubleNear(0.710699, six));
  EXPECT_THAT(found->reproducibility_sd, DoubleNear(0.740558, six));
  EXPECT_THAT(found->repeatability_limit, DoubleNear(0.5829, four));
  EXPECT_THAT(found->reproducibility_limit, DoubleNear(2.0736, four));
  EXPECT_EQ(found->repeatability_dof, 8);
  const double means[] = {59.53333, 60.76667, 59.06667, 59.93333},
               biases[] = {-0.2917, 0.9417, -0.7583, 0.1083}, h[] = {-0.4046, 1.3064, -1.0521, 0.1503},
               k[] = {0.7338, 1.2089, 1, 1};
  for (std::size_t j = 0; j < 4; ++j) {
    EXPECT_THAT(found->cells[j].mean, DoubleNear(means[j], 5e-6));
    EXPECT_THAT(found->cells[j].bias, DoubleNear(biases[j], four));
    EXPECT_THAT(*found->cells[j].mandel_h, DoubleNear(h[j], four));
    EXPECT_THAT(*found->cells[j].mandel_k, DoubleNear(k[j], four));
  }
  EXPECT_THAT(*found->cochran, DoubleNear(0.3654, four));
}

TEST(Precision, HasTheCriticalValuesOfTheTables) {
  const auto found = precision_of(worked);
  ASSERT_TRUE(found);
  // Cochran's published table for four collectors with three repeats (0.768 at 5 %, 0.864 at 1 %; from
  // memory).
  EXPECT_THAT(*found->cochran_critical_5, DoubleNear(0.768, 5e-4));
  EXPECT_THAT(*found->cochran_critical_1, DoubleNear(0.864, 5e-4));
  // The formulas evaluated with scipy 1.10.1.
  EXPECT_THAT(*found->h_critical_5, DoubleNear(1.425000, 1e-6));
  EXPECT_THAT(*found->h_critical_1, DoubleNear(1.485000, 1e-6));
  EXPECT_THAT(*found->cells[0].k_critical_5, DoubleNear(1.589461, 1e-6));
  EXPECT_THAT(*found->cells[0].k_critical_1, DoubleNear(1.771504, 1e-6));
}

/// Cells of unequal size: s_r and s_L must be right on average, and one reading a cell must do no harm.
TEST(Precision, IsRightOnAverageForUnequalNumbersOfRepeats) {
  std::mt19937_64 engine(11);
  std::normal_distribution<double> normal;
  constexpr int rounds = 4000;
  constexpr double repeat_sd = 0.3, collector_sd = 0.9;
  double within = 0, total = 0;
  for (int round = 0; round < rounds; ++round) {
    std::vector<std::vector<double>> cells;
    for (const int count : {1, 2, 3, 7, 4, 1, 2, 3, 2, 5}) {
      const double collector = 50 + collector_sd * normal(engine);
      cells.emplace_back();
      for (int i = 0; i < count; ++i) cells.back().push_back(collector + repeat_sd * normal(engine));
    }
    const auto found = precision_of(cells);
    ASSERT_TRUE(found);
    EXPECT_FALSE(found->cells[0].mandel_k);
    EXPECT_TRUE(found->cells[0].mandel_h);
    within += std::pow(found->repeatability_sd, 2) / rounds;
    total += std::pow(found->reproducibility_sd, 2) / rounds;
  }
  std::printf("%d rounds, seed 11: s_r %.4f (0.3), s_R %.4f (%.4f)\n", rounds, std::sqrt(within),
              std::sqrt(total), std::hypot(0.3, 0.9));
  EXPECT_THAT(within, DoubleNear(0.09, 0.002));
  // The relative standard error of the mean of 4000 variances with 9 degrees of freedom is 0.7 %; three
  // times.
  EXPECT_THAT(total, DoubleNear(0.90, 0.021));
}

TEST(Precision, RefusesWhatHasNoPrecision) {
  EXPECT_THAT(precision_of({{1, 2, 3}}), FailsWith(ErrorCode::bad_call, HasSubstr("1 collector")));
  EXPECT_THAT(precision_of({{1, 2}, {}}), FailsWith(ErrorCode::bad_call, HasSubstr("no reading")));
  EXPECT_THAT(precision_of({{1}, {2}}), FailsWith(ErrorCode::bad_call, HasSubstr("twice")));
}

TEST(Precision, OfEqualReadingsIsZeroWithoutNonsense) {
  const auto found = precision_of({{5, 5}, {5, 5}, {5, 5}});
  ASSERT_TRUE(found);
  EXPECT_EQ(found->reproducibility_sd, 0);
  EXPECT_FALSE(found->cells[0].mandel_h);
  EXPECT_FALSE(found->cells[0].mandel_k);
  EXPECT_FALSE(found->cochran);
}

TEST(SmallSamples, HaveTheFactorsOfTheTables) {
  struct Row {
    std::size_t n;
    double low, high;
  };
  for (const Row& row : {Row{3, 0.52, 6.28},
                         {5, 0.60, 2.87},
                         {8, 0.66, 2.04},
                         {10, 0.69, 1.83},
                         {15, 0.73, 1.58},
                         {20, 0.76, 1.46},
                         {30, 0.80, 1.34}}) {
    const auto factors = deviation_interval(static_cast<double>(row.n - 1));
    EXPECT_THAT(factors.low, DoubleNear(row.low, 0.005)) << row.n;
    EXPECT_THAT(factors.high, DoubleNear(row.high, 0.005)) << row.n;
  }
}

}  // namespace
}  // namespace colorlib
