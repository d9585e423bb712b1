#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <cstdio>
#include <limits>
#include <numbers>
#include <random>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

constexpr unsigned seed = 20310409;
constexpr double largest = std::numeric_limits<double>::max();

Lab random_surface_color(std::mt19937_64& generator) {
  std::uniform_real_distribution<double> lightness(5, 95), chromatic(-60, 60);
  const double l = lightness(generator), a = chromatic(generator);
  return {l, a, chromatic(generator)};
}

double squared_length(const Vector3& v) { return v[0] * v[0] + v[1] * v[1] + v[2] * v[2]; }

TEST(Ciede2000, IsSymmetricNotNegativeAndFiniteForAnyFiniteColours) {
  EXPECT_TRUE(
      rc::check("any doubles", [](double l_1, double a_1, double b_1, double l_2, double a_2, double b_2) {
        const Lab first{l_1, a_1, b_1}, second{l_2, a_2, b_2};
        const double there = difference_ciede2000(first, second);
        RC_ASSERT(std::isfinite(there));
        RC_ASSERT(there >= 0);
        RC_ASSERT(there == difference_ciede2000(second, first));
        RC_ASSERT(difference_ciede2000(first, first) == 0);
      }));
}

TEST(Ciede2000, IsSymmetricToTheLastBit) {
  constexpr int trials = 1'000'000;
  std::mt19937_64 generator(seed);
  int asymmetric = 0;
  for (int trial = 0; trial < trials; ++trial) {
    const Lab first = random_surface_color(generator), second = random_surface_color(generator);
    asymmetric += difference_ciede2000(first, second) != difference_ciede2000(second, first);
  }
  std::printf("seed %u, %d pairs: %d asymmetric\n", seed, trials, asymmetric);
  EXPECT_EQ(asymmetric, 0);
}

TEST(Ciede2000, IsFiniteAtTheEdgesOfTheNumbers) {
  const double edges[] = {-largest, -1e200, -1e-320, -0.0, 0.0, 1e-320, 1e200, largest};
  for (const double a : edges)
    for (const double b : edges)
      for (const double c : edges) {
        EXPECT_TRUE(std::isfinite(difference_ciede2000({50, a, b}, {c, b, a}))) << a << ' ' << b << ' ' << c;
        EXPECT_TRUE(std::isfinite(difference_ciede2000({a, 0, 0}, {b, c, 0}))) << a << ' ' << b << ' ' << c;
      }
}

TEST(Ciede2000, ExactlyOppositeHuesAreJudgedAlikeInBothOrders) {
  // Neither of the two mean hues is right or wrong there, but it must not depend on the order, nor on
  // rounding.
  std::mt19937_64 generator(seed);
  std::uniform_real_distribution<double> angle(0, 2 * std::numbers::pi), chroma(0.1, 80);
  for (int trial = 0; trial < 100'000; ++trial) {
    const double h = angle(generator), c = chroma(generator), d = chroma(generator);
    const Lab first{50, c * std::cos(h), c * std::sin(h)}, second{60, -d * std::cos(h), -d * std::sin(h)};
    ASSERT_EQ(difference_ciede2000(first, second), difference_ciede2000(second, first))
        << h << ' ' << c << ' ' << d;
  }
}

TEST(Ciede2000, OfGreysIsTheWeightedLightnessStep) {
  // By hand: mean L* 50 weighs 1; mean L* 75 weighs 1 + 0.015 * 625 / sqrt(645).
  EXPECT_NEAR(difference_ciede2000({49, 0, 0}, {51, 0, 0}), 2.0, 1e-14);
  EXPECT_NEAR(difference_ciede2000({70, 0, 0}, {80, 0, 0}), 10.0 / (1 + 0.015 * 625 / std::sqrt(645.0)),
              1e-13);
}

TEST(Cie76, IsEuclidean) {
  EXPECT_NEAR(difference_cie76({42, 19, 29}, {45, 15, 25}), std::sqrt(9.0 + 16 + 16), 1e-15);
  EXPECT_EQ(difference_cie76({1, 2, 3}, {1, 2, 3}), 0);
}

