#pragma once
/// Differences between two colours.

#include <colorlib/colorimetry/color_types.hpp>

namespace colorlib {

/// CIEDE2000, kL = kC = kH = 1; >= 0, and finite for finite components (those beyond 1e40 count as 1e40).
/// Symmetric in its arguments to the last bit; reproduces all 34 rows of [Sharma2005, Table 1] to 4 decimals
/// (hue differences within 1e-9 degree of 180 count as 180). Agrees with LittleCMS within 1e-11 for
/// components within 128. Source: [CIE11664] part 6, [Sharma2005].
double difference_ciede2000(const Lab& a, const Lab& b);
/// CIE 1976 difference: Euclidean distance in Lab. Source: [CIE11664] part 4.
double difference_cie76(const Lab& a, const Lab& b);

/// W with |W d|^2 = dE00(lab - d/2, lab + d/2)^2 to second order for small Lab differences d: the symmetric
/// square root of the local metric, by nine finite differences of 0.7; negative eigenvalues are clipped at 0.
/// Error of |W d| below 0.2 % for |d| = 0.5 at chroma 5 and more; about 1 us.
Matrix3 ciede2000_metric_root(const Lab& lab);

/// S_L, S_C and S_C/(1+G) of CIEDE2000 at `lab` taken as both colours: what one unit of L*, b*-like chroma
/// and a*-like chroma weighs. Order: {S_L, S_C / (1 + G), S_C} for the L, a and b axes.
Vector3 ciede2000_axis_weights(const Lab& lab);

}  // namespace colorlib
