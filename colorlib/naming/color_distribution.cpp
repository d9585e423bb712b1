#include <Eigen/Eigenvalues>
#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/color_distribution.hpp>
#include <numbers>

namespace colorlib {
namespace {

/// The standard normal quantile at `p` in (0, 1), by Newton's method on the error function.
double normal_quantile(double p) {
  double z = 0;
  for (int i = 0; i < 60; ++i) {
    const double density = std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
    const double step = (std::erfc(-z / std::numbers::sqrt2) / 2 - p) / density;
    z -= std::clamp(step, -1.0, 1.0);
    if (std::abs(step) < 1e-12) break;
  }
  return z;
}

/// The digits of `index` in `base`, mirrored at the point: 6 = 110 in base 2 -> 0.011 = 3/8.
double radical_inverse(std::size_t index, std::size_t base) {
  double result = 0, place = 1;
  for (; index > 0; index /= base) {
    place /= static_cast<double>(base);
    result += place * static_cast<double>(index % base);
  }
  return result;
}

/// Points of the standard normal distribution in three dimensions, with mean 0 and covariance 1 exactly.
std::vector<Vector3> unit_points() {
  Eigen::Matrix3Xd points(3, static_cast<Eigen::Index>(distribution_size));
  for (std::size_t i = 0; i < distribution_size; ++i) {
    const std::array fractions = {(static_cast<double>(i) + 0.5) / distribution_size,
                                  radical_inverse(i + 1, 2), radical_inverse(i + 1, 3)};
    for (std::size_t axis = 0; axis < 3; ++axis)
      points(static_cast<Eigen::Index>(axis), static_cast<Eigen::Index>(i)) =
          normal_quantile(fractions[axis]);
  }
  points.colwise() -= points.rowwise().mean().eval();
  const Eigen::Matrix3d moments = points * points.transpose() / static_cast<double>(distribution_size);
  points = (Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(moments).operatorInverseSqrt() * points).eval();
  std::vector<Vector3> unit;
  unit.reserve(distribution_size);
  for (Eigen::Index i = 0; i < points.cols(); ++i) unit.push_back({points(0, i), points(1, i), points(2, i)});
  return unit;
}

Matrix3 square_root(const Matrix3& covariance) {
  Eigen::Matrix3d symmetric;
  for (int row = 0; row < 3; ++row)
    for (int column = 0; column < 3; ++column)
      symmetric(row, column) = (covariance(row, column) + covariance(column, row)) / 2;
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(symmetric);
  const Eigen::Matrix3d root = solver.eigenvectors() *
                               solver.eigenvalues().cwiseMax(0.0).cwiseSqrt().asDiagonal() *
                               solver.eigenvectors().transpose();
  Matrix3 result;
  for (int row = 0; row < 3; ++row)
    for (int column = 0; column < 3; ++column) result(row, column) = root(row, column);
  return result;
}

}  // namespace

bool is_exact(const Matrix3& covariance) {
  const bool finite =
      std::all_of(covariance.m.begin(), covariance.m.end(), [](double c) { return std::isfinite(c); });
  return !finite || std::all_of(covariance.m.begin(), covariance.m.end(), [](double c) { return c == 0; });
}

std::vector<Lab> distribution_of(const Lab& lab, const Matrix3& covariance) {
  if (is_exact(covariance)) return {lab};
  static const std::vector<Vector3> points = unit_points();
  const Matrix3 root = square_root(covariance);
  std::vector<Lab> colors;
  colors.reserve(points.size());
  for (const auto& point : points) {
    const Vector3 way = root * point;
    colors.push_back({lab.l + way[0], lab.a + way[1], lab.b + way[2]});
  }
  return colors;
}

double expanded_difference(const Lab& lab, const std::vector<Lab>& distribution) {
  if (distribution.size() < 2) return 0;
  std::vector<double> differences;
  differences.reserve(distribution.size());
  for (const auto& color : distribution) differences.push_back(difference_ciede2000(lab, color));
  const auto place = differences.begin() + static_cast<std::ptrdiff_t>(differences.size() * 95 / 100);
  std::nth_element(differences.begin(), place, differences.end());
  return *place;
}

}  // namespace colorlib
