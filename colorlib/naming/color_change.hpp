#pragma once
/// A change of colour in words: from what to what, how strong, in which direction.

#include <colorlib/naming/namer.hpp>
#include <colorlib/naming/wording.hpp>
#include <string>
#include <vector>

namespace colorlib {

/// One end of a change. `lab` D50, 2 degree; `covariance` zero when the colour is exact.
struct ColorState {
  Lab lab;
  Matrix3 covariance{};
};

/// How strong a change is, by dE00: below 1 none, from 1 faint, 2 slight, 5 clear, 10 strong, 20 very strong.
/// The project's own steps. `within_uncertainty` when the uncertainty does not let a change be claimed.
enum class ChangeStrength { within_uncertainty, none, faint, slight, clear, strong, very_strong };
std::string_view strength_word(ChangeStrength strength);

struct ColorChange {
  std::string from, to;  ///< most probable block names, as published
  double de00 = 0;
  double de00_expanded = 0;  ///< k = 2, of the difference; 0 for exact colours
  ChangeStrength strength = ChangeStrength::none;
  /// The larger parts of the change, largest first: "darker", "lighter", "redder", "more orange", "yellower",
  /// "greener", "more blue-green", "bluer", "more violet", "more purplish red", "duller". Empty for no
  /// change.
  std::vector<std::string> directions;
};

/// The two readings are taken as independent. Which directions are said: lightness, or hue and chroma
/// together, when it makes up a fifth or more of the squared difference. The hue words name the way the
/// colour moves in the a*, b* plane, not the hue it arrives at; a move within 48 degrees of straight towards
/// the neutral, and not on to another hue, is "duller".
ColorChange color_change(const ColorState& from, const ColorState& to, const Namer& namer,
                         NameLevel level = NameLevel::full);

/// The same of two colours whose errors are not independent: `de00_expanded` (k = 2, 0 or more) is of their
/// difference.
ColorChange color_change(const ColorState& from, const ColorState& to, double de00_expanded,
                         const Namer& namer, NameLevel level = NameLevel::full);

/// "pale yellow to strong yellow; very strong change ΔE00 38 ± 2 (k = 2), yellower".
std::string sentence_from(const ColorChange& change, const Wording& wording);

}  // namespace colorlib
