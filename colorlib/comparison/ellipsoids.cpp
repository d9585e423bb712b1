#include <fmt/format.h>

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <colorlib/base/distribution_quantiles.hpp>
#include <colorlib/comparison/ellipsoids.hpp>
#include <limits>

namespace colorlib {
namespace {

Eigen::Matrix3d symmetric_from(const Matrix3& m) {
  Eigen::Matrix3d result;
  for (int row = 0; row < 3; ++row)
    for (int column = 0; column < 3; ++column) result(row, column) = (m(row, column) + m(column, row)) / 2;
  return result;
}

/// n (n-3) F(share; 3, n-3) apart: what both limits share.
double small_sample_factor(double n, double share) {
  if (n < 4) return std::numeric_limits<double>::infinity();
  return 3 * (n - 1) / (n * (n - 3)) * fisher_quantile(share, 3, n - 3);
}

Vector3 semi_axes(const std::array<EllipsoidAxis, 3>& axes, double limit) {
  return {std::sqrt(limit * axes[0].variance), std::sqrt(limit * axes[1].variance),
          std::sqrt(limit * axes[2].variance)};
}

}  // namespace

std::array<EllipsoidAxis, 3> principal_axes(const Matrix3& covariance) {
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(symmetric_from(covariance));
  std::array<EllipsoidAxis, 3> axes;
  for (int i = 0; i < 3; ++i) {
    const Eigen::Vector3d way = solver.eigenvectors().col(i);
    axes[static_cast<std::size_t>(i)] = {std::max(0.0, solver.eigenvalues()[i]), {way[0], way[1], way[2]}};
  }
  return axes;
}

double mahalanobis_squared(const Vector3& deviation, const Matrix3& covariance) {
  const Eigen::Vector3d d(deviation[0], deviation[1], deviation[2]);
  return d.dot(symmetric_from(covariance).ldlt().solve(d));
}

double known_limit(double share) { return chi_squared_quantile(share, 3); }

double prediction_limit(std::size_t count, double share) {
  const double n = static_cast<double>(count);
  return (n + 1) * small_sample_factor(n, share);
}

double confidence_limit(std::size_t count, double share) {
  return small_sample_factor(static_cast<double>(count), share);
}

Result<LabEllipsoid> ellipsoid_of(const std::vector<Lab>& readings) {
  if (readings.size() < 4)
    return fail(
        ErrorCode::bad_call,
        fmt::format(
            "Drawing an ellipsoid round {} reading{}: four are needed, and {} make one worth printing.",
            readings.size(), readings.size() == 1 ? "" : "s", ellipsoid_worth_printing),
        "Take more readings, or give their mean and each coordinate's interval instead.");
  LabEllipsoid result;
  result.readings = readings.size();
  const double n = static_cast<double>(readings.size());
  Eigen::Vector3d mean = Eigen::Vector3d::Zero();
  for (const Lab& lab : readings) mean += Eigen::Vector3d(lab.l, lab.a, lab.b) / n;
  Eigen::Matrix3d moments = Eigen::Matrix3d::Zero();
  for (const Lab& lab : readings) {
    const Eigen::Vector3d way = Eigen::Vector3d(lab.l, lab.a, lab.b) - mean;
    moments += way * way.transpose() / (n - 1);
  }
  result.mean = {mean[0], mean[1], mean[2]};
  for (int row = 0; row < 3; ++row)
    for (int column = 0; column < 3; ++column) result.covariance(row, column) = moments(row, column);
  result.axes = principal_axes(result.covariance);
  result.prediction_limit = prediction_limit(readings.size());
  result.confidence_limit = confidence_limit(readings.size());
  result.prediction_semi_axes = semi_axes(result.axes, result.prediction_limit);
  result.confidence_semi_axes = semi_axes(result.axes, result.confidence_limit);
  return result;
}

}  // namespace colorlib
