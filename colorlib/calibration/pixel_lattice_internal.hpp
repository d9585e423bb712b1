#pragma once
/// Which pixels of a region lie beside which.

#include <array>
#include <colorlib/calibration/calibration.hpp>
#include <cstdint>
#include <span>
#include <vector>

namespace colorlib {

/// The pixel's own index in the middle (4), round it those beside it, row by row.
using Neighbourhood = std::array<std::uint32_t, 9>;

/// For pixels that lie row by row on a lattice, turned and stretched as it may be. Step and direction are the
/// medians of those from each pixel to the next. Where none lies (edge, holes, places without order) stands
/// the opposite one, or else the pixel itself.
std::vector<Neighbourhood> lattice_neighbours(std::span<const SheetPixel> pixels);

}  // namespace colorlib
