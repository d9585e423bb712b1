#pragma once
/// The middle of many colours.

#include <colorlib/colorimetry/color_types.hpp>
#include <span>

namespace colorlib {

/// The median of L*, of a* and of b*, each by itself; L* = a* = b* = 0 for none.
Lab median_color(std::span<const Lab> colors);

}  // namespace colorlib
