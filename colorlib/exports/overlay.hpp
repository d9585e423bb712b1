#pragma once
/// What was found, drawn over the photo, so that a person can see why to trust a reading.

#include <colorlib/base/result.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <string>

namespace colorlib {

struct OverlayOptions {
  int longest_px =
      2000;  ///< of the photo's part; small enough to mail, large enough to see a patch edge off by 1 mm
  int shortest_px =
      1200;  ///< smaller photos are enlarged to this long side, so that labels do not cover them
};

/// The bytes of a PNG: the photo, over it the sheet's outline, patches used (double outline) and dropped
/// (crossed out), samples of bare paper (dots), openings, and each region with a label (swatch, id, name, Lab
/// with expanded uncertainty, flags); under it a strip that says how the sheet was placed and how well its
/// colours fit. Lines are dark and light together: legible on any ground. Errors: bad_call (empty photo),
/// cannot_write (drawing failed).
Result<std::string> draw_overlay(const Photo& photo, const PhotoReading& reading,
                                 const OverlayOptions& options = {});
/// The same with other readings than the ones that `sheet` holds.
Result<std::string> draw_overlay(const Photo& photo, const PhotoReading& sheet,
                                 const std::vector<Reading>& readings, const OverlayOptions& options = {});

}  // namespace colorlib
