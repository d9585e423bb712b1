#pragma once
/// A rectangle of the sheet as if seen from straight above, calibrated: pictures of a series then lie on one
/// another under one white, whatever hand and lamp did.

#include <colorlib/base/image.hpp>
#include <colorlib/base/progress.hpp>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/colorimetry/display_transform.hpp>
#include <colorlib/image/photo.hpp>

namespace colorlib {

/// 8-bit pixels of the screen, 3 channels, round(width x px_per_mm) x round(height x px_per_mm); each is the
/// photo pixel under it, or the mean of the file's values of four where the photo shows the rectangle's
/// middle more than 1.5 times as finely. What lies outside the photo is mid-grey. `px_per_mm` above 0; at
/// most 16 million pixels, else the scale is lowered. Once cancelled the rest is black.
Image8 sheet_picture(const Photo& photo, const Placement& placement, const Calibration& calibration,
                     const RectangleMm& rectangle, double px_per_mm, const DisplayTransform& display,
                     const Progress& progress = {});

}  // namespace colorlib
