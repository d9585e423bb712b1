#pragma once
/// Three narrow channels for two-flux theory.

#include <colorlib/colorimetry/color_types.hpp>

namespace colorlib {

/// Long-, middle- and short-wave responses relative to the perfect diffuser's: the sharpened cone responses
/// of the Bradford adaptation [ICC1]. Two-flux theory holds for narrow channels; of XYZ, wide RGB and these,
/// these gave the truest masstones.
Vector3 narrow_responses(const Xyz& xyz);
/// Their cube roots, nearly even to the eye as L* is; no less than that of 1e-4.
Vector3 narrow_roots(const Xyz& xyz);
Xyz xyz_from_narrow(const Vector3& responses);

}  // namespace colorlib
