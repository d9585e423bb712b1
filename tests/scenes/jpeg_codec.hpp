#pragma once
/// Writing a JPEG in memory through libjpeg, with the EXIF block a phone writes.

#include <colorlib/base/image.hpp>
#include <optional>
#include <string>

namespace colorlib::scenes {

/// What the simulated phone says of its photo.
struct ExifNote {
  std::string make, model, software;
  std::string date_time;  ///< "2031:10:04 11:20:31", as EXIF writes it
  std::string subsecond;  ///< digits
  std::string offset;     ///< "+02:00"; empty leaves it out
  int orientation = 1;
  double exposure_s = 0.01, f_number = 1.8, focal_length_mm = 5.4;
  int iso_speed = 100;
};

std::string encode_jpeg(const Image8& rgb, int quality, bool subsampled, const std::optional<ExifNote>& exif);
/// The EXIF block alone: "Exif\0\0" and a little-endian TIFF structure.
std::string exif_block(const ExifNote& note);

}  // namespace colorlib::scenes
