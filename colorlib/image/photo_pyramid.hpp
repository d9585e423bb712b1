#pragma once
/// A photograph at halved sizes, for looking at: level 0 is the photo itself, each next one has half its
/// sides.

#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/image/photo.hpp>
#include <memory>
#include <vector>

namespace colorlib {

/// Keeps the photo and, beside it, the smaller levels as 16-bit encoded values (65535 = 1, what is above is
/// held): a third more pixels than a quarter of the photo, whatever its format. Safe to share between
/// threads.
class PhotoPyramid {
 public:
  PhotoPyramid() = default;
  /// Halves until the long side is at most `smallest_px`. Errors: cancelled.
  static Result<PhotoPyramid> build(std::shared_ptr<const Photo> photo, int smallest_px, Progress& progress);

  const Photo& photo() const { return *photo_; }
  std::shared_ptr<const Photo> shared_photo() const { return photo_; }
  int levels() const { return static_cast<int>(halved_.size()) + 1; }
  int width_px(int level) const;
  int height_px(int level) const;
  /// Encoded values as Photo::encoded, 3 channels; the rectangle counts in pixels of `level` and is clipped
  /// to it.
  ImageF encoded(int level, const PixelRectangle& rectangle) const;
  /// Centre of a pixel of `level` in px of the photo: a level's pixel covers 2^level x 2^level of the
  /// photo's.
  static double photo_px_from(int level, double level_px) { return (level_px + 0.5) * (1 << level) - 0.5; }

 private:
  std::shared_ptr<const Photo> photo_;
  std::vector<Image16> halved_;  ///< level 1, 2, ...
};

}  // namespace colorlib
