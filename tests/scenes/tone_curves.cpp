#include "tests/scenes/tone_curves.hpp"

#include <algorithm>
#include <cmath>

#include "tests/scenes/tone_curves_internal.hpp"

namespace colorlib::scenes {
namespace {

/// sRGB, then a contrast S about the middle.
double s_curve(double y, const double* p) {
  const double v = srgb_encoded(y), strength = p[0], middle = p[1];
  // Blend of identity and a smooth step whose steepest place is `middle`.
  const double t = std::pow(v, std::log(0.5) / std::log(middle));
  const double s = t * t * (3 - 2 * t);
  return v + strength * (std::pow(s, std::log(middle) / std::log(0.5)) - v);
}
/// More exposure, held back by a rational shoulder; then sRGB.
double shoulder(double y, const double* p) {
  const double gain = p[0], knee = p[1];
  const double full = gain > knee ? knee + (gain - knee) / (1 + (gain - knee) / p[2]) : gain;
  const double x = gain * y;
  const double bent = x > knee ? knee + (x - knee) / (1 + (x - knee) / p[2]) : x;
  return srgb_encoded(bent / full);
}
/// sRGB with lifted shadows and a raised black.
double lifted(double y, const double* p) {
  const double v = srgb_encoded(y);
  return p[1] + (1 - p[1]) * (v + p[0] * v * std::pow(1 - v, 3));
}
/// A power with a straight toe through black that meets it without a kink.
double power_toe(double y, const double* p) {
  const double exponent = 1 / p[0], at = p[1];
  const double q = (1 - exponent) * std::pow(at, exponent), offset = q / (1 - q);
  const double joint = (1 + offset) * std::pow(at, exponent) - offset;
  return y < at ? joint * y / at : (1 + offset) * std::pow(y, exponent) - offset;
}

}  // namespace

double srgb_encoded(double y) { return y <= 0.0031308 ? 12.92 * y : 1.055 * std::pow(y, 1 / 2.4) - 0.055; }
double srgb_linear(double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); }

float ToneCurve::operator()(float linear) const {
  const float position = std::sqrt(std::clamp(linear, 0.0f, 1.0f)) * static_cast<float>(table.size() - 1);
  const auto low = static_cast<std::size_t>(position);
  if (low + 1 >= table.size()) return table.back();
  const float t = position - static_cast<float>(low);
  return table[low] + t * (table[low + 1] - table[low]);
}

ToneCurve tone_curve(std::string name, double (*f)(double, const double*), const double* parameters) {
  ToneCurve curve{std::move(name), std::vector<float>(4097)};
  float floor = 0;
  for (std::size_t i = 0; i < curve.table.size(); ++i) {
    const double root = static_cast<double>(i) / static_cast<double>(curve.table.size() - 1);
    floor = std::max(floor, static_cast<float>(std::clamp(f(root * root, parameters), 0.0, 1.0)));
    curve.table[i] = floor;
  }
  return curve;
}

ToneCurve srgb_tone_curve() {
  return tone_curve(
      "sRGB", [](double y, const double*) { return srgb_encoded(y); }, nullptr);
}

ToneCurve random_tone_curve(Random& random, Pool pool) {
  if (held_out_materials(pool)) return held_out::random_tone_curve(random);
  switch (random.below(5)) {
    case 0:
      return srgb_tone_curve();
    case 1: {
      const double p[] = {random.uniform(0.1, 0.5), random.uniform(0.4, 0.6)};
      return tone_curve("S-curve", s_curve, p);
    }
    case 2: {
      const double p[] = {random.uniform(1.1, 1.6), random.uniform(0.3, 0.6), random.uniform(0.7, 1.6)};
      return tone_curve("shoulder", shoulder, p);
    }
    case 3: {
      const double p[] = {random.uniform(0.1, 0.5), random.uniform(0.0, 0.025)};
      return tone_curve("lifted shadows", lifted, p);
    }
    default: {
      const double p[] = {random.uniform(1.9, 2.4), random.uniform(0.002, 0.012)};
      return tone_curve("power with toe", power_toe, p);
    }
  }
}

}  // namespace colorlib::scenes
