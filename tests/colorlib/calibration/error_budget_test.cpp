#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/calibration/error_budget.hpp>
#include <random>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

/// Monte Carlo (JCGM 101): the 95 % quantile of dE00 between truth and reading, truth drawn about the
/// reading.
double drawn_quantile(const Lab& lab, const Matrix3& covariance, std::mt19937_64& random) {
  const Eigen::Matrix3d matrix =
      Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(covariance.m.data());
  const Eigen::Matrix3d root = matrix.llt().matrixL();
  std::normal_distribution<double> normal;
  std::vector<double> distances(40000);
  for (double& distance : distances) {
    const Eigen::Vector3d step = root * Eigen::Vector3d(normal(random), normal(random), normal(random));
    distance = difference_ciede2000(lab, {lab.l + step[0], lab.a + step[1], lab.b + step[2]});
  }
  const auto place =
      distances.begin() + static_cast<std::ptrdiff_t>(0.95 * static_cast<double>(distances.size()));
  std::nth_element(distances.begin(), place, distances.end());
  return *place;
}

TEST(ExpandedDe00, AgreesWithMonteCarlo) {
  std::mt19937_64 random(20261125);
  const Lab colors[] = {{88, 1.5, 17},  {64, 13, 16}, {42, 19, 29}, {25, 8, 8},
                        {16, 1.5, 1.5}, {43, 5, 25},  {66, -8, 17}, {93, 0, 4}};
  const Matrix3 shapes[] = {Matrix3::diagonal(0.2, 0.2, 0.2),
                            Matrix3::diagonal(0.05, 0.8, 0.3),
                            Matrix3::diagonal(2, 0.1, 0.1),
                            {{0.36, 0.05, 0.10, 0.05, 0.25, 0.08, 0.10, 0.08, 0.64}}};
  double worst = 0;
  for (const Lab& lab : colors)
    for (const Matrix3& shape : shapes) {
      const double drawn = drawn_quantile(lab, shape, random), stated = expanded_de00(lab, shape);
      worst = std::max(worst, std::abs(stated / drawn - 1));
      // The gamma form is approximate when one axis dominates; Monte Carlo itself is good to about 0.7 %.
      EXPECT_NEAR(stated / drawn, 1, 0.05) << testing::PrintToString(lab);
    }
  std::printf(
      "expanded dE00 against Monte Carlo: worst relative difference %.4f over 32 cases, seed 20261125\n",
      worst);
}

TEST(ExpandedDe00, IsZeroForAnExactColor) { EXPECT_EQ(expanded_de00({50, 0, 0}, {}), 0); }

TEST(ExpandedUncertainty, IsTwiceTheStandardOne) {
  const Vector3 expanded = expanded_uncertainty(Matrix3::diagonal(0.25, 1, 4));
  EXPECT_DOUBLE_EQ(expanded[0], 1);
  EXPECT_DOUBLE_EQ(expanded[1], 2);
  EXPECT_DOUBLE_EQ(expanded[2], 4);
}

TEST(ProportionalLight, MatchesTheWorkedSlope) {
  // At L* 60 a tenth more light is about 2.5 L*: L* + 16 = 76 grows with the cube root, 76 / 3 * 0.1 = 2.53.
  EXPECT_NEAR(0.1 * proportional_light_direction({60, 0, 0})[0], 76.0 / 3 * 0.1, 1e-9);
}

}  // namespace
}  // namespace colorlib
