#pragma once
/// Munsell notation as a value, and the value scale of ASTM D1535.

#include <colorlib/base/result.hpp>
#include <string>
#include <string_view>

namespace colorlib {

/// One Munsell colour. Hue runs R YR Y GY G BG B PB P RP, ten steps each: 5R = 5, 10R = 10, 5YR = 15, ...;
/// 10RP = 0. A chroma of 0 is a neutral, whose hue means nothing.
struct Munsell {
  double hue_step = 0;  ///< [0, 100)
  double value = 0;     ///< [0, 10]
  double chroma = 0;    ///< >= 0

  bool neutral() const { return chroma <= 0; }
  bool operator==(const Munsell&) const = default;
};

/// `hue_step` brought into [0, 100).
double wrapped_hue_step(double hue_step);
/// The signed shortest way from one hue to another, in (-50, 50] steps.
double hue_steps_between(double from, double to);

/// "8.2YR 5.1/5.5"; "N 5.2" when the chroma rounds to 0.0. One decimal each, hue 0.0 written as 10.0 of the
/// family before. Values are rounded, so a colour close to a block's edge may print as its neighbour.
std::string notation_from(const Munsell& munsell);

/// Reads "8.2YR 5.1/5.5", "5yr5/6", "10R 4/ 2", "N 5.2", "N5/", "N 5/0". Hue 0 to 10, value 0 to 10, chroma 0
/// to 60. Errors: bad_call, naming what was found and what was needed.
Result<Munsell> munsell_from_notation(std::string_view text);

/// The hue part alone: "5YR" -> 15, "10RP" -> 0. Errors: bad_call.
Result<double> hue_step_from(std::string_view text);

/// Luminous reflectance (Y of the perfect diffuser = 1, illuminant C) of a Munsell value in [0, 10];
/// values outside are held. Source: ASTM D1535, the quintic polynomial.
double luminance_from_munsell_value(double value);
/// The inverse: Y in [0, 1] -> value in [0, 10], within 1e-10; Y outside is held.
double munsell_value_from_luminance(double y);

}  // namespace colorlib
