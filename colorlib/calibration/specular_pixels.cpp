#include <algorithm>
#include <cmath>
#include <colorlib/calibration/specular_pixels_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

constexpr int most_rounds = 5;
constexpr std::size_t least_kept = 20;
constexpr double shading_sd = 0.15;    // relative: grains and gills shade each other
constexpr double standing_out = 3.5;   // standard deviations
constexpr double least_de00 = 1.7;
constexpr double trimmed_at = 9;       // squared Mahalanobis distance
constexpr double trimmed_loss = 1.15;  // a trimmed normal scatter is this much too narrow
constexpr double least_noise = 0.003;  // of the body's brightness: no camera is quieter

struct Body {
  Vector3d middle;
  Matrix3d scatter;
};

Vector3d medians(const std::vector<Vector3d>& t, const std::vector<bool>& out) {
  Vector3d middle;
  std::vector<double> values;
  for (int c = 0; c < 3; ++c) {
    values.clear();
    for (std::size_t i = 0; i < t.size(); ++i)
      if (!out[i]) values.push_back(t[i][c]);
    const auto half = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), half, values.end());
    middle[c] = *half;
  }
  return middle;
}

Body body_of(const std::vector<Vector3d>& t, const std::vector<bool>& out) {
  Body body{medians(t, out), Matrix3d::Zero()};
  const double noise = least_noise * body.middle.mean() + 1e-4;
  const Matrix3d floor = Matrix3d::Identity() * noise * noise;
  double limit = INFINITY;
  Matrix3d inverse = Matrix3d::Zero();
  for (int round = 0; round < 3; ++round) {
    Matrix3d sum = Matrix3d::Zero();
    std::size_t count = 0;
    for (std::size_t i = 0; i < t.size(); ++i) {
      if (out[i]) continue;
      const Vector3d d = t[i] - body.middle;
      if (d.dot(inverse * d) > limit) continue;
      sum += d * d.transpose();
      ++count;
    }
    body.scatter = (round == 0 ? 1.0 : trimmed_loss) * sum / static_cast<double>(std::max<std::size_t>(count, 1)) + floor;
    inverse = body.scatter.inverse();
    limit = trimmed_at;
  }
  return body;
}

Lab lab_of_relative(const Vector3d& t) {
  return lab_from_xyz({std::max(t[0], 1e-4) * white_d50.x, std::max(t[1], 1e-4), std::max(t[2], 1e-4) * white_d50.z}, white_d50);
}

}  // namespace

std::vector<bool> specular_pixels(const std::vector<Vector3d>& xyz) {
  std::vector<Vector3d> t(xyz.size());
  for (std::size_t i = 0; i < xyz.size(); ++i)
    t[i] = {xyz[i][0] / white_d50.x, xyz[i][1] / white_d50.y, xyz[i][2] / white_d50.z};
  std::vector<bool> out(t.size(), false);
  for (int round = 0; round < most_rounds; ++round) {
    if (static_cast<std::size_t>(std::count(out.begin(), out.end(), false)) < least_kept) break;
    const Body body = body_of(t, out);
    // Least squares for (s, a) under the body's scatter; a has a prior, so that for a neutral body the two stay apart.
    Eigen::Matrix<double, 3, 2> directions;
    directions.col(0).setOnes();
    directions.col(1) = -body.middle;
    const Matrix3d information = body.scatter.inverse();
    Eigen::Matrix2d normal = directions.transpose() * information * directions;
    normal(1, 1) += 1 / (shading_sd * shading_sd);
    const Eigen::Matrix2d covariance = normal.inverse();
    const Eigen::Matrix<double, 2, 3> solve = covariance * directions.transpose() * information;
    const double limit = standing_out * std::sqrt(covariance(0, 0));
    std::vector<bool> next(t.size(), false);
    for (std::size_t i = 0; i < t.size(); ++i) {
      const Eigen::Vector2d share = solve * (t[i] - body.middle);
      if (share[0] <= limit) continue;
      const Vector3d without = t[i] - share[0] * Vector3d::Ones() + share[1] * body.middle;
      next[i] = difference_ciede2000(lab_of_relative(t[i]), lab_of_relative(without)) > least_de00;
    }
    if (next == out) break;
    out = std::move(next);
  }
  return out;
}

}  // namespace colorlib
