#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/exports/screen_color.hpp>

namespace colorlib {

std::string ScreenColor::hex() const { return fmt::format("#{:02x}{:02x}{:02x}", red, green, blue); }

ScreenColor screen_color_from_lab(const Lab& lab) {
  const Xyz xyz = adapted(xyz_from_lab(lab, white_d50), white_d50, white_d65, AdaptationMethod::bradford);
  const LinearRgb linear = linear_srgb_from_xyz(xyz);
  ScreenColor result;
  const auto channel = [&](double value) {
    const double level = 255.0 * srgb_from_linear(value);
    constexpr double rounding = 0.5;
    if (!(level > -rounding && level < 255.0 + rounding)) result.clipped = true;
    return static_cast<std::uint8_t>(std::lround(std::clamp(std::isfinite(level) ? level : 0.0, 0.0, 255.0)));
  };
  result.red = channel(linear.r);
  result.green = channel(linear.g);
  result.blue = channel(linear.b);
  return result;
}

}  // namespace colorlib
