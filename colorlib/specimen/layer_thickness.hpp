#pragma once
/// What a thin layer over a known ground reflects, and the masstone it would show if it were endlessly thick:
/// the two-flux theory of Kubelka and Munk in its hyperbolic form [KM1931]. All reflectances are those of one
/// narrow channel, in [0, 1].

#include <colorlib/base/result.hpp>

namespace colorlib {

/// Grounds that a contrast ratio refers to: matt black and white cards of these reflectances. Opacity charts
/// have nearly such ones (common practice).
inline constexpr double contrast_black = 0.04, contrast_white = 0.85;

/// A layer in one channel.
struct LayerOptics {
  double masstone = 0;          ///< R of an endlessly thick layer, in (0, 1)
  double scattering_power = 0;  ///< S X: scattering coefficient times thickness, without unit, >= 0
};

/// Reflectance of the layer over a ground of reflectance `ground`:
///   R = (1 - Rg (a - b coth bSX)) / (a - Rg + b coth bSX), a = (1/Rinf + Rinf)/2, b = sqrt(a^2 - 1).
/// `ground` in [0, 1]; the masstone is held in [1e-6, 1 - 1e-6]; S X <= 0 gives the ground. Error below 1e-9.
double layer_reflectance(const LayerOptics& layer, double ground);

/// Reflectance over contrast_black divided by that over contrast_white, in (0, 1]: 1 hides its ground wholly,
/// 0.98 is commonly called hiding.
double contrast_ratio(const LayerOptics& layer);

/// The layer that shows `over_first` over a ground of `first` and `over_second` over one of `second`. With c
/// = b coth(bSX) each observation is linear in a and c: a (R + Rg) + c (R - Rg) = 1 + R Rg; two of them give
/// a, c, and with them masstone and S X (solved from the hyperbolic form above). `scattering_power` is
/// infinite when no difference between the grounds is left. Errors (untrustworthy): the grounds differ by
/// less than 0.05; the layer shows more contrast than its grounds; no layer that absorbs and scatters can
/// look so (a < 1, or c < b).
Result<LayerOptics> layer_from_two_grounds(double over_first, double first, double over_second,
                                           double second);

}  // namespace colorlib
