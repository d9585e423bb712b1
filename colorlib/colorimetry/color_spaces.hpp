#pragma once
/// Conversions between XYZ, Lab, and sRGB.

#include <colorlib/colorimetry/color_types.hpp>

namespace colorlib {

/// CIE 1976 L*a*b* of `xyz` relative to `white` (both with Y = 1 scale). Source: [CIE11664] part 4, with the
/// exact fractions (6/29)^3 and 841/108. Negative XYZ follow the linear branch; never NaN for finite input.
/// Agrees with LittleCMS within 1e-12.
Lab lab_from_xyz(const Xyz& xyz, const White& white);
/// The inverse of lab_from_xyz.
Xyz xyz_from_lab(const Lab& lab, const White& white);
/// d(L*, a*, b*)/d(X, Y, Z) at `xyz`: rows L, a, b; columns X, Y, Z.
Matrix3 lab_jacobian(const Xyz& xyz, const White& white);

/// [IEC61966] transfer: encoded value in [0, 1] -> linear light. Odd-symmetric below 0; above 1 continued.
double linear_from_srgb(double encoded);
/// The inverse of linear_from_srgb.
double srgb_from_linear(double linear);
/// Linear sRGB -> XYZ relative to D65 by the four-digit matrix of [IEC61966].
Xyz xyz_from_linear_srgb(const LinearRgb& rgb);
/// The inverse of xyz_from_linear_srgb.
LinearRgb linear_srgb_from_xyz(const Xyz& xyz);

}  // namespace colorlib
