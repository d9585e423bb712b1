#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/comparison/combined_uncertainty.hpp>
#include <random>

namespace colorlib {
namespace {

using testing::DoubleNear;

constexpr double four_digits = 5e-5, five_digits = 5e-6;

/// Covariance of (X, Y, Z) from standard uncertainties and correlations r(XY), r(XZ), r(YZ).
Matrix3 xyz_covariance(const Vector3& u, double xy, double xz, double yz) {
  return {{u[0] * u[0], xy * u[0] * u[1], xz * u[0] * u[2], xy * u[0] * u[1], u[1] * u[1], yz * u[1] * u[2],
           xz * u[0] * u[2], yz * u[1] * u[2], u[2] * u[2]}};
}

Vector3 deviations(const Matrix3& c) { return {std::sqrt(c(0, 0)), std::sqrt(c(1, 1)), std::sqrt(c(2, 2))}; }
double correlation(const Matrix3& c, int i, int j) { return c(i, j) / std::sqrt(c(i, i) * c(j, j)); }

struct WorkedCase {
  double xy, xz, yz;
  Vector3 u_lab;
  Vector3 correlations;  // (L, a), (L, b), (a, b)
};

/// XYZ = (30, 28, 12) with u = (0.30, 0.28, 0.15) under D50, uncorrelated and correlated; figures computed
/// independently (numpy) from [JCGM100, eq. 10 and 13].
const WorkedCase cases[] = {
    {0, 0, 0, {0.25296, 1.56981, 0.61827}, {-0.6946, 0.7054, -0.4900}},
    {0.95, 0.80, 0.85, {0.25296, 0.35307, 0.23946}, {-0.0495, 0.2658, 0.0307}},
};
constexpr Xyz color{0.30, 0.28, 0.12};
constexpr Vector3 u_xyz{0.0030, 0.0028, 0.0015};

TEST(LabUncertainty, FollowsTheGuideForTheWorkedColour) {
  const Lab lab = lab_from_xyz(color, white_d50);
  EXPECT_THAT(lab.l, DoubleNear(59.8887, four_digits));
  EXPECT_THAT(lab.a, DoubleNear(11.6999, four_digits));
  EXPECT_THAT(lab.b, DoubleNear(25.6701, four_digits));
  const Matrix3 jacobian = lab_jacobian(color, white_d50);
  const double published[9] = {0, 0.9034374, 0, 3.7645165, -3.8941266, 0, 0, 1.5576506, -2.9214587};
  for (std::size_t i = 0; i < 9; ++i) EXPECT_THAT(jacobian.m[i] / 100, DoubleNear(published[i], 5e-8));
  for (const auto& row : cases) {
    const Matrix3 of_lab = jacobian * xyz_covariance(u_xyz, row.xy, row.xz, row.yz) * transpose(jacobian);
    const Vector3 u = deviations(of_lab);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_THAT(u[i], DoubleNear(row.u_lab[i], five_digits));
    EXPECT_THAT(correlation(of_lab, 0, 1), DoubleNear(row.correlations[0], four_digits));
    EXPECT_THAT(correlation(of_lab, 0, 2), DoubleNear(row.correlations[1], four_digits));
    EXPECT_THAT(correlation(of_lab, 1, 2), DoubleNear(row.correlations[2], four_digits));
  }
}

TEST(LabUncertainty, AgreesWithMonteCarlo) {
  constexpr int draws = 400'000;
  std::mt19937_64 engine(20311005);
  std::normal_distribution<double> normal;
  for (const auto& row : cases) {
    // A Cholesky root of the three correlations, by hand.
    const double b = std::sqrt(1 - row.xy * row.xy), c = (row.yz - row.xy * row.xz) / b;
    const double d = std::sqrt(1 - row.xz * row.xz - c * c);
    Vector3 sum{}, squares{};
    for (int i = 0; i < draws; ++i) {
      const double p = normal(engine), q = normal(engine), r = normal(engine);
      const Xyz drawn{color.x + u_xyz[0] * p, color.y + u_xyz[1] * (row.xy * p + b * q),
                      color.z + u_xyz[2] * (row.xz * p + c * q + d * r)};
      const Vector3 lab = vector_from(lab_from_xyz(drawn, white_d50));
      for (std::size_t k = 0; k < 3; ++k) sum[k] += lab[k], squares[k] += lab[k] * lab[k];
    }
    for (std::size_t k = 0; k < 3; ++k) {
      const double mean = sum[k] / draws;
      // A standard deviation from 400 000 draws is known to 0.11 %; four times that.
      EXPECT_THAT(std::sqrt(squares[k] / draws - mean * mean),
                  DoubleNear(row.u_lab[k], 0.0045 * row.u_lab[k]));
    }
  }
}

TEST(CombinedUncertainty, OfTheWorkedBudget) {
  const double repeats = 0.40 / std::sqrt(5.0), rounding = 0.5 / std::sqrt(3.0);
  EXPECT_THAT(repeats, DoubleNear(0.178885, 5e-7));
  const auto whole = combined({{repeats, 4}, {rounding}, {0.25}});
  EXPECT_THAT(whole.standard, DoubleNear(0.421703, 5e-7));
  EXPECT_THAT(whole.effective_dof, DoubleNear(123.5, 0.05));
  EXPECT_THAT(2 * whole.standard, DoubleNear(0.8434, four_digits));
  EXPECT_GT(whole.half_width_95, 1.96 * whole.standard);
}

TEST(CombinedUncertainty, OfNothingIsNothing) {
  EXPECT_EQ(combined({}).half_width_95, 0);
  EXPECT_EQ(combined({{0, 3}, {0}}).standard, 0);
  EXPECT_TRUE(std::isinf(combined({{1.0}}).effective_dof));
  EXPECT_THAT(combined({{1.0}}).half_width_95, DoubleNear(1.959964, 1e-6));
  // One estimated part alone keeps its own degrees of freedom.
  EXPECT_THAT(combined({{0.5, 2}}).effective_dof, DoubleNear(2, 1e-12));
}

}  // namespace
}  // namespace colorlib
