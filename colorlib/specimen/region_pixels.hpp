#pragma once
/// The photo's pixels that lie in a region, with their places on the sheet.

#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/regions.hpp>
#include <vector>

namespace colorlib {

struct ClearPlaces;

struct RegionPixels {
  std::vector<SheetPixel> pixels;
  double photo_pixels = 0;   ///< how many are to be read; `pixels` is an even choice of them
  double area_mm2 = 0;       ///< of the region, on the sheet
  double outside_share = 0;  ///< of the region, beyond the photo's edge
  double clipped_share = 0;  ///< with a channel at the top of its range
  double dark_share = 0;     ///< with a channel at the bottom of it; 0 in linear photos
};

/// An even lattice over the region, never finer than the photo's own pixels, at most `most` of them: 4000
/// pixels give the mean of a textured region to a fortieth of its texture. `clear`: of the region only these
/// places are read; null: all.
RegionPixels gather_pixels(const Photo& photo, const Placement& placement, const Region& region,
                           RegionFrame frame, std::size_t most = 4000, const ClearPlaces* clear = nullptr);

}  // namespace colorlib
