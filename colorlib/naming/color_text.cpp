#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/naming/color_text.hpp>
#include <colorlib/naming/scale_conditions.hpp>
#include <vector>

namespace colorlib {
namespace {

/// A notation goes on beyond the published chips by their extrapolation: by one step of the printed charts.
constexpr double chroma_step = 2;

constexpr const char* how_to_write =
    "Write three numbers L a b, a Munsell notation like '7.5YR 5/6' or 'N 5', or a hex code like eddbbd.";

tl::unexpected<Error> refused(std::string_view text, const std::string& found) {
  return fail(ErrorCode::bad_call, fmt::format("Reading the colour '{}': {}.", text.substr(0, 60), found),
              how_to_write);
}

std::vector<std::string_view> parts_of(std::string_view text) {
  std::vector<std::string_view> parts;
  constexpr std::string_view separators = " \t,;";
  std::size_t at = 0;
  while ((at = text.find_first_not_of(separators, at)) != std::string_view::npos) {
    const auto end = std::min(text.find_first_of(separators, at), text.size());
    parts.push_back(text.substr(at, end - at));
    at = end;
  }
  return parts;
}

bool is_hex_code(std::string_view text) {
  if (!text.empty() && text.front() == '#') text.remove_prefix(1);
  return text.size() == 6 &&
         std::all_of(text.begin(), text.end(), [](unsigned char c) { return std::isxdigit(c) != 0; });
}

Lab lab_from_hex(std::string_view text) {
  const std::string digits(text.substr(text.size() - 6));
  std::array<double, 3> linear{};
  for (std::size_t i = 0; i < 3; ++i)
    linear[i] = linear_from_srgb(static_cast<double>(std::stoi(digits.substr(2 * i, 2), nullptr, 16)) / 255);
  const Xyz xyz = xyz_from_linear_srgb({linear[0], linear[1], linear[2]});
  return lab_from_xyz(adapted(xyz, white_d65, white_d50, AdaptationMethod::bradford), white_d50);
}

Result<TypedColor> lab_from_numbers(std::string_view text, const std::vector<std::string_view>& parts,
                                    const White& white) {
  std::array<double, 3> number{};
  for (std::size_t i = 0; i < 3; ++i) {
    const auto read = number_from(parts[i]);
    if (!read) return refused(text, fmt::format("'{}' is not a number", parts[i].substr(0, 40)));
    number[i] = *read;
  }
  const Lab lab{number[0], number[1], number[2]};
  if (!(lab.l >= 0 && lab.l <= 110)) return refused(text, "L* lies between 0 and 100");
  if (!(std::abs(lab.a) <= 200 && std::abs(lab.b) <= 200))
    return refused(text, "a* and b* lie between -200 and 200");
  return TypedColor{adapted_lab(lab, white, white_d50, AdaptationMethod::bradford), ColorTextKind::lab};
}

}  // namespace

std::string_view color_text_kind_word(ColorTextKind kind) {
  switch (kind) {
    case ColorTextKind::lab:
      return "lab";
    case ColorTextKind::munsell:
      return "munsell";
    case ColorTextKind::srgb_hex:
      break;
  }
  return "srgb-hex";
}

Result<TypedColor> color_from_text(std::string_view text, const White& white,
                                   const MunsellRenotation& renotation) {
  text = trimmed(text);
  if (text.empty()) return refused(text, "nothing is written");
  if (is_hex_code(text)) return TypedColor{lab_from_hex(text), ColorTextKind::srgb_hex};
  if (text.front() == '#') return refused(text, "a hex code has six digits");
  const bool looks_like_munsell = text.find_first_of("RYGBPNrygbpn") != std::string_view::npos;
  if (looks_like_munsell) {
    const auto munsell = munsell_from_notation(text);
    if (!munsell) return fail(munsell.error());
    const double edge = renotation.greatest_chroma(munsell->hue_step, munsell->value);
    if (munsell->chroma > edge + chroma_step)
      return refused(text,
                     fmt::format("no colour is known there, at this hue and value the published chips end "
                                 "at chroma {:.1f}",
                                 edge));
    return TypedColor{renotation.lab_from_munsell(*munsell), ColorTextKind::munsell};
  }
  const auto parts = parts_of(text);
  if (parts.size() != 3)
    return refused(text, fmt::format("{} part{} found, three numbers were needed", parts.size(),
                                     parts.size() == 1 ? " was" : "s were"));
  return lab_from_numbers(text, parts, white);
}

Result<White> white_from_name(std::string_view name) {
  std::string upper(name);
  for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  const auto white = known_white(upper);
  if (!white)
    return fail(ErrorCode::bad_call,
                fmt::format("Looking up the white '{}': it is not known.", name.substr(0, 40)),
                "Use one of A, C, D50, D55, D65.");
  return *white;
}

}  // namespace colorlib
