#pragma once
/// How far in CIELAB a colour difference can reach: what an index over L*, a*, b* has to be asked for.

#include <colorlib/colorimetry/color_types.hpp>

namespace colorlib {

/// Half-widths (L*, a*, b*) of a box around `lab` that holds every colour whose CIEDE2000 difference from
/// `lab` is at most `de00` (kL = kC = kH = 1). Infinite where no bound is known: beyond about 44 for a* and
/// b*. An upper bound, proven below and tested on random pairs; for browns and differences of 5 and less it
/// is wider than need be by a factor of 1.2 to 2. `lab` finite, `de00` >= 0.
///
/// From the formula [CIE11664, part 6]: the chroma and hue terms form a quadratic form whose smaller
/// eigenvalue is 1 - |R_T| / 2, S_H never exceeds S_C, and Delta C'^2 + Delta H'^2 is the squared distance in
/// (a', b').
Vector3 ciede2000_reach(const Lab& lab, double de00);

}  // namespace colorlib
