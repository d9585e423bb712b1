#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/color_distribution.hpp>
#include <cstdio>
#include <limits>
#include <random>

namespace colorlib {
namespace {

const Lab center{45, 12, 24};
/// Standard deviations 1.2, 0.8, 1.5; L* and b* correlated by 0.6, a* and b* by -0.4.
const Matrix3 covariance{{1.44, 0, 1.08, 0, 0.64, -0.48, 1.08, -0.48, 2.25}};

double normal_below(double z) { return std::erfc(-z / std::sqrt(2.0)) / 2; }

TEST(ColorDistribution, HasTheMeanAndTheCovariance) {
  const auto colors = distribution_of(center, covariance);
  ASSERT_EQ(colors.size(), distribution_size);
  Vector3 mean{};
  for (const auto& color : colors)
    for (std::size_t i = 0; i < 3; ++i) mean[i] += vector_from(color)[i] / static_cast<double>(colors.size());
  const Vector3 wanted = vector_from(center);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(mean[i], wanted[i], 1e-9);
  Matrix3 found;
  for (const auto& color : colors)
    for (int r = 0; r < 3; ++r)
      for (int c = 0; c < 3; ++c)
        found(r, c) +=
            (vector_from(color)[static_cast<std::size_t>(r)] - wanted[static_cast<std::size_t>(r)]) *
            (vector_from(color)[static_cast<std::size_t>(c)] - wanted[static_cast<std::size_t>(c)]) /
            static_cast<double>(colors.size());
  for (std::size_t i = 0; i < 9; ++i) EXPECT_NEAR(found.m[i], covariance.m[i], 1e-9) << i;
}

// Boxes of any size and place: the counted share against the product of normal distributions.
TEST(ColorDistribution, CountsSharesWithinAHundredth) {
  const Matrix3 independent = Matrix3::diagonal(1.44, 0.64, 2.25);
  const auto colors = distribution_of(center, independent);
  constexpr std::uint64_t seed = 440;
  constexpr int trials = 3000;
  std::mt19937_64 random(seed);
  std::normal_distribution<double> unit(0, 1.2);
  double worst = 0;
  for (int i = 0; i < trials; ++i) {
    double expected = 1;
    Vector3 low{}, high{};
    const Vector3 middle = vector_from(center), sd{1.2, 0.8, 1.5};
    for (std::size_t axis = 0; axis < 3; ++axis) {
      double from = unit(random), to = unit(random);
      if (from > to) std::swap(from, to);
      expected *= normal_below(to) - normal_below(from);
      low[axis] = middle[axis] + sd[axis] * from;
      high[axis] = middle[axis] + sd[axis] * to;
    }
    const auto inside = std::count_if(colors.begin(), colors.end(), [&](const Lab& color) {
      const Vector3 v = vector_from(color);
      return v[0] >= low[0] && v[0] < high[0] && v[1] >= low[1] && v[1] < high[1] && v[2] >= low[2] &&
             v[2] < high[2];
    });
    worst = std::max(worst,
                     std::abs(static_cast<double>(inside) / static_cast<double>(colors.size()) - expected));
  }
  std::printf("%d boxes, seed %llu: worst share off by %.4f\n", trials, static_cast<unsigned long long>(seed),
              worst);
  EXPECT_LE(worst, 0.01);  // the bound the header states
}

// One plane in any direction: what a block's side is to a reading.
TEST(ColorDistribution, CountsEachSideOfAPlaneWithinAHundredth) {
  const auto colors = distribution_of(center, Matrix3::diagonal(1.44, 0.64, 2.25));
  constexpr std::uint64_t seed = 441;
  constexpr int trials = 3000;
  std::mt19937_64 random(seed);
  std::normal_distribution<double> unit(0, 1);
  double worst = 0;
  for (int i = 0; i < trials; ++i) {
    const Vector3 normal{unit(random), unit(random), unit(random)};
    const double spread = std::hypot(1.2 * normal[0], 0.8 * normal[1], 1.5 * normal[2]), limit = unit(random);
    const auto below = std::count_if(colors.begin(), colors.end(), [&](const Lab& color) {
      return normal[0] * (color.l - center.l) + normal[1] * (color.a - center.a) +
                 normal[2] * (color.b - center.b) <
             limit * spread;
    });
    worst = std::max(worst, std::abs(static_cast<double>(below) / static_cast<double>(colors.size()) -
                                     normal_below(limit)));
  }
  std::printf("%d planes, seed %llu: worst share off by %.4f\n", trials,
              static_cast<unsigned long long>(seed), worst);
  EXPECT_LE(worst, 0.01);
}

TEST(ColorDistribution, IsTheSameEveryTime) {
  EXPECT_EQ(distribution_of(center, covariance), distribution_of(center, covariance));
}

TEST(ColorDistribution, IsOneColorWhenExact) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(distribution_of(center, {}), std::vector<Lab>{center});
  EXPECT_EQ(distribution_of(center, Matrix3::diagonal(1, nan, 1)), std::vector<Lab>{center});
  EXPECT_TRUE(is_exact(Matrix3::diagonal(0, 0, std::numeric_limits<double>::infinity())));
  EXPECT_FALSE(is_exact(Matrix3::diagonal(0, 0, 1e-12)));
  EXPECT_EQ(expanded_difference(center, {center}), 0);
}

TEST(ColorDistribution, TakesACovarianceThatIsFlatOrNotPositive) {
  for (const auto& color : distribution_of(center, Matrix3::diagonal(1, 0, 0))) {
    EXPECT_NEAR(color.a, center.a, 1e-9);
    EXPECT_NEAR(color.b, center.b, 1e-9);
  }
  for (const auto& color : distribution_of(center, Matrix3::diagonal(1, -4, 1)))
    EXPECT_NEAR(color.a, center.a, 1e-9);
}

// In lightness alone at L* 50 one unit of L* is dE00 1 (S_L = 1), so the 95 % quantile is 1.96 standard
// deviations.
TEST(ColorDistribution, ExpandedDifferenceIsTheQuantile) {
  const Lab gray{50, 0, 0};
  EXPECT_NEAR(expanded_difference(gray, distribution_of(gray, Matrix3::diagonal(0.25, 0, 0))), 1.96 * 0.5,
              0.02);
}

}  // namespace
}  // namespace colorlib
