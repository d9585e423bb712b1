#pragma once
/// What kind of light a fitted calibration speaks of. An estimate: the user knows better (`LightKind`).

#include <array>
#include <colorlib/colorimetry/color_types.hpp>
#include <optional>

namespace colorlib {

/// Of the light a photo was taken under.
struct LightOdds {
  double lamp = 0, tube = 0;  ///< probabilities, were it one light; daylight is the rest
  double mixed = 0;           ///< 0 ... 1: two unlike lights from two sides
  bool by_white = false;      ///< judged by the camera's own white in daylight: nearly as good as being told
  /// 0 under daylight, about 1 under a lamp or a tube.
  double unlike_daylight() const { return lamp + tube; }
};

/// What the odds are judged by; as in `CalibrationSummary`.
struct LightEvidence {
  std::array<Vector3, 3> channel_shares{};
  double lighting_tint = 0;
  std::optional<std::array<double, 2>> white_from_daylight;
  bool developed = true;  ///< not the sensor's own values
};

/// Under lamps red carries less of Y, and blue more of X and Y. For developed values the shares give a
/// multinomial logistic regression, for raw ones whose camera's white in daylight is known that white and X's
/// shares do, both learnt by tests/accuracy/light_odds.py. For other linear values there is a discriminant of
/// X's shares alone, since those of Y and Z differ from camera to camera as much as from light to light, and
/// a tube counts as a lamp.
LightOdds light_odds(const LightEvidence& evidence);

}  // namespace colorlib
