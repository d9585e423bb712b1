#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/specimen/layer_thickness.hpp>
#include <limits>

namespace colorlib {

double layer_reflectance(const LayerOptics& layer, double ground) {
  if (layer.scattering_power <= 0) return ground;
  const double r = std::clamp(layer.masstone, 1e-6, 1 - 1e-6);
  const double a = (1 / r + r) / 2, b = (1 / r - r) / 2;
  // coth by exp(-2 b SX), which stays finite for thick layers.
  const double fading = std::exp(-2 * b * layer.scattering_power);
  const double c = b * (1 + fading) / (1 - fading);
  if (!std::isfinite(c)) return ground;  // thinner than numbers can tell
  return (1 - ground * (a - c)) / (a - ground + c);
}

double contrast_ratio(const LayerOptics& layer) {
  return layer_reflectance(layer, contrast_black) / layer_reflectance(layer, contrast_white);
}

Result<LayerOptics> layer_from_two_grounds(double over_first, double first, double over_second,
                                           double second) {
  constexpr double least_difference = 0.05;
  if (!(std::abs(first - second) >= least_difference))
    return fail(ErrorCode::untrustworthy,
                fmt::format("Computing the masstone: the two grounds reflect {:.2f} and {:.2f}, a difference "
                            "of at least {:.2f} "
                            "is needed.",
                            first, second, least_difference),
                "Lay the layer over black and over white.");
  if (std::abs(over_first - over_second) > std::abs(first - second))
    return fail(
        ErrorCode::untrustworthy,
        "Computing the masstone: the layer differs more between its two grounds than the bare grounds do.",
        "Check that both regions lie on the same layer, and both grounds were seen bare.");
  const double a11 = over_first + first, a12 = over_first - first, b1 = 1 + over_first * first;
  const double a21 = over_second + second, a22 = over_second - second, b2 = 1 + over_second * second;
  const double determinant = a11 * a22 - a12 * a21;
  const double a = (b1 * a22 - b2 * a12) / determinant, c = (a11 * b2 - a21 * b1) / determinant;
  const double b = std::sqrt(std::max(a * a - 1, 0.0));
  // c falls towards b as the layer hides; rounding of what was measured may take it a little below.
  const bool hides = std::abs(over_first - over_second) < 1e-3 && c > 0.9 * b;
  if (!std::isfinite(a) || !std::isfinite(c) || a < 1 || (c <= b && !hides))
    return fail(
        ErrorCode::untrustworthy,
        "Computing the masstone: no layer that absorbs and scatters looks like this over these two grounds.",
        "Check that both regions lie on the same layer, evenly lit and without glare.");
  LayerOptics layer;
  layer.masstone = a - b;
  layer.scattering_power = c <= b  ? std::numeric_limits<double>::infinity()
                           : b > 0 ? std::atanh(b / c) / b
                                   : 1 / c;
  return layer;
}

}  // namespace colorlib
