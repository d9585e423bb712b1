#pragma once
/// A part of the sheet seen straight from above, in calibrated colours.

#include <colorlib/base/image.hpp>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>

namespace colorlib {

/// Lab (D50) over a rectangle of the sheet: row 0 is its top; the centre of pixel (r, c) lies at (x + (c +
/// 0.5) / px_per_mm, y + (r + 0.5) / px_per_mm) mm. Pixels outside the photo are NaN.
struct RectifiedWindow {
  RectangleMm place;
  double px_per_mm = 1;
  ImageF lab;

  PointMm mm_of(int row, int column) const {
    return {place.x + (column + 0.5) / px_per_mm, place.y + (row + 0.5) / px_per_mm};
  }
  bool empty() const { return lab.empty(); }
};

/// Interpolated between photo pixels (averaged where the photo is finer); colours as xyz_from_pixel gives
/// them. At most 4 million pixels: the resolution is lowered to that.
RectifiedWindow rectified_window(const Photo& photo, const Placement& placement,
                                 const Calibration& calibration, const RectangleMm& place, double px_per_mm);

}  // namespace colorlib
