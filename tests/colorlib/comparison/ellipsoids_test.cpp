#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/comparison/ellipsoids.hpp>
#include <random>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::DoubleNear;
using testing::HasSubstr;

const Matrix3 worked{{.36, .05, .10, .05, .25, .08, .10, .08, .64}};

TEST(Ellipsoids, OfTheWorkedCovariance) {
  EXPECT_THAT(known_limit(0.95), DoubleNear(7.814728, 5e-7));
  EXPECT_THAT(std::sqrt(known_limit(0.95)), DoubleNear(2.7955, 5e-5));
  EXPECT_THAT(known_limit(0.5), DoubleNear(2.365974, 5e-7));
  // The worked example says 7.707286; numpy gives 7.7072852, so the sixth decimal is not asked for.
  EXPECT_THAT(mahalanobis_squared({1.2, -0.6, 1.0}, worked), DoubleNear(7.707286, 1e-6));
  EXPECT_THAT(mahalanobis_squared({1.2, -0.6, 1.0}, worked), DoubleNear(7.707285175782753, 1e-12));
  const auto axes = principal_axes(worked);
  const double values[] = {0.225976, 0.332955, 0.691068}, semi[] = {1.3289, 1.6131, 2.3239};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_THAT(axes[i].variance, DoubleNear(values[i], 5e-7));
    EXPECT_THAT(std::sqrt(known_limit(0.95) * axes[i].variance), DoubleNear(semi[i], 5e-5));
    EXPECT_THAT(std::hypot(axes[i].direction[0], axes[i].direction[1], axes[i].direction[2]),
                DoubleNear(1, 1e-12));
  }
}

TEST(Ellipsoids, HaveTheSmallSampleLimitsOfTheTable) {
  struct Row {
    std::size_t n;
    double prediction, confidence, digits_p, digits_c;
  };
  for (const Row& row : {Row{5, 138, 23.0, 0.5, 0.05},
                         {8, 25.6, 2.84, 0.05, 0.005},
                         {12, 15.3, 1.18, 0.05, 0.005},
                         {20, 11.3, 0.536, 0.05, 0.0005},
                         {30, 9.9, 0.318, 0.05, 0.0005}}) {
    EXPECT_THAT(prediction_limit(row.n), DoubleNear(row.prediction, row.digits_p)) << row.n;
    EXPECT_THAT(confidence_limit(row.n), DoubleNear(row.confidence, row.digits_c)) << row.n;
  }
  EXPECT_THAT(prediction_limit(1'000'000), DoubleNear(7.81, 0.005));
  EXPECT_TRUE(std::isinf(prediction_limit(3)));
}

/// The promise of both limits, for the number of readings that a round has.
TEST(Ellipsoids, HoldTheNextReadingAndTheTrueMean) {
  std::mt19937_64 engine(13);
  std::normal_distribution<double> normal;
  const auto draw = [&] {
    const double p = normal(engine), q = normal(engine), r = normal(engine);
    return Lab{40 + 0.6 * p, 10 + 0.3 * p + 0.5 * q, 20 - 0.2 * q + 0.9 * r};
  };
  constexpr int trials = 4000;
  for (const std::size_t count : {4u, 8u, 20u}) {
    int next = 0, mean = 0;
    for (int i = 0; i < trials; ++i) {
      std::vector<Lab> readings;
      for (std::size_t k = 0; k < count; ++k) readings.push_back(draw());
      const auto found = ellipsoid_of(readings);
      ASSERT_TRUE(found);
      const auto inside = [&](const Lab& lab, double limit) {
        return mahalanobis_squared({lab.l - found->mean.l, lab.a - found->mean.a, lab.b - found->mean.b},
                                   found->covariance) <= limit;
      };
      next += inside(draw(), found->prediction_limit);
      mean += inside({40, 10, 20}, found->confidence_limit);
    }
    std::printf("n = %zu, %d trials, seed 13: next reading %.3f, true mean %.3f inside (0.95)\n", count,
                trials, static_cast<double>(next) / trials, static_cast<double>(mean) / trials);
    // Three standard errors of a share of 4000.
    EXPECT_THAT(static_cast<double>(next) / trials, DoubleNear(0.95, 0.0104));
    EXPECT_THAT(static_cast<double>(mean) / trials, DoubleNear(0.95, 0.0104));
  }
}

TEST(Ellipsoids, AreRefusedForFewerThanFourReadings) {
  EXPECT_THAT(ellipsoid_of({{1, 2, 3}, {2, 3, 4}, {3, 4, 6}}),
              FailsWith(ErrorCode::bad_call, HasSubstr("four are needed")));
  EXPECT_THAT(ellipsoid_of({}), FailsWith(ErrorCode::bad_call, HasSubstr("0 readings")));
  EXPECT_TRUE(ellipsoid_of({{1, 2, 3}, {2, 3, 4}, {3, 4, 6}, {1, 5, 2}}));
}

}  // namespace
}  // namespace colorlib
