#pragma once
/// What a photograph says about its own making.

#include <optional>
#include <string>
#include <string_view>

namespace colorlib {

/// When the shutter opened, as the camera wrote it.
struct CaptureTime {
  int year = 0, month = 0, day = 0, hour = 0, minute = 0;
  double second = 0;                       ///< with sub-seconds where the file has them
  int subsecond_digits = 0;                ///< how many the file gave
  std::optional<int> zone_offset_minutes;  ///< east of UTC; absent when the file does not say

  /// "2031-04-09T10:12:03.25+02:00"; without zone when unknown.
  std::string iso8601() const;
  /// Seconds since 1970-01-01T00:00 in the camera's own clock (zone removed if known): for differences.
  double seconds() const;
  bool operator==(const CaptureTime&) const = default;
};

/// From EXIF's texts: "2031:04:09 10:12:03", sub-seconds "25" or "", zone "+02:00" or "". Nothing when the
/// date is not a date (cameras without a set clock write blanks or zeros); unreadable sub-seconds or zones
/// are left out alone. Source: CIPA DC-008 (EXIF 2.32), 4.6.5 F and G.
std::optional<CaptureTime> capture_time_from_exif(std::string_view date_time, std::string_view subseconds,
                                                  std::string_view zone_offset);

struct CaptureMetadata {
  std::optional<CaptureTime> captured;
  int orientation = 1;  ///< EXIF 1..8, already applied to the pixels
  std::optional<double> exposure_s, f_number, iso_speed, focal_length_mm;
  std::string camera_make, camera_model;
};

}  // namespace colorlib
