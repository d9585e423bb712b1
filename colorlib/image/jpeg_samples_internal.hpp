#pragma once
/// From a JPEG's coefficients to samples finer than its 8 bits.
///
/// Decoders round samples to whole levels, and where compression has smoothed the noise away a whole patch is
/// rounded alike. What the file says is finer than that: docs/decisions/0014-jpeg-finer-than-its-levels.md.

#include <array>
#include <cstdint>
#include <functional>
#include <span>
#include <vector>

namespace colorlib {

/// One component of a JPEG [T81]: how large it is, and what its coefficients stand for.
struct JpegComponent {
  int width = 0, height = 0;           ///< samples that belong to the picture
  double per_column = 1, per_row = 1;  ///< samples for each of the picture's columns and rows, at most 1
  int blocks_across = 0;
  /// Samples that a block gives: 8 each, or 4, 2 or 1, each then the mean of as many whole ones as it takes
  /// the place of.
  int across = 8, down = 8;
  std::array<float, 64> quantum{};  ///< row-major, of the coefficients
  /// Fills the coefficients of one row of blocks, 64 each, row-major. False when they cannot be had. May be
  /// asked by several threads.
  std::function<bool(int, std::span<std::int16_t>)> block_row;
};

/// The samples of one component, row by row. Levels of 8 bits about 0 (-128 to 127 and a little beyond),
/// unrounded.
class JpegSamples {
 public:
  explicit JpegSamples(JpegComponent component) : component_(std::move(component)) {}

  /// Row `y` of the component's own raster; null when its coefficients are missing. Rows must be asked for
  /// downwards; the row above the last one stays valid.
  const float* row(int y);
  /// The samples at row `y` of the picture, interpolated linearly between sample centres (centred as [T871]
  /// says). False: missing.
  bool picture_row(int y, std::span<float> out);

 private:
  struct Band {
    int block_row = -1;
    std::vector<float> samples;
  };
  JpegComponent component_;
  std::vector<std::int16_t> coefficients_;
  std::array<Band, 2> bands_;
  std::vector<float> mixed_;
};

enum class JpegColor { grey, ycbcr, rgb };

/// One row of the picture to RGB, 65535 for the level 255 [T871]. `components` holds one sample row each,
/// `out` three values a pixel.
void jpeg_rgb_row(JpegColor color, std::span<const std::vector<float>> components, std::uint16_t* out);

}  // namespace colorlib
