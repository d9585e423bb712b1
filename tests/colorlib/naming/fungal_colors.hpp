#pragma once
/// Colours spread as those of fungi are: seeded draws around the trade terms' centers.

#include <colorlib/colorimetry/color_types.hpp>
#include <cstdint>
#include <vector>

namespace colorlib {

/// `count` colours (D50, 2 degree), normally spread around the centers of reference/trade_terms.csv with
/// standard deviations of 7 in L* and 6 in a* and b*, L* between 2 and 98. Two thirds are deposit colours.
std::vector<Lab> fungal_colors(std::size_t count, std::uint64_t seed);

}  // namespace colorlib
