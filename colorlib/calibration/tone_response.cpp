#include <algorithm>
#include <cmath>
#include <colorlib/calibration/tone_response.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

constexpr int segments = tone_basis_size - 3;

struct SegmentPlace {
  int segment;
  double t;  ///< in [0, 1] within the segment
};

SegmentPlace place_of(double u) {
  const double scaled = std::clamp(u, 0.0, 1.0) * segments;
  const int segment = std::min(static_cast<int>(scaled), segments - 1);
  return {segment, scaled - segment};
}

}  // namespace

ToneBasis tone_basis(double u) {
  const auto [segment, t] = place_of(u);
  const double s = 1 - t, t2 = t * t, t3 = t2 * t;
  ToneBasis basis{};
  const auto at = static_cast<std::size_t>(segment);
  basis[at] = s * s * s / 6;
  basis[at + 1] = (3 * t3 - 6 * t2 + 4) / 6;
  basis[at + 2] = (-3 * t3 + 3 * t2 + 3 * t + 1) / 6;
  basis[at + 3] = t3 / 6;
  return basis;
}

ToneBasis tone_basis_slope(double u) {
  ToneBasis slope{};
  if (u < 0 || u > 1) return slope;
  const auto [segment, t] = place_of(u);
  const double s = 1 - t, t2 = t * t;
  const auto at = static_cast<std::size_t>(segment);
  slope[at] = -s * s / 2 * segments;
  slope[at + 1] = (3 * t2 - 4 * t) / 2 * segments;
  slope[at + 2] = (-3 * t2 + 2 * t + 1) / 2 * segments;
  slope[at + 3] = t2 / 2 * segments;
  return slope;
}

double log_srgb_light(double u) { return std::log(linear_from_srgb(std::max(u, lowest_encoded))); }

double log_srgb_light_slope(double u) {
  u = std::max(u, lowest_encoded);
  // d/du ln(u / 12.92) and d/du ln(((u + 0.055) / 1.055)^2.4)  [IEC61966]
  return u <= 0.04045 ? 1 / u : 2.4 / (u + 0.055);
}

}  // namespace colorlib
