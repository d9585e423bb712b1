#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/calibration/lack_of_fit.hpp>

namespace colorlib {
namespace {

/// Fitted to the ratio of errors to what the rest of the model says, over the tuning and broad pools, and
/// halved (square root): pale films err by more than their lack of fit.
struct AtLightness {
  double l;
  Vector3 spread;
};
constexpr std::array<AtLightness, 5> table{{{15, {0.90, 0.25, 0.35}},
                                            {32, {1.00, 0.95, 0.90}},
                                            {48, {1.30, 1.05, 1.10}},
                                            {64, {1.15, 1.10, 1.10}},
                                            {85, {0.85, 0.95, 1.00}}}};

}  // namespace

Vector3 spread_by_light(const LackOfFit& constants, LightKind said, const LightOdds& odds) {
  switch (said) {
    case LightKind::daylight:
      return constants.said.daylight;
    case LightKind::lamp:
      return constants.said.lamp;
    case LightKind::tube:
      return constants.said.tube;
    case LightKind::mixed:
      return constants.said.mixed;
    case LightKind::unstated:
      break;
  }
  const SpreadByLight& of = odds.by_white ? constants.said : constants.estimated;
  double lamp = odds.lamp, tube = odds.tube;
  if (odds.by_white) {
    const double kept = std::pow(odds.unlike_daylight(), constants.by_white_power - 1);
    lamp *= kept;
    tube *= kept;
  } else {
    lamp = std::pow(lamp, constants.lamp_power);
  }
  const double one = 1 - odds.mixed;
  lamp *= one;
  tube *= one;
  const double daylight = std::max(one - lamp - tube, 0.0);
  Vector3 spread;
  for (std::size_t axis = 0; axis < 3; ++axis)
    spread[axis] =
        std::sqrt(daylight * of.daylight[axis] * of.daylight[axis] + lamp * of.lamp[axis] * of.lamp[axis] +
                  tube * of.tube[axis] * of.tube[axis] + odds.mixed * of.mixed[axis] * of.mixed[axis]);
  return spread;
}

Vector3 spread_by_lightness(double l) {
  if (!(l > table.front().l)) return table.front().spread;
  for (std::size_t i = 1; i < table.size(); ++i)
    if (l < table[i].l) {
      const double share = (l - table[i - 1].l) / (table[i].l - table[i - 1].l);
      Vector3 spread;
      for (std::size_t axis = 0; axis < 3; ++axis)
        spread[axis] =
            table[i - 1].spread[axis] + share * (table[i].spread[axis] - table[i - 1].spread[axis]);
      return spread;
    }
  return table.back().spread;
}

}  // namespace colorlib
