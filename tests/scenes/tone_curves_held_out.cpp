#include <algorithm>
#include <cmath>

#include "tests/scenes/tone_curves_internal.hpp"

namespace colorlib::scenes::held_out {
namespace {

/// Toe and shoulder as one quotient of quadratics, then a power of 1/2.2.
double quotient(double y, const double* p) {
  const auto f = [&](double x) { return x * (p[0] * x + p[1]) / (x * (p[0] * x + p[2]) + p[3]); };
  return std::pow(f(p[4] * y) / f(p[4]), 1 / 2.2);
}
/// Logarithm with a straight toe: flat, much-lifted pictures with contrast put back by a cubic.
double log_toe(double y, const double* p) {
  const double v = std::log1p(p[0] * y) / std::log1p(p[0]);
  return v + p[1] * v * (1 - v) * (2 * v - 1);
}
/// sRGB bent by a smooth random curve through three inner points.
double spline_bent(double y, const double* p) {
  const double v = srgb_encoded(y);
  double sum = v;
  for (int k = 1; k <= 3; ++k) sum += p[k - 1] * std::sin(k * 3.14159265358979 * v) / k;
  return sum;
}

}  // namespace

ToneCurve random_tone_curve(Random& random) {
  switch (random.below(3)) {
    case 0: {
      const double p[] = {random.uniform(0.15, 0.4), random.uniform(0.05, 0.12), random.uniform(0.3, 0.55),
                          random.uniform(0.12, 0.25), random.uniform(0.8, 1.8)};
      return tone_curve("quotient", quotient, p);
    }
    case 1: {
      const double p[] = {random.uniform(10, 30), random.uniform(0.2, 0.8)};
      return tone_curve("logarithm with toe", log_toe, p);
    }
    default: {
      const double p[] = {random.uniform(-0.04, 0.10), random.uniform(-0.09, 0.03),
                          random.uniform(-0.03, 0.03)};
      return tone_curve("bent sRGB", spline_bent, p);
    }
  }
}

}  // namespace colorlib::scenes::held_out
