#pragma once
/// One colour as a person types it: CIELAB, a Munsell notation or an sRGB hex code.

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <colorlib/naming/munsell_renotation.hpp>
#include <string>
#include <string_view>

namespace colorlib {

enum class ColorTextKind { lab, munsell, srgb_hex };
std::string_view color_text_kind_word(ColorTextKind kind);

struct TypedColor {
  Lab lab;  ///< D50, 2 degree
  ColorTextKind kind = ColorTextKind::lab;
};

/// Reads "88.2 3 17.2" (also with commas or semicolons between), "7.5YR 5/6", "N 5", "#eddbbd" or "eddbbd".
/// Numbers are CIELAB relative to `white`, 2 degree, adapted to D50 by Bradford when it is another white. A
/// hex code is sRGB (IEC 61966-2-1, D65), adapted by Bradford. Errors: bad_call: nothing of the three, L*
/// outside 0 to 110, a* or b* beyond 200.
Result<TypedColor> color_from_text(std::string_view text, const White& white,
                                   const MunsellRenotation& renotation);

/// The white of a name: "D50", "D55", "D65", "C", "A", in any case. Errors: bad_call.
Result<White> white_from_name(std::string_view name);

}  // namespace colorlib
