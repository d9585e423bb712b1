#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/difference_reach.hpp>
#include <limits>
#include <numbers>

namespace colorlib {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double degree = std::numbers::pi / 180;
/// The bound is an equation solved by iteration; this covers what the last step left.
constexpr double slack = 1 + 1e-9;

double lightness_reach(double lightness, double de00) {
  const double offset = std::abs(lightness - 50);
  double reach = de00;
  for (int step = 0; step < 60; ++step) {
    const double squared = std::pow(offset + reach / 2, 2);
    reach = de00 * (1 + 0.015 * squared / std::sqrt(20 + squared));  // S_L, worst mean lightness
  }
  return reach * slack;
}

/// 2 sqrt(C^7 / (C^7 + 25^7)).
double rotation_chroma_factor(double chroma) {
  return 2 / std::sqrt(1 + std::pow(25 / std::max(chroma, 1e-9), 7));
}

/// The largest |R_T| of a pair whose mean chroma is at most `mean_chroma` and whose mean hue lies within
/// `spread_deg` of `hue_deg`.
double largest_rotation(double mean_chroma, double hue_deg, double spread_deg) {
  double away = std::abs(std::remainder(hue_deg - 275, 360));
  away = std::max(0.0, away - spread_deg);
  const double angle_deg = 30 * std::exp(-std::pow(away / 25, 2));
  return std::sin(2 * angle_deg * degree) * rotation_chroma_factor(mean_chroma);
}

/// r = mu de00 (1 + 0.045 (C' + r / 2)), mu = 1 / sqrt(1 - |R_T| / 2).
double radius(double chroma, double de00, double rotation) {
  const double mu = 1 / std::sqrt(1 - rotation / 2);
  const double share = 0.0225 * mu * de00;
  return share < 1 ? mu * de00 * (1 + 0.045 * chroma) / (1 - share) : infinity;
}

}  // namespace

Vector3 ciede2000_reach(const Lab& lab, double de00) {
  // a' = (1 + G) a depends on the other colour: 1 <= 1 + G <= 1.5. The larger chroma is the safe one.
  const double a_prime = 1.5 * std::abs(lab.a);
  const double chroma = std::hypot(a_prime, lab.b);
  // sin 60 degrees times 2: no rotation is larger.
  double reach = radius(chroma, de00, std::sqrt(3.0));
  // The hue of (a', b) with any G lies between those of G = 0 and G = 0.5.
  const double hue_plain = std::atan2(lab.b, lab.a) / degree,
               hue_stretched = std::atan2(lab.b, 1.5 * lab.a) / degree;
  const double least_chroma = std::hypot(lab.a, lab.b);
  for (int step = 0; step < 3 && std::isfinite(reach); ++step) {
    const double spread = reach < least_chroma ? std::asin(reach / least_chroma) / degree +
                                                     std::abs(std::remainder(hue_plain - hue_stretched, 360))
                                               : 180;
    reach = std::min(reach, radius(chroma, de00, largest_rotation(chroma + reach / 2, hue_plain, spread)));
  }
  return {lightness_reach(lab.l, de00), reach * slack, reach * slack};
}

}  // namespace colorlib
