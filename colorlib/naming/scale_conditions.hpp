#pragma once
/// Which light and observer a scale's file states: the inner part of color_scale.

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

struct ScaleConditions {
  std::string illuminant = "D50";
  White white = white_d50;
};

/// The white of an illuminant's name, upper case: A, C, D50, D55, D65.
std::optional<White> known_white(std::string_view illuminant);

/// Looks through header or comment lines for one that speaks of an illuminant, a white or an observer
/// ("WEIGHTING_FUNCTION "ILLUMINANT, D65"", "illuminant: C", "D65/2"). Nothing stated: D50, 2 degree.
/// Errors: unreadable_table for an illuminant that is not known, two different ones, or a 10 degree observer.
Result<ScaleConditions> scale_conditions_from(const std::vector<std::string>& lines,
                                              std::string_view scale_name);

}  // namespace colorlib
