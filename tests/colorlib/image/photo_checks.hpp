#pragma once
/// Comparisons of decoded photos with the rasters they were made of.

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <colorlib/image/decode.hpp>
#include <string>
#include <tests/support/color_matchers.hpp>

namespace colorlib {

/// The decoded photo, or a test failure with the decoder's own sentence and an empty photo.
inline Photo decoded(const std::string& file, const std::string& name = "folder/photo.bin") {
  auto photo = decode_photo(file, name);
  if (photo) return std::move(*photo);
  ADD_FAILURE() << photo.error().message;
  return Photo(Image8(1, 1, 3), {}, {}, "");
}

/// The largest difference in stored values; huge when type or size differ.
template <class T>
double largest_difference(const Photo& photo, const Image<T>& expected) {
  const auto* got = std::get_if<Image<T>>(&photo.store());
  if (!got || got->rows != expected.rows || got->columns != expected.columns || got->channels != 3)
    return 1e9;
  double largest = 0;
  for (std::size_t i = 0; i < got->data.size(); ++i)
    largest = std::max(largest,
                       std::abs(static_cast<double>(got->data[i]) - static_cast<double>(expected.data[i])));
  return largest;
}

/// The raster whose pixels an orientation-tag of `orientation` would show as `upright`: the file's own order.
/// Written out per orientation from the EXIF table ("row 0 is the visual right side, column 0 the visual
/// top", ...), so that it shares nothing with the library's arithmetic.
template <class T>
Image<T> as_in_file(const Image<T>& upright, int orientation) {
  const int w = upright.columns, h = upright.rows;
  Image<T> file(orientation > 4 ? w : h, orientation > 4 ? h : w, 3);
  for (int row = 0; row < file.rows; ++row)
    for (int column = 0; column < file.columns; ++column) {
      int x = column, y = row;
      switch (orientation) {
        case 2:
          x = w - 1 - column;
          break;  // row 0 top, column 0 right
        case 3:
          x = w - 1 - column, y = h - 1 - row;
          break;  // row 0 bottom, column 0 right
        case 4:
          y = h - 1 - row;
          break;  // row 0 bottom, column 0 left
        case 5:
          x = row, y = column;
          break;  // row 0 left, column 0 top
        case 6:
          x = w - 1 - row, y = column;
          break;  // row 0 right, column 0 top
        case 7:
          x = w - 1 - row, y = h - 1 - column;
          break;  // row 0 right, column 0 bottom
        case 8:
          x = row, y = h - 1 - column;
          break;  // row 0 left, column 0 bottom
        default:
          break;
      }
      std::copy_n(upright.at(y, x), 3, file.at(row, column));
    }
  return file;
}

inline PixelRectangle all_of(const Photo& photo) { return {0, 0, photo.width_px(), photo.height_px()}; }

}  // namespace colorlib
