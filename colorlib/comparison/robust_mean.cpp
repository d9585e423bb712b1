#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/comparison/robust_mean.hpp>
#include <numbers>

namespace colorlib {
namespace {

constexpr double settled = 1e-12;              // relative to s*
constexpr double loss_of_efficiency = 1.25;    // [ISO13528]: of the robust mean's uncertainty
constexpr double clip_radius = 2.363362097;    // P(chi_3 > radius) = P(|z| > 1.5)
constexpr double clip_factor = 1.054032114;    // sqrt(3 / E[min(chi_3, radius)^2])
constexpr double median_radius = 1.538172254;  // of chi_3

double median_of(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  return (*std::max_element(values.begin(), middle) + *middle) / 2;
}

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

/// `factor` times the median of the distances, or of their mean when more than half are 0.
double start_deviation(const std::vector<double>& distances, double median_factor, double mean_factor) {
  const double middle = median_of(distances);
  return middle > 0 ? median_factor * middle : mean_factor * mean_of(distances);
}

using Vector = Eigen::Vector3d;
Vector eigen_from(const Lab& lab) { return {lab.l, lab.a, lab.b}; }

std::vector<double> distances_from(const Lab& center, const std::vector<Lab>& colors) {
  std::vector<double> distances;
  distances.reserve(colors.size());
  for (const Lab& color : colors) distances.push_back(difference_cie76(center, color));
  return distances;
}

}  // namespace

RobustMean algorithm_a(const std::vector<double>& values, int most_iterations) {
  RobustMean result;
  const double count = static_cast<double>(values.size());
  result.mean = median_of(values);
  if (values.size() < 2) return result;
  std::vector<double> distances;
  for (const double value : values) distances.push_back(std::abs(value - result.mean));
  constexpr double mean_to_deviation = 1.2533141373;  // sqrt(pi / 2)
  result.standard_deviation = start_deviation(distances, 1.483, mean_to_deviation);
  while (result.iterations < most_iterations && result.standard_deviation > 0) {
    ++result.iterations;
    const double low = result.mean - 1.5 * result.standard_deviation,
                 high = result.mean + 1.5 * result.standard_deviation;
    double sum = 0, squares = 0;
    for (const double value : values) sum += std::clamp(value, low, high);
    const double mean = sum / count;
    for (const double value : values) squares += std::pow(std::clamp(value, low, high) - mean, 2);
    const double deviation = 1.134 * std::sqrt(squares / (count - 1));
    const double moved =
        std::max(std::abs(mean - result.mean), std::abs(deviation - result.standard_deviation));
    result.mean = mean;
    result.standard_deviation = deviation;
    if (moved <= settled * deviation) break;
  }
  result.standard_uncertainty = loss_of_efficiency * result.standard_deviation / std::sqrt(count);
  return result;
}

Lab spatial_median(const std::vector<Lab>& colors) {
  Vector center = Vector::Zero();
  for (const Lab& color : colors) center += eigen_from(color) / static_cast<double>(colors.size());
  constexpr int most_steps = 10'000;
  constexpr double near = 1e-9;
  for (int step = 0; step < most_steps; ++step) {
    // Where the estimate sits on a colour, that colour only holds it back [VardiZhang2000].
    Vector sum = Vector::Zero(), pull = Vector::Zero();
    double weights = 0, here = 0;
    for (const Lab& color : colors) {
      const Vector way = eigen_from(color) - center;
      const double distance = way.norm();
      if (distance < near) {
        ++here;
        continue;
      }
      weights += 1 / distance;
      sum += eigen_from(color) / distance;
      pull += way / distance;
    }
    if (weights == 0 || pull.norm() <= here) break;
    const double kept = here / pull.norm();
    const Vector next = (1 - kept) * (sum / weights) + kept * center;
    const double moved = (next - center).norm();
    center = next;
    if (moved < near) break;
  }
  return {center[0], center[1], center[2]};
}

RobustLabMean robust_lab_mean(const std::vector<Lab>& colors, int most_iterations) {
  RobustLabMean result;
  const double count = static_cast<double>(colors.size());
  result.mean = spatial_median(colors);
  if (colors.size() < 2) return result;
  // The mean of chi_3 is 1.5958: its inverse makes the mean distance a standard deviation of one coordinate.
  constexpr double mean_to_deviation = 0.6266570687;
  double& deviation = result.coordinate_deviation;
  deviation = start_deviation(distances_from(result.mean, colors), 1 / median_radius, mean_to_deviation);
  Eigen::Matrix3d moments = Eigen::Matrix3d::Zero();
  while (result.iterations < most_iterations && deviation > 0) {
    ++result.iterations;
    const Vector center = eigen_from(result.mean);
    std::vector<Vector> pulled;
    Vector mean = Vector::Zero();
    for (const Lab& color : colors) {
      const Vector way = eigen_from(color) - center;
      const double length = way.norm(), most = clip_radius * deviation;
      pulled.push_back(length > most ? Vector(center + way * (most / length)) : eigen_from(color));
      mean += pulled.back() / count;
    }
    moments.setZero();
    for (const Vector& color : pulled) moments += (color - mean) * (color - mean).transpose() / (count - 1);
    const double next = clip_factor * std::sqrt(moments.trace() / 3);
    const double moved = std::max((mean - center).norm(), std::abs(next - deviation));
    result.mean = {mean[0], mean[1], mean[2]};
    deviation = next;
    if (moved <= settled * deviation) break;
  }
  for (int row = 0; row < 3; ++row)
    for (int column = 0; column < 3; ++column) {
      result.spread(row, column) = clip_factor * clip_factor * moments(row, column);
      result.covariance(row, column) =
          loss_of_efficiency * loss_of_efficiency * result.spread(row, column) / count;
    }
  return result;
}

}  // namespace colorlib
