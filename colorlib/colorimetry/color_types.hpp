#pragma once
/// Colours as plain values. The white a colour refers to is always said beside it, never assumed here.

#include <colorlib/base/small_matrix.hpp>

namespace colorlib {

/// CIE 1931 tristimulus values, 2 degree observer. Scale: Y = 1 for the perfect diffuser (not 100).
struct Xyz {
  double x = 0, y = 0, z = 0;
  bool operator==(const Xyz&) const = default;
};

/// CIE 1976 L*a*b*. L* in [0, 100] for real surfaces.
struct Lab {
  double l = 0, a = 0, b = 0;
  bool operator==(const Lab&) const = default;
};

/// Linear RGB of whatever primaries are said beside it; 1 is white, values may leave [0, 1].
struct LinearRgb {
  double r = 0, g = 0, b = 0;
  bool operator==(const LinearRgb&) const = default;
};

/// A white point as tristimulus values with Y = 1.
using White = Xyz;

/// D50 of the ICC profile connection space and of every Lab this project writes: (0.96422, 1, 0.82521)
/// [CIE15, 2004 edition, Table T.3]. Named, so that a call says which white it means.
inline constexpr White white_d50{0.96422, 1.0, 0.82521};
/// D65, 2 degree: (0.95047, 1, 1.08883) [E308, Table 5].
inline constexpr White white_d65{0.95047, 1.0, 1.08883};
/// Illuminant C, 2 degree: (0.98074, 1, 1.18232) [E308, Table 5].
inline constexpr White white_c{0.98074, 1.0, 1.18232};
/// Illuminant A, 2 degree: (1.09850, 1, 0.35585) [E308, Table 5].
inline constexpr White white_a{1.09850, 1.0, 0.35585};

inline Vector3 vector_from(const Xyz& c) { return {c.x, c.y, c.z}; }
inline Vector3 vector_from(const Lab& c) { return {c.l, c.a, c.b}; }
inline Xyz xyz_from(const Vector3& v) { return {v[0], v[1], v[2]}; }
inline Lab lab_from(const Vector3& v) { return {v[0], v[1], v[2]}; }

}  // namespace colorlib