TEST(MetricRoot, IsSymmetricAndNotNegative) {
  std::mt19937_64 generator(seed);
  for (int trial = 0; trial < 10'000; ++trial) {
    const Matrix3 root = ciede2000_metric_root(random_surface_color(generator));
    ASSERT_EQ(root, transpose(root));
    for (int direction = 0; direction < 20; ++direction) {
      const Lab d = random_surface_color(generator);
      const Vector3 v = vector_from(d), image = root * v;
      ASSERT_GE(v[0] * image[0] + v[1] * image[1] + v[2] * image[2], 0);
    }
  }
}

TEST(MetricRoot, GivesSmallDifferencesOfChromaticColours) {
  constexpr int trials = 200'000;
  std::mt19937_64 generator(seed);
  std::normal_distribution<double> step;
  double worst = 0;
  Lab worst_color;
  int used = 0;
  for (int trial = 0; trial < trials; ++trial) {
    const Lab lab = random_surface_color(generator);
    if (std::hypot(lab.a, lab.b) < 5) continue;
    Vector3 d{step(generator), step(generator), step(generator)};
    const double scale = 0.5 / std::sqrt(squared_length(d));
    for (double& component : d) component *= scale;
    const double direct = difference_ciede2000({lab.l - d[0] / 2, lab.a - d[1] / 2, lab.b - d[2] / 2},
                                               {lab.l + d[0] / 2, lab.a + d[1] / 2, lab.b + d[2] / 2});
    const double by_metric = std::sqrt(squared_length(ciede2000_metric_root(lab) * d));
    const double error = std::abs(by_metric / direct - 1);
    ++used;
    if (error > worst) worst = error, worst_color = lab;
  }
  std::printf(
      "seed %u, %d differences of length 0.5 at chroma 5 and more: worst relative error %.2e at (%.1f, %.1f, "
      "%.1f)\n",
      seed, used, worst, worst_color.l, worst_color.a, worst_color.b);
  // Second order in step / chroma: (0.7 / 5)^2 / 24 is 0.0008, and the 0.5 asked for bends a little less.
  EXPECT_LT(worst, 2e-3);
}

TEST(MetricRoot, OfAGreyCountsAAndBByTheirStretch) {
  const Matrix3 root = ciede2000_metric_root({50, 0, 0});
  // Without chroma: S_L = 1; G = 0.5, so a* counts 1.5 fold; S_C and S_H are 1 at chroma 0. The step's own
  // chroma of 0.35 (0.525 stretched) moves them by 0.045 * 0.525 = 2.4 percent at most.
  EXPECT_NEAR(root(0, 0), 1, 1e-3);
  EXPECT_NEAR(root(1, 1), 1.5, 0.04);
  EXPECT_NEAR(root(2, 2), 1, 0.03);
  EXPECT_NEAR(root(0, 1), 0, 1e-9);
  EXPECT_NEAR(root(0, 2), 0, 1e-9);
}

TEST(AxisWeights, AreTheStandardsOwn) {
  // By hand at C* = 25 on the b axis: G = 0.5 (1 - sqrt(1/2)), S_C = 1 + 0.045 * 25; L* 60: 1
  // + 1.5/sqrt(120).
  const Vector3 weights = ciede2000_axis_weights({60, 0, 25});
  EXPECT_NEAR(weights[0], 1 + 1.5 / std::sqrt(120.0), 1e-14);
  EXPECT_NEAR(weights[1], 2.125 / (1 + 0.5 * (1 - std::sqrt(0.5))), 1e-14);
  EXPECT_NEAR(weights[2], 2.125, 1e-14);
}

TEST(AxisWeights, TurnASmallStepOfLightnessOrChromaIntoItsDifference) {
  // On the b axis and for a step along it only S_C acts, along L* only S_L.
  const Lab lab{35, 0, 40};
  const Vector3 weights = ciede2000_axis_weights(lab);
  EXPECT_NEAR(difference_ciede2000({34.95, 0, 40}, {35.05, 0, 40}), 0.1 / weights[0], 1e-6);
  EXPECT_NEAR(difference_ciede2000({35, 0, 39.95}, {35, 0, 40.05}), 0.1 / weights[2], 1e-6);
}

TEST(AxisWeights, AreFiniteAndPositiveAnywhere) {
  for (const double value : {-largest, -100.0, 0.0, 1e-320, 100.0, largest})
    for (const double weight : ciede2000_axis_weights({value, value, -value})) {
      EXPECT_TRUE(std::isfinite(weight)) << value;
      EXPECT_GT(weight, 0) << value;
    }
}

}  // namespace
}  // namespace colorlib
