#pragma once
/// A plain raster: rows x columns x channels, interleaved, no colour meaning.

#include <cstddef>
#include <cstdint>
#include <vector>

namespace colorlib {

/// Shape: `rows` x `columns` x `channels`; element (r, c, k) lies at ((r * columns) + c) * channels + k.
template <class T>
struct Image {
  int rows = 0;
  int columns = 0;
  int channels = 0;
  std::vector<T> data;

  Image() = default;
  Image(int rows_, int columns_, int channels_)
      : rows(rows_),
        columns(columns_),
        channels(channels_),
        data(static_cast<std::size_t>(rows_) * columns_ * channels_) {}

  T* at(int row, int column) {
    return data.data() + (static_cast<std::size_t>(row) * columns + column) * channels;
  }
  const T* at(int row, int column) const {
    return data.data() + (static_cast<std::size_t>(row) * columns + column) * channels;
  }
  bool empty() const { return data.empty(); }
};

using Image8 = Image<std::uint8_t>;
using Image16 = Image<std::uint16_t>;
using ImageF = Image<float>;

}  // namespace colorlib
