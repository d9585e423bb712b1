#pragma once
/// A decoded photograph: pixels in memory as the file holds them (8 bit, 16 bit or float), upright, with what
/// is known of their encoding. Values are converted on demand, rectangle by rectangle, because a reading
/// needs only the sheet and the specimen, never every pixel.

#include <array>
#include <colorlib/base/image.hpp>
#include <colorlib/base/small_matrix.hpp>
#include <colorlib/image/capture_metadata.hpp>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace colorlib {

/// A rectangle of whole pixels; (left, top) is the first one in it.
struct PixelRectangle {
  int left = 0, top = 0, width = 0, height = 0;
};

enum class EncodingKind {
  display_referred,  ///< developed for viewing: tone curve, white balance and saturation of unknown strength
  linear_sensor,     ///< proportional to sensor exposure in the camera's own primaries
};

struct PhotoEncoding {
  EncodingKind kind = EncodingKind::display_referred;
  std::string profile = "sRGB";  ///< the embedded profile's description, or "sRGB"
  bool profile_assumed = true;   ///< true when the file names no profile and sRGB was assumed
  int bits_per_channel = 8;
  /// Linear native RGB -> linear sRGB, for showing the photo as taken. Identity for sRGB; for raw the
  /// camera's own colour matrix with its as-shot white.
  Matrix3 native_to_srgb = Matrix3::identity();
  /// What a white reads in daylight (CIE D65) by the matrix a raw file holds or LibRaw knows of its camera:
  /// native RGB, green 1. Nothing where neither does, and for other files.
  std::optional<Vector3> daylight_white;
  /// File value -> sRGB-encoded value of the *native* primaries, one curve a channel, evenly spaced over [0,
  /// 1]. Empty: the file values are such values already (sRGB), or linear (linear_sensor). The primaries
  /// themselves are left alone: the calibration's matrix takes care of them.
  std::array<std::vector<float>, 3> to_srgb_curve;
};

/// Pixels are RGB, 3 channels, upright (EXIF orientation applied). Integer stores scale by 1/255 or 1/65535.
class Photo {
 public:
  using Store = std::variant<Image8, Image16, ImageF>;

  Photo() = default;
  Photo(Store pixels, PhotoEncoding encoding, CaptureMetadata capture, std::string name);

  int width_px() const;
  int height_px() const;
  const PhotoEncoding& encoding() const { return encoding_; }
  const CaptureMetadata& capture() const { return capture_; }
  /// The file's name without folder.
  const std::string& name() const { return name_; }
  const Store& store() const { return pixels_; }
  /// Remarks a user should see ("transparency was ignored").
  std::vector<std::string> remarks;

  /// The rectangle (clipped to the photo; empty when they do not meet) as encoded values: display-referred
  /// photos sRGB-encoded in native primaries, linear ones linear; 3 channels, [0, 1], floats may exceed 1.
  ImageF encoded(const PixelRectangle& rectangle) const;
  /// One pixel of `encoded`, for scattered samples. The place must lie inside the photo.
  Vector3 encoded_at(int column, int row) const;
  /// The rectangle as linear light: sRGB curve undone for display-referred photos, native primaries.
  ImageF linear(const PixelRectangle& rectangle) const;
  /// Linear-light luminance-like grey (0.25 R + 0.5 G + 0.25 B), 8 bit, averaged over `block` x `block`
  /// pixels; size floor(width / block) x floor(height / block). Linear photos are first scaled so that their
  /// 99 % quantile is near 230. Fiducials are located on it: blur is symmetric in linear light, so edges do
  /// not move.
  Image8 linear_grey(const PixelRectangle& rectangle, int block) const;

 private:
  Store pixels_;
  PhotoEncoding encoding_;
  CaptureMetadata capture_;
  std::string name_;
  struct Tables;
  std::shared_ptr<const Tables> tables_;  // built once: every value function is a look-up and safe to share
};

}  // namespace colorlib
