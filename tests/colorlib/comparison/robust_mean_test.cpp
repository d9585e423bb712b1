#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/comparison/robust_mean.hpp>
#include <numbers>
#include <random>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::DoubleNear;

const std::vector<double> nine_collectors{58.2, 58.9, 59.1, 59.4, 59.6, 59.8, 60.1, 60.5, 66.3};

TEST(AlgorithmA, TakesTheWorkedSteps) {
  struct Step {
    double mean, deviation;
  };
  const Step steps[] = {{59.6, 0.7415},      {59.62222, 0.83618}, {59.62716, 0.89836},
                        {59.62826, 0.94078}, {59.62850, 0.97031}, {59.63155, 0.98478}};
  for (int i = 0; i <= 5; ++i) {
    const auto result = algorithm_a(nine_collectors, i);
    EXPECT_EQ(result.iterations, i);
    EXPECT_THAT(result.mean, DoubleNear(steps[i].mean, 5e-6)) << i;
    EXPECT_THAT(result.standard_deviation, DoubleNear(steps[i].deviation, i == 0 ? 5e-5 : 5e-6)) << i;
  }
  const auto limit = algorithm_a(nine_collectors);
  EXPECT_THAT(limit.mean, DoubleNear(59.636741, 5e-7));
  EXPECT_THAT(limit.standard_deviation, DoubleNear(0.995953, 5e-7));
  EXPECT_THAT(limit.standard_uncertainty, DoubleNear(0.414981, 5e-7));
}

TEST(AlgorithmA, StandsMoreThanHalfIdenticalValues) {
  const auto mostly = algorithm_a({5, 5, 5, 5, 7});
  EXPECT_TRUE(std::isfinite(mostly.mean));
  EXPECT_GE(mostly.mean, 5);
  EXPECT_LT(mostly.mean, 5.4) << "the plain mean";
  EXPECT_EQ(algorithm_a({5, 5, 5}).standard_deviation, 0);
  EXPECT_EQ(algorithm_a({5, 5, 5}).mean, 5);
  EXPECT_EQ(algorithm_a({4.25}).mean, 4.25);
  EXPECT_EQ(algorithm_a({1, 2}).mean, 1.5);
}

std::vector<Lab> random_colors(std::mt19937_64& engine, std::size_t count, double deviation) {
  std::normal_distribution<double> normal(0, deviation);
  std::vector<Lab> colors;
  for (std::size_t i = 0; i < count; ++i)
    colors.push_back({50 + normal(engine), 10 + normal(engine), 20 + normal(engine)});
  return colors;
}

Lab turned(const Lab& c, double degrees) {
  const double angle = degrees * std::numbers::pi / 180;
  return {c.l, c.a * std::cos(angle) - c.b * std::sin(angle), c.a * std::sin(angle) + c.b * std::cos(angle)};
}

TEST(RobustLabMean, TurnsWithTheColourPlane) {
  std::mt19937_64 engine(7);
  double worst = 0;
  for (int trial = 0; trial < 50; ++trial) {
    auto colors = random_colors(engine, 5 + static_cast<std::size_t>(trial) % 9, 1.0);
    colors.front().a += 12;
    std::vector<Lab> others;
    for (const Lab& color : colors) others.push_back(turned(color, 37));
    const Lab expected = turned(robust_lab_mean(colors).mean, 37);
    worst = std::max(worst, difference_cie76(robust_lab_mean(others).mean, expected));
  }
  std::printf("50 sets, seed 7: worst %.2g\n", worst);
  EXPECT_LT(worst, 1e-6);
}

TEST(RobustLabMean, IsNotCarriedAwayByOneWrongCollector) {
  std::mt19937_64 engine(8);
  auto colors = random_colors(engine, 12, 0.5);
  const Lab before = robust_lab_mean(colors).mean;
  colors.front() = {20, 60, -40};
  const Lab after = robust_lab_mean(colors).mean;
  EXPECT_LT(difference_cie76(before, after), 0.5);
  colors.front() = {-2000, 6000, -4000};
  EXPECT_LT(difference_cie76(after, robust_lab_mean(colors).mean), 0.2) << "further out makes no difference";
}

TEST(RobustLabMean, StatesItsSpreadAndUncertaintyForNormalColours) {
  std::mt19937_64 engine(9);
  double deviation = 0, squares = 0, stated = 0;
  constexpr int rounds = 2000;
  for (int i = 0; i < rounds; ++i) {
    const auto result = robust_lab_mean(random_colors(engine, 9, 0.8));
    deviation += result.coordinate_deviation / rounds;
    squares += std::pow(result.mean.l - 50, 2) / rounds;
    stated += result.covariance(0, 0) / rounds;
  }
  std::printf("%d rounds of 9, seed 9: s* %.3f (0.8), sd of the mean %.3f, stated %.3f\n", rounds, deviation,
              std::sqrt(squares), std::sqrt(stated));
  EXPECT_THAT(deviation, DoubleNear(0.8, 0.03)) << "s* of nine is a little below sigma";
  // The factor 1.25 of the standard is meant for one dimension; in three less is lost.
  EXPECT_THAT(std::sqrt(stated) / std::sqrt(squares), DoubleNear(1.22, 0.1));
}

TEST(RobustLabMean, StandsFewAndEqualColours) {
  const Lab one{40, 1, 2};
  EXPECT_THAT(robust_lab_mean({one}).mean, NearInDeltaE(one, 1e-9));
  EXPECT_THAT(robust_lab_mean({one, one, one}).mean, NearInDeltaE(one, 1e-9));
  EXPECT_EQ(robust_lab_mean({one, one, one}).coordinate_deviation, 0);
  EXPECT_THAT(robust_lab_mean({one, {42, 1, 2}}).mean, NearInDeltaE(Lab{41, 1, 2}, 1e-6));
  EXPECT_LT(difference_cie76(robust_lab_mean({one, one, one, {44, 1, 2}}).mean, one), 1.0);
}

TEST(SpatialMedian, IsAGeometricalOne) {
  // Of a triangle with no angle of 120 degrees or more: the point from which its sides are seen under 120.
  const Lab median = spatial_median({{0, 0, 0}, {0, 1, 0}, {0, 0.5, std::sqrt(3.0) / 2}});
  EXPECT_THAT(median.a, DoubleNear(0.5, 1e-7));
  EXPECT_THAT(median.b, DoubleNear(std::sqrt(3.0) / 6, 1e-7));
  // On a line: the middle one.
  EXPECT_THAT(spatial_median({{10, 0, 0}, {20, 0, 0}, {90, 0, 0}}).l, DoubleNear(20, 1e-6));
}

}  // namespace
}  // namespace colorlib
