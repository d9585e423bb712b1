#pragma once
/// What kind of light a fitted calibration speaks of. An estimate: the user knows better (`LightKind`).

#include <array>
#include <colorlib/colorimetry/color_types.hpp>

namespace colorlib {

/// Of the light a photo was taken under.
struct LightOdds {
  double lamp = 0, tube = 0;  ///< probabilities, were it one light; daylight is the rest
  double mixed = 0;           ///< 0 ... 1: two unlike lights from two sides
  /// 0 under daylight, about 1 under a lamp or a tube.
  double unlike_daylight() const { return lamp + tube; }
};

/// `channel_shares`: of red, green and blue in X, Y and Z round white. Under lamps red carries less of Y, and
/// blue more of X and Y. For developed values they give a multinomial logistic regression, learnt by
/// tests/accuracy/light_odds.py; for linear ones a discriminant of X's shares alone, since those of Y and Z
/// differ from camera to camera as much as from light to light, and a tube counts as a lamp.
/// `lighting_tint`: as in `CalibrationSummary`.
LightOdds light_odds(const std::array<Vector3, 3>& channel_shares, double lighting_tint, bool developed);

}  // namespace colorlib
