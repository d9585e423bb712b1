#pragma once
/// Random colours, covariances and readings for simulated rounds.

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/comparison/ellipsoids.hpp>
#include <random>

namespace colorlib {

class NormalColors {
 public:
  explicit NormalColors(std::uint64_t seed) : engine_(seed) {}

  double normal() { return normal_(engine_); }
  double uniform(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine_);
  }

  /// Colours of deposits and tissue, roughly.
  Lab any_color() {
    const double chroma = uniform(1, 45), hue = uniform(-0.5, 2.2);
    return {uniform(15, 93), chroma * std::cos(hue), chroma * std::sin(hue)};
  }

  /// Standard deviations of 0.2 to 1 in three random, independent directions.
  Matrix3 any_covariance() {
    const double deviations[] = {uniform(0.2, 1), uniform(0.2, 1), uniform(0.2, 1)};
    Matrix3 mix;
    for (double& m : mix.m) m = normal();
    const auto axes = principal_axes(mix * transpose(mix));
    Matrix3 result;
    for (std::size_t i = 0; i < 3; ++i)
      for (int r = 0; r < 3; ++r)
        for (int c = 0; c < 3; ++c)
          result(r, c) += deviations[i] * deviations[i] * axes[i].direction[static_cast<std::size_t>(r)] *
                          axes[i].direction[static_cast<std::size_t>(c)];
    return result;
  }

  /// truth + N(0, covariance).
  Lab draw(const Lab& truth, const Matrix3& covariance) {
    Vector3 lab = vector_from(truth);
    for (const auto& axis : principal_axes(covariance)) {
      const double step = std::sqrt(axis.variance) * normal();
      for (std::size_t i = 0; i < 3; ++i) lab[i] += step * axis.direction[i];
    }
    return lab_from(lab);
  }

  /// A colour at dE00 = `de00` from `from`, in a random direction.
  Lab at_difference(const Lab& from, double de00) {
    const Vector3 way{normal(), normal(), normal()};
    return along(
        from, way, [&](const Lab& lab) { return difference_ciede2000(from, lab); }, de00);
  }

  /// The first colour from `from` along `way` where the growing `measure` reaches `value`.
  template <class Measure>
  static Lab along(const Lab& from, const Vector3& way, const Measure& measure, double value) {
    const auto at = [&](double s) {
      return Lab{from.l + s * way[0], from.a + s * way[1], from.b + s * way[2]};
    };
    double low = 0, high = 0.01;
    while (measure(at(high)) < value && high < 1e4) high *= 1.5;
    for (int i = 0; i < 50; ++i) {
      const double half = (low + high) / 2;
      (measure(at(half)) < value ? low : high) = half;
    }
    return at(high);
  }

 private:
  std::mt19937_64 engine_;
  std::normal_distribution<double> normal_;
};

}  // namespace colorlib
