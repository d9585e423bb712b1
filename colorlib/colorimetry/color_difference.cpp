#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <numbers>

namespace colorlib {
namespace {

// Names follow the symbols of [Sharma2005], whose equation numbers are given.

constexpr double degree = std::numbers::pi / 180.0;
constexpr double twenty_five_to_7 = 6103515625.0;
// Components beyond this are held, so that no seventh power or square overflows. No colour comes near.
constexpr double component_limit = 1e40;
// A mean of two unit vectors this short means opposite hues, where the formula is looked at closely.
constexpr double antipodal_length_squared = 1e-12;
constexpr double antipodal_guard_deg = 1e-9;

double held(double component) { return std::clamp(component, -component_limit, component_limit); }

double chroma_of(double a, double b) { return std::sqrt(a * a + b * b); }

/// sqrt(C^7 / (C^7 + 25^7)).
double seventh_power_ratio(double chroma) {
  const double cube = chroma * chroma * chroma;
  const double seventh = cube * cube * chroma;
  return std::sqrt(seventh / (seventh + twenty_five_to_7));
}

/// 1 + G of eq. 4 and 5.
double red_green_stretch(double mean_chroma) { return 1.5 - 0.5 * seventh_power_ratio(mean_chroma); }

/// S_L of eq. 19.
double lightness_weight(double mean_lightness) {
  const double offset_squared = (mean_lightness - 50.0) * (mean_lightness - 50.0);
  return 1.0 + 0.015 * offset_squared / std::sqrt(20.0 + offset_squared);
}

/// S_C of eq. 20.
double chroma_weight(double mean_chroma) { return 1.0 + 0.045 * mean_chroma; }

/// T of eq. 15, with the multiples of the angle by the addition theorems.
double hue_term(double cosine, double sine) {
  static const double cos_30 = std::cos(30 * degree), sin_30 = std::sin(30 * degree);
  static const double cos_6 = std::cos(6 * degree), sin_6 = std::sin(6 * degree);
  static const double cos_63 = std::cos(63 * degree), sin_63 = std::sin(63 * degree);
  const double cos_2 = 2 * cosine * cosine - 1, sin_2 = 2 * sine * cosine;
  const double cos_3 = cosine * (4 * cosine * cosine - 3), sin_3 = sine * (3 - 4 * sine * sine);
  const double cos_4 = 2 * cos_2 * cos_2 - 1, sin_4 = 2 * sin_2 * cos_2;
  return 1.0 - 0.17 * (cosine * cos_30 + sine * sin_30) + 0.24 * cos_2 +
         0.32 * (cos_3 * cos_6 - sin_3 * sin_6) - 0.20 * (cos_4 * cos_63 + sin_4 * sin_63);
}

double hue_deg(double cosine, double sine) {
  const double angle = std::atan2(sine, cosine) / degree;
  return angle < 0 ? angle + 360.0 : angle;
}

/// The mean hue of two colours and the sine of half their hue difference, with its sign.
struct HuePair {
  double mean_deg, mean_cosine, mean_sine, half_difference_sine;
};

/// Eq. 10, 11 and 14 from the unit vectors of the two hues; a colour without chroma has the vector 0.
HuePair hue_pair(double cos_1, double sin_1, double cos_2, double sin_2, bool both_have_hue) {
  const double sum_cos = cos_1 + cos_2, sum_sin = sin_1 + sin_2;
  const double length_squared = sum_cos * sum_cos + sum_sin * sum_sin;
  if (both_have_hue && length_squared < antipodal_length_squared) {
    // Opposite hues: the sum has no direction to speak of, and the standard decides by the angles.
    const double h_1 = hue_deg(cos_1, sin_1), h_2 = hue_deg(cos_2, sin_2);
    double difference = h_2 - h_1, mean = (h_1 + h_2) / 2;
    if (std::abs(difference) > 180.0 + antipodal_guard_deg) {
      difference += difference > 0 ? -360.0 : 360.0;
      mean += mean < 180.0 ? 180.0 : -180.0;
    }
    return {mean, std::cos(mean * degree), std::sin(mean * degree), std::sin(difference * degree / 2)};
  }
  const double chord_cos = cos_1 - cos_2, chord_sin = sin_1 - sin_2;
  const double chord = chroma_of(chord_cos, chord_sin);
  const double half_sine = std::copysign(chord / 2, cos_1 * sin_2 - sin_1 * cos_2);
  double along_cos = sum_cos, along_sin = sum_sin, length = std::sqrt(length_squared);
  if (both_have_hue && length_squared < 2) {
    // More than 90 degrees apart the sum loses digits; the normal of the chord is the same direction and
    // keeps them.
    const double side = std::copysign(1.0, sum_sin * chord_cos - sum_cos * chord_sin);
    along_cos = -side * chord_sin;
    along_sin = side * chord_cos;
    length = chord;
  }
  if (length == 0) return {0, 1, 0, half_sine};
  return {hue_deg(along_cos, along_sin), along_cos / length, along_sin / length, half_sine};
}

}  // namespace

double difference_ciede2000(const Lab& first, const Lab& second) {
  const double l_1 = held(first.l), a_1 = held(first.a), b_1 = held(first.b);
  const double l_2 = held(second.l), a_2 = held(second.a), b_2 = held(second.b);

  const double stretch = red_green_stretch((chroma_of(a_1, b_1) + chroma_of(a_2, b_2)) / 2);
  const double a_prime_1 = stretch * a_1, a_prime_2 = stretch * a_2;
  const double chroma_1 = chroma_of(a_prime_1, b_1), chroma_2 = chroma_of(a_prime_2, b_2);
  const double inverse_1 = chroma_1 > 0 ? 1 / chroma_1 : 0, inverse_2 = chroma_2 > 0 ? 1 / chroma_2 : 0;
  const HuePair hue = hue_pair(a_prime_1 * inverse_1, b_1 * inverse_1, a_prime_2 * inverse_2, b_2 * inverse_2,
                               chroma_1 > 0 && chroma_2 > 0);

  const double mean_chroma = (chroma_1 + chroma_2) / 2;
  const double hue_weight = 1.0 + 0.015 * mean_chroma * hue_term(hue.mean_cosine, hue.mean_sine);
  const double from_275 = (hue.mean_deg - 275.0) / 25.0;
  const double rotation_deg = 30.0 * std::exp(-from_275 * from_275);
  const double rotation = -std::sin(2 * rotation_deg * degree) * 2 * seventh_power_ratio(mean_chroma);

  const double lightness_part = (l_2 - l_1) / lightness_weight((l_1 + l_2) / 2);
  const double chroma_part = (chroma_2 - chroma_1) / chroma_weight(mean_chroma);
  const double hue_part = 2 * std::sqrt(chroma_1 * chroma_2) * hue.half_difference_sine / hue_weight;
  return std::sqrt(std::max(0.0, lightness_part * lightness_part + chroma_part * chroma_part +
                                     hue_part * hue_part + rotation * chroma_part * hue_part));
}

double difference_cie76(const Lab& first, const Lab& second) {
  return std::hypot(first.l - second.l, first.a - second.a, first.b - second.b);
}

Matrix3 ciede2000_metric_root(const Lab& lab) {
  constexpr double step = 0.7;
  const auto squared = [&lab](double l, double a, double b) {
    const double difference = difference_ciede2000({lab.l - l / 2, lab.a - a / 2, lab.b - b / 2},
                                                   {lab.l + l / 2, lab.a + a / 2, lab.b + b / 2});
    return difference * difference;
  };
  // A quadratic form from its values along the axes and the diagonals of each pair of axes.
  constexpr double s = step, per_square = 1 / (step * step);
  Eigen::Matrix3d metric;
  metric(0, 0) = squared(s, 0, 0) * per_square;
  metric(1, 1) = squared(0, s, 0) * per_square;
  metric(2, 2) = squared(0, 0, s) * per_square;
  metric(0, 1) = metric(1, 0) = (squared(s, s, 0) - squared(s, -s, 0)) * per_square / 4;
  metric(0, 2) = metric(2, 0) = (squared(s, 0, s) - squared(s, 0, -s)) * per_square / 4;
  metric(1, 2) = metric(2, 1) = (squared(0, s, s) - squared(0, s, -s)) * per_square / 4;
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver(metric);
  const Eigen::Vector3d roots = solver.eigenvalues().cwiseMax(0.0).cwiseSqrt();
  const Eigen::Matrix3d root = solver.eigenvectors() * roots.asDiagonal() * solver.eigenvectors().transpose();
  Matrix3 result;
  for (int row = 0; row < 3; ++row)
    for (int column = 0; column < 3; ++column)
      result(row, column) = (root(row, column) + root(column, row)) / 2;
  return result;
}

Vector3 ciede2000_axis_weights(const Lab& lab) {
  const double a = held(lab.a), b = held(lab.b);
  const double stretch = red_green_stretch(chroma_of(a, b));
  const double weight = chroma_weight(chroma_of(stretch * a, b));
  return {lightness_weight(held(lab.l)), weight / stretch, weight};
}

}  // namespace colorlib
