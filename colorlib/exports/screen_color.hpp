#pragma once
/// How a measured colour is shown on a screen: for swatches, never for numbers.

#include <array>
#include <colorlib/colorimetry/color_types.hpp>
#include <cstdint>
#include <string>

namespace colorlib {

/// 8-bit sRGB, each channel clipped to what the screen has.
struct ScreenColor {
  std::uint8_t red = 0, green = 0, blue = 0;
  bool clipped = false;  ///< the colour lies outside sRGB: the screen shows a duller one

  /// "#8c5634"
  std::string hex() const;
  bool operator==(const ScreenColor&) const = default;
};

/// `lab` (D50, 2 degree) adapted to D65 by Bradford, then IEC 61966-2-1.
ScreenColor screen_color_from_lab(const Lab& lab);

}  // namespace colorlib
