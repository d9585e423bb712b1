#include <algorithm>
#include <cmath>
#include <colorlib/image/photo_pyramid.hpp>

namespace colorlib {
namespace {

constexpr float full_scale = 65535;
constexpr int strip_rows = 64;  // of the level above: a few MB at a time

std::uint16_t stored(float mean) {
  return static_cast<std::uint16_t>(std::lround(std::clamp(mean, 0.f, 1.f) * full_scale));
}

/// Means of 2 x 2 pixels; an odd last row or column is left out, as in every halving.
void halve_strip(const ImageF& above, int first_row, Image16& below) {
  const std::size_t stride = static_cast<std::size_t>(above.columns) * 3;
  for (int r = 0; 2 * r + 1 < above.rows && first_row + r < below.rows; ++r) {
    const float* upper = above.at(2 * r, 0);
    std::uint16_t* out = below.at(first_row + r, 0);
    for (int c = 0; c < below.columns; ++c, upper += 6)
      for (int k = 0; k < 3; ++k)
        *out++ = stored((upper[k] + upper[k + 3] + upper[k + static_cast<int>(stride)] +
                         upper[k + 3 + static_cast<int>(stride)]) /
                        4);
  }
}

}  // namespace

Result<PhotoPyramid> PhotoPyramid::build(std::shared_ptr<const Photo> photo, int smallest_px,
                                         Progress& progress) {
  PhotoPyramid pyramid;
  pyramid.photo_ = std::move(photo);
  while (std::max(pyramid.width_px(pyramid.levels() - 1), pyramid.height_px(pyramid.levels() - 1)) >
             smallest_px &&
         std::min(pyramid.width_px(pyramid.levels() - 1), pyramid.height_px(pyramid.levels() - 1)) > 1) {
    const int above = pyramid.levels() - 1;
    const int width = pyramid.width_px(above), height = pyramid.height_px(above);
    Image16 below(height / 2, width / 2, 3);
    for (int top = 0; top < height; top += strip_rows) {
      if (progress.cancelled())
        return fail(ErrorCode::cancelled, "Making the photo small was stopped.",
                    "Start it again when you like.");
      if (above == 0) progress.report(static_cast<double>(top) / height, "making smaller pictures");
      halve_strip(pyramid.encoded(above, {0, top, width, std::min(strip_rows, height - top)}), top / 2,
                  below);
    }
    pyramid.halved_.push_back(std::move(below));
  }
  return pyramid;
}

int PhotoPyramid::width_px(int level) const {
  return level == 0 ? photo_->width_px() : halved_[static_cast<std::size_t>(level - 1)].columns;
}

int PhotoPyramid::height_px(int level) const {
  return level == 0 ? photo_->height_px() : halved_[static_cast<std::size_t>(level - 1)].rows;
}

ImageF PhotoPyramid::encoded(int level, const PixelRectangle& rectangle) const {
  if (level == 0) return photo_->encoded(rectangle);
  const Image16& source = halved_[static_cast<std::size_t>(level - 1)];
  const int left = std::clamp(rectangle.left, 0, source.columns),
            top = std::clamp(rectangle.top, 0, source.rows);
  const int right = std::clamp(rectangle.left + rectangle.width, left, source.columns);
  const int bottom = std::clamp(rectangle.top + rectangle.height, top, source.rows);
  ImageF result(bottom - top, right - left, 3);
  for (int r = 0; r < result.rows; ++r)
    std::transform(
        source.at(top + r, left), source.at(top + r, left) + static_cast<std::ptrdiff_t>(result.columns) * 3,
        result.at(r, 0), [](std::uint16_t value) { return static_cast<float>(value) / full_scale; });
  return result;
}

}  // namespace colorlib
