#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/calibration/specular_body_internal.hpp>

namespace colorlib::specular {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

// The body's scatter.
constexpr int half_steps = 2, near_steps = 5;
constexpr double half_loss = 2.46;     // the nearer half of a normal scatter is this much too narrow
constexpr double near_loss = 1.01;     // a normal scatter cut there is this much too narrow
constexpr double patch_loss = 1.1;     // the same for neighbourhoods all of whose pixels are nearer
constexpr double least_noise = 0.003;  // of the body's brightness: no camera is quieter
constexpr std::size_t most_patches = 2000;
constexpr double invented_patches = 30;  // of a scatter supposed without looking, correlated by `usual_grain`
constexpr double usual_grain = 0.5;

Vector3d medians(const std::vector<Vector3d>& t) {
  Vector3d middle;
  std::vector<double> values(t.size());
  for (int c = 0; c < 3; ++c) {
    for (std::size_t i = 0; i < t.size(); ++i) values[i] = t[i][c];
    middle[c] = median(values);
  }
  return middle;
}

double noise_variance(const Vector3d& body) {
  const double noise = least_noise * body.mean() + 1e-4;
  return noise * noise;
}

}  // namespace

Body body_of(const std::vector<Vector3d>& t) {
  Body body{medians(t), Matrix3d::Zero()};
  const Matrix3d noise = Matrix3d::Identity() * noise_variance(body.middle);
  std::vector<double> distances(t.size(), 0.0);
  const auto scatter_within = [&](double limit) {
    Matrix3d sum = Matrix3d::Zero();
    std::size_t count = 0;
    for (std::size_t i = 0; i < t.size(); ++i) {
      if (distances[i] > limit) continue;
      const Vector3d d = t[i] - body.middle;
      sum += d * d.transpose();
      ++count;
    }
    return Matrix3d(sum / static_cast<double>(std::max<std::size_t>(count, 1)));
  };
  const auto measure = [&] {
    const Matrix3d inverse = body.scatter.inverse();
    for (std::size_t i = 0; i < t.size(); ++i) {
      const Vector3d d = t[i] - body.middle;
      distances[i] = d.dot(inverse * d);
    }
  };
  body.scatter = scatter_within(INFINITY) + noise;
  for (int step = 0; step < half_steps; ++step) {
    measure();
    body.scatter = half_loss * scatter_within(median(distances)) + noise;
  }
  for (int step = 0; step < near_steps; ++step) {
    measure();
    body.scatter = near_loss * scatter_within(near_at) + noise;
  }
  return body;
}

Likeness likeness_of(double beside) {
  Likeness r;
  for (int i = 0; i < side; ++i)
    for (int j = 0; j < side; ++j) {
      const int dx = i % 3 - j % 3, dy = i / 3 - j / 3;
      r(i, j) = std::pow(beside, dx * dx + dy * dy);
    }
  return r;
}

Patch departures(const Region& region, const Body& body, std::size_t pixel) {
  Patch patch;
  for (int k = 0; k < side; ++k)
    patch.segment<3>(3 * k) = region.t[region.beside[pixel][static_cast<std::size_t>(k)]] - body.middle;
  return patch;
}

PatchMatrix patch_scatter(const Region& region, const Body& body) {
  const Matrix3d inverse = body.scatter.inverse();
  std::vector<bool> odd(region.t.size());
  for (std::size_t i = 0; i < region.t.size(); ++i) {
    const Vector3d d = region.t[i] - body.middle;
    odd[i] = d.dot(inverse * d) > near_at;
  }
  std::vector<std::size_t> clean;
  for (std::size_t i = 0; i < region.t.size(); ++i)
    if (std::none_of(region.beside[i].begin(), region.beside[i].end(),
                     [&](std::uint32_t k) { return odd[k]; }))
      clean.push_back(i);

  const Likeness grain = likeness_of(usual_grain);
  PatchMatrix sum;
  for (int i = 0; i < side; ++i)
    for (int j = 0; j < side; ++j)
      sum.block<3, 3>(3 * i, 3 * j) = invented_patches * grain(i, j) * body.scatter;
  const std::size_t count = std::min(most_patches, clean.size());
  for (std::size_t n = 0; n < count; ++n) {
    const Patch patch = departures(region, body, clean[n * clean.size() / count]);
    sum.noalias() += patch_loss * patch * patch.transpose();
  }
  sum /= static_cast<double>(count) + invented_patches;
  sum.diagonal().array() += noise_variance(body.middle);
  return sum;
}

}  // namespace colorlib::specular
