#pragma once
/// Means over square blocks of pixels.

#include <algorithm>
#include <colorlib/base/image.hpp>
#include <colorlib/image/photo.hpp>
#include <cstdint>
#include <vector>

namespace colorlib {

/// As block_means, the side known while compiling (0: only then `block` counts), which lets the inner loop be
/// unrolled.
template <int Block, class Sum, class T, class Value>
Image8 block_means_of(const Image<T>& pixels, const PixelRectangle& r, int block, double scale,
                      const Value& value) {
  const int side = Block > 0 ? Block : block;
  Image8 out(r.height / side, r.width / side, 1);
  std::vector<Sum> sums(static_cast<std::size_t>(out.columns));
  const double factor = scale / (static_cast<double>(side) * side);
  for (int row = 0; row < out.rows; ++row) {
    std::fill(sums.begin(), sums.end(), Sum{});
    for (int line = 0; line < side; ++line) {
      const T* in = pixels.at(r.top + row * side + line, r.left);
      for (Sum& sum : sums) {
        Sum here{};
        for (int i = 0; i < side; ++i, in += 3) here += value(in);
        sum += here;
      }
    }
    std::uint8_t* to = out.at(row, 0);
    for (const Sum sum : sums)
      *to++ = static_cast<std::uint8_t>(std::min(255.0, static_cast<double>(sum) * factor + 0.5));
  }
  return out;
}

/// `value(pixel)` averaged over `block` x `block` pixels of `r`, which lies in `pixels`; times `scale`,
/// rounded and held to 8 bits. Sums are uint64_t, exact for every size, or double.
template <class Sum, class T, class Value>
Image8 block_means(const Image<T>& pixels, const PixelRectangle& r, int block, double scale,
                   const Value& value) {
  switch (block) {
    case 1:
      return block_means_of<1, Sum>(pixels, r, block, scale, value);
    case 2:
      return block_means_of<2, Sum>(pixels, r, block, scale, value);
    case 4:
      return block_means_of<4, Sum>(pixels, r, block, scale, value);
    case 8:
      return block_means_of<8, Sum>(pixels, r, block, scale, value);
    default:
      return block_means_of<0, Sum>(pixels, r, block, scale, value);
  }
}

}  // namespace colorlib
