#pragma once
/// How grown pigments differ from printed ones to a camera, on average.

#include <colorlib/colorimetry/color_types.hpp>

namespace colorlib {

/// What to add to the Lab (D50) of a specimen read through a fit to printed patches. Under lamps and tubes
/// specimens come out too green, the more the darker they are; raw photos in daylight show them a little too
/// dark. The figures are the project's own, the mean over simulated specimens of several unlike families
/// (docs/explanation/calibration.md); what single specimens differ from it by is in the error budget's lack
/// of fit. `unlike_daylight` as in `LightOdds`, `linear` for raw values.
Vector3 grown_surface_shift(const Lab& lab, double unlike_daylight, bool linear);

}  // namespace colorlib
