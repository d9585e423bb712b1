#include <Eigen/Eigenvalues>
#include <algorithm>
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

/// Points of the standard normal distribution in three dimensions; the second half mirrors the first.
std::vector<Vector3> unit_points() {
  double root = 1.2;  // of x^4 = x + 1
  for (int i = 0; i < 40; ++i) root = std::pow(1 + root, 0.25);
  constexpr std::size_t half = distribution_size / 2;
  std::vector<Vector3> points(distribution_size);
  for (std::size_t i = 0; i < half; ++i)
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const double way = (static_cast<double>(i) + 0.5) / std::pow(root, static_cast<double>(axis + 1));
      const double fraction = way - std::floor(way);
      points[i][axis] = normal_quantile(std::clamp(fraction, 1e-7, 1 - 1e-7));
      points[i + half][axis] = -points[i][axis];
    }
  return points;
}

Matrix3 square_root(const Matrix3& covariance) {
  Eigen::Matrix3d symmetric;
  for (int row = 0; row < 3; ++row)
    for (int column = 0; column < 3; ++column)
      symmetric(row, column) = (covariance(row, column) + covariance(column, row)) / 2;
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(symmetric);
  const Eigen::Matrix3d root = solver.eigenvectors() * solver.eigenvalues().cwiseMax(0.0).cwiseSqrt().asDiagonal() *
                               solver.eigenvectors().transpose();
  Matrix3 result;
  for (int row = 0; row < 3; ++row)
    for (int column = 0; column < 3; ++column) result(row, column) = root(row, column);
  return result;
}

}  // namespace

bool is_exact(const Matrix3& covariance) {
  const bool finite = std::all_of(covariance.m.begin(), covariance.m.end(), [](double c) { return std::isfinite(c); });
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
