#pragma once
/// A photo's calibration as an ICC input profile, for other programs.

#include <colorlib/base/result.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <string>

namespace colorlib {

/// For values of the photo's file, as other programs see them, where no profile was applied. A profile knows
/// no place: it holds for the light in the middle of the first opening (of the sheet, when it has none), and
/// `place` says so. What lies under other light, reads otherwise. The description and the copyright hold no
/// path and no name but the photo's.
struct CalibrationProfile {
  std::string bytes;
  PointMm place;          ///< on the sheet, whose light it holds for
  double light_de00 = 0;  ///< by which bare paper's colour differs over the opening, uncorrected: what the
                          ///< profile cannot know
};
/// Errors: untrustworthy, for a photo whose own profile is a lookup table: its pixels were converted when it
/// was decoded.
Result<CalibrationProfile> calibration_profile(const Photo& photo, const PhotoReading& reading);

/// The region's colour by the profile alone, pixel by pixel, as another program would read it (mean in XYZ).
/// Errors: unreadable_photo, unreadable_regions (no pixel of it in the photo).
Result<Lab> lab_through_profile(const std::string& profile_bytes, const Photo& photo,
                                const Placement& placement, const Reading& reading);

}  // namespace colorlib
