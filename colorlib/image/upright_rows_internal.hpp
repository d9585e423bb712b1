#pragma once
/// Laying the rows of a file upright as they are decoded, so that a turned photo needs no second buffer.

#include <algorithm>
#include <colorlib/base/image.hpp>
#include <cstddef>
#include <memory>
#include <utility>

namespace colorlib {

/// Takes the rows of a file's raster in order, three channels each, and holds them as the EXIF orientation
/// (1..8; anything else counts as 1) shows them. For orientation 1, `row` is the result's own memory: nothing
/// is copied.
template <class T>
class UprightRows {
 public:
  UprightRows(int file_width, int file_height, int orientation)
      : width_(file_width),
        height_(file_height),
        orientation_(orientation < 1 || orientation > 8 ? 1 : orientation),
        upright_(std::make_shared<Image<T>>(orientation_ > 4 ? file_width : file_height,
                                            orientation_ > 4 ? file_height : file_width, 3)) {
    if (orientation_ != 1) band_ = Image<T>(std::min(band_rows, file_height), file_width, 3);
  }

  /// A second hand on the same picture, for another thread. What it fills must begin at a multiple of
  /// `band_rows` and end before one, or with the picture.
  UprightRows beside() const { return *this; }

  /// Of the file's raster.
  int width() const { return width_; }
  int height() const { return height_; }
  /// Where row `y` of the file belongs.
  T* row(int y) { return orientation_ == 1 ? upright_->at(y, 0) : band_.at(y % band_rows, 0); }
  /// To be called when row `y` has been filled.
  void row_done(int y) {
    if (orientation_ != 1 && (y % band_rows == band_rows - 1 || y == height_ - 1)) lay(y - y % band_rows, y);
  }
  Image<T> take() { return std::move(*upright_); }

  /// 32 rows: when turned, they fill 96 to 384 bytes of each upright row at a time.
  static constexpr int band_rows = 32;

 private:
  void lay(int first, int last) {
    // Index of file pixel (x, y) in the upright raster is start + x * step_x + y * step_y [EXIF 2.32, 4.6.4
    // A].
    const std::ptrdiff_t w = width_, h = height_;
    std::ptrdiff_t start = 0, step_x = 1, step_y = w;
    switch (orientation_) {
      case 2:
        start = w - 1, step_x = -1, step_y = w;
        break;
      case 3:
        start = w * h - 1, step_x = -1, step_y = -w;
        break;
      case 4:
        start = (h - 1) * w, step_x = 1, step_y = -w;
        break;
      case 5:
        start = 0, step_x = h, step_y = 1;
        break;
      case 6:
        start = h - 1, step_x = h, step_y = -1;
        break;
      case 7:
        start = w * h - 1, step_x = -h, step_y = -1;
        break;
      case 8:
        start = (w - 1) * h, step_x = -h, step_y = 1;
        break;
      default:
        break;
    }
    T* const out = upright_->data.data();
    const auto put = [&](int x, int y) {
      const T* from = band_.at(y - first, x);
      T* to = out + 3 * (start + x * step_x + y * step_y);
      to[0] = from[0];
      to[1] = from[1];
      to[2] = from[2];
    };
    if (orientation_ > 4) {
      for (int x = 0; x < width_; ++x)
        for (int y = first; y <= last; ++y) put(x, y);
    } else {
      for (int y = first; y <= last; ++y)
        for (int x = 0; x < width_; ++x) put(x, y);
    }
  }

  int width_, height_, orientation_;
  std::shared_ptr<Image<T>> upright_;
  Image<T> band_;
};

/// A whole raster turned upright; orientation 1 moves it.
template <class T>
Image<T> turned_upright(Image<T>&& raster, int orientation) {
  if (orientation < 2 || orientation > 8) return std::move(raster);
  UprightRows<T> rows(raster.columns, raster.rows, orientation);
  for (int y = 0; y < raster.rows; ++y) {
    std::copy_n(raster.at(y, 0), static_cast<std::size_t>(raster.columns) * 3, rows.row(y));
    rows.row_done(y);
  }
  raster = {};
  return rows.take();
}

}  // namespace colorlib
