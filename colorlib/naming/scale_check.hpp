#pragma once
/// What to know about a scale before using it: duplicates, entries too close to tell apart, gaps.

#include <colorlib/naming/color_scale.hpp>
#include <string>
#include <vector>

namespace colorlib {

enum class ScaleFindingKind {
  duplicate_name,   ///< one name for two rows
  duplicate_color,  ///< two names for one colour (dE00 below 0.05)
  close,            ///< nearer than the tolerance: a colour of one may be called by the other's name
  gap,              ///< between neighbours lie colours that bear neither's name, nor any other entry's
};
std::string_view finding_word(ScaleFindingKind kind);

struct ScaleFinding {
  ScaleFindingKind kind = ScaleFindingKind::close;
  std::string first, second;
  std::size_t first_line = 0, second_line = 0;
  double de00 = 0;  ///< between the two
  std::string sentence;
};

/// Duplicates and close pairs by line, then gaps, widest first. Neighbours are the pairs that join all
/// entries with the least sum of differences (a minimum spanning tree over dE00). A gap is such a pair whose
/// middle (in Lab) lies outside the tolerance of every entry. `close` uses the larger tolerance of the two.
/// Cost: the square of the number of entries.
std::vector<ScaleFinding> check_scale(const ColorScale& scale);

}  // namespace colorlib
