#pragma once
/// Which pixels of a region show a mirror image instead of the specimen: glints of wet tissue and foil, and the bare foil between
/// the grains of a deposit.

#include <Eigen/Dense>
#include <vector>

namespace colorlib {

/// A pixel that holds light from a shiny surface is body colour plus neutral light: t = (1 - a) m + s (1, 1, 1) in XYZ over white, with
/// m the region's own colour and the shading a of about 15 % free. Left out are pixels whose s stands above 0 by more
/// than 3.5 of its standard deviations under the region's own scatter, and by more than dE00 1.7. Grain, gill lines and uneven
/// thickness are part of that scatter and stay. A neutral specimen tells its own shading from foil only by brightness. `xyz` on the
/// scale where white is D50; one flag a pixel.
std::vector<bool> specular_pixels(const std::vector<Eigen::Vector3d>& xyz);

}  // namespace colorlib
