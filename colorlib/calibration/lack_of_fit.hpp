#pragma once
/// How far a fit to printed patches may be from a specimen's colour: the largest part of the error budget.
/// See docs/explanation/uncertainty.md.

#include <colorlib/calibration/light_kind.hpp>
#include <colorlib/calibration/light_odds.hpp>
#include <colorlib/colorimetry/color_types.hpp>

namespace colorlib {

/// Standard deviations of L*, a* and b*, in units of CIEDE2000's weights, that grown pigments part from
/// printed ones by under a light, whatever the patches say.
struct SpreadByLight {
  Vector3 daylight{}, lamp{}, tube{}, mixed{};
};

/// Constants of one kind of photo. With v the patches' rms leave-one-out residual near the colour (what their
/// references' own uncertainty explains taken out), the standard deviation of each axis is, in units of
/// CIEDE2000's weight there, f(L*) sqrt((share v)^2 + (growth min(v, growth_end) v)^2 + floor^2 + s^2): s by
/// light, f by lightness. In a* and b* it grows faster than v: where printed patches disagree among
/// themselves, as under warm and line-rich light, grown pigments disagree with all of them.
struct LackOfFit {
  Vector3 share{}, growth{}, floor{};
  double growth_end = 0.8;
  double coefficients = 0;    ///< of the coefficients' standard uncertainty: its own part of the budget
  double lamp_power = 1;      ///< of the lamp's estimated probability, which weighs its variance
  double by_white_power = 3;  ///< of `unlike_daylight`, where the camera's own white gave it
  SpreadByLight estimated;  ///< where nobody said what the light was: makes good what the estimate gets wrong
  SpreadByLight said;       ///< where somebody did
};

/// s for each axis: by what the user said, or the variances weighted by the estimated odds; odds by the
/// camera's own white weigh those of a light that was said.
Vector3 spread_by_light(const LackOfFit& constants, LightKind said, const LightOdds& odds);

/// f for each axis. Near black all pigments are alike, near white the bare paper holds L*; in between they
/// part most.
Vector3 spread_by_lightness(double l);

}  // namespace colorlib
