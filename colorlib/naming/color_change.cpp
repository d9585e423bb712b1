#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/color_change.hpp>
#include <colorlib/naming/color_distribution.hpp>
#include <numbers>

namespace colorlib {
namespace {

/// Twice the standard deviation of the difference between two independent readings.
double expanded_difference_of(const ColorState& from, const ColorState& to) {
  if (is_exact(from.covariance) && is_exact(to.covariance)) return 0;
  const auto before = distribution_of(from.lab, from.covariance);
  const auto after = distribution_of(to.lab, to.covariance);
  // Each colour before meets one after: a step that shares no factor with the size pairs them without
  // pattern.
  constexpr std::size_t step = 1583;
  double sum = 0, squares = 0;
  for (std::size_t i = 0; i < distribution_size; ++i) {
    const double de00 = difference_ciede2000(before[i % before.size()], after[i * step % after.size()]);
    sum += de00;
    squares += de00 * de00;
  }
  const double mean = sum / distribution_size;
  return 2 * std::sqrt(std::max(0.0, squares / distribution_size - mean * mean));
}

ChangeStrength strength_of(double de00, double de00_expanded) {
  if (de00_expanded > 0 && de00 <= de00_expanded) return ChangeStrength::within_uncertainty;
  if (de00 < 1) return ChangeStrength::none;
  if (de00 < 2) return ChangeStrength::faint;
  if (de00 < 5) return ChangeStrength::slight;
  if (de00 < 10) return ChangeStrength::clear;
  if (de00 < 20) return ChangeStrength::strong;
  return ChangeStrength::very_strong;
}

/// Named by the hue angle of the move, D50: 0 red-purple, 90 yellow, 180 green, 270 blue.
std::string hue_direction(double move_a, double move_b) {
  struct Sector {
    double end_deg;
    const char* word;
  };
  constexpr std::array sectors = {Sector{10, "more purplish red"},
                                  Sector{45, "redder"},
                                  Sector{72, "more orange"},
                                  Sector{110, "yellower"},
                                  Sector{175, "greener"},
                                  Sector{225, "more blue-green"},
                                  Sector{290, "bluer"},
                                  Sector{325, "more violet"},
                                  Sector{360, "more purplish red"}};
  const double degrees = std::atan2(move_b, move_a) * 180 / std::numbers::pi;
  const double angle = degrees < 0 ? degrees + 360 : degrees;
  for (const auto& sector : sectors)
    if (angle < sector.end_deg) return sector.word;
  return sectors.front().word;
}

std::vector<std::string> directions_of(const Lab& from, const Lab& to) {
  const Lab same_hue{to.l, from.a, from.b};
  const double whole = difference_ciede2000(from, to);
  if (!(whole > 0)) return {};
  const double lightness = difference_ciede2000(from, same_hue);
  const double lightness_share = std::min(1.0, lightness * lightness / (whole * whole));
  constexpr double least_share = 0.2;
  std::vector<std::string> directions;
  if (lightness_share >= least_share) directions.push_back(to.l < from.l ? "darker" : "lighter");
  if (1 - lightness_share >= least_share) {
    const double move_a = to.a - from.a, move_b = to.b - from.b;
    const double inwards = -(move_a * from.a + move_b * from.b);
    const double length = std::hypot(move_a, move_b), start = std::hypot(from.a, from.b);
    // On past the neutral to another hue is a change of hue.
    const double end = std::hypot(to.a, to.b);
    const bool same_side = to.a * from.a + to.b * from.b > 0 || end < 0.4 * start;
    const bool duller = inwards > 2.0 / 3 * length * start && end < start && same_side;
    directions.push_back(duller ? "duller" : hue_direction(move_a, move_b));
    if (directions.size() == 2 && lightness_share < 0.5) std::swap(directions[0], directions[1]);
  }
  return directions;
}

}  // namespace

std::string_view strength_word(ChangeStrength strength) {
  switch (strength) {
    case ChangeStrength::within_uncertainty:
      return "no change beyond the uncertainty";
    case ChangeStrength::none:
      return "no visible change";
    case ChangeStrength::faint:
      return "faint change";
    case ChangeStrength::slight:
      return "slight change";
    case ChangeStrength::clear:
      return "clear change";
    case ChangeStrength::strong:
      return "strong change";
    case ChangeStrength::very_strong:
      break;
  }
  return "very strong change";
}

ColorChange color_change(const ColorState& from, const ColorState& to, const Namer& namer, NameLevel level) {
  return color_change(from, to, expanded_difference_of(from, to), namer, level);
}

ColorChange color_change(const ColorState& from, const ColorState& to, double de00_expanded,
                         const Namer& namer, NameLevel level) {
  const NamingOptions options{level, TermKind::deposit};
  ColorChange change;
  change.from = namer.describe(from.lab, from.covariance, options).name.name;
  change.to = namer.describe(to.lab, to.covariance, options).name.name;
  change.de00 = difference_ciede2000(from.lab, to.lab);
  change.de00_expanded = de00_expanded;
  change.strength = strength_of(change.de00, change.de00_expanded);
  if (change.strength != ChangeStrength::within_uncertainty && change.strength != ChangeStrength::none)
    change.directions = directions_of(from.lab, to.lab);
  return change;
}

std::string sentence_from(const ColorChange& change, const Wording& wording) {
  const int decimals = change.de00 < 10 || (change.de00_expanded > 0 && change.de00_expanded < 1) ? 1 : 0;
  std::string sentence =
      change.from == change.to
          ? wording.said(change.from)
          : wording.phrase("%1 to %2", {wording.said(change.from), wording.said(change.to)});
  sentence +=
      fmt::format("; {} ΔE00 {:.{}f}", wording.phrase(strength_word(change.strength)), change.de00, decimals);
  if (change.de00_expanded > 0) sentence += fmt::format(" ± {:.{}f} (k = 2)", change.de00_expanded, decimals);
  for (const auto& direction : change.directions) sentence += ", " + wording.phrase(direction);
  return sentence;
}

}  // namespace colorlib
