#pragma once
/// Which pixels of a region show a mirror image instead of the specimen: glints of wet tissue and foil, and
/// the bare foil between the grains of a deposit.

#include <Eigen/Dense>
#include <colorlib/calibration/calibration.hpp>
#include <span>
#include <vector>

namespace colorlib {

/// A pixel that holds light from a shiny surface is body colour plus neutral light: t = (1 - a) m + s (1, 1,
/// 1) in XYZ over white, with m the region's own colour and a the share of the body that is missing or in
/// shadow. s and a of a pixel are estimated from it and the eight beside it, against the region's own scatter
/// from pixel to pixel: grain, gill lines and uneven thickness are part of that scatter and stay. Left out
/// are pixels which such light moves by more than dE00 1.1 (1.6 when `developed` by a camera, whose
/// sharpening and compression spread glints over their surroundings), with 1.5 standard deviations to spare;
/// clipped glints of any tint, too, by being brighter than the body by a quarter of a white in X, Y and Z. A
/// neutral specimen tells its own shading from foil only by brightness. `xyz` on the scale where white is
/// D50; one flag a pixel.
std::vector<bool> specular_pixels(const std::vector<Eigen::Vector3d>& xyz, std::span<const SheetPixel> pixels,
                                  bool developed);

}  // namespace colorlib
