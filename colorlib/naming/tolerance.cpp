#include <algorithm>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/tolerance.hpp>

namespace colorlib {

std::string_view answer_word(Answer answer) {
  switch (answer) {
    case Answer::yes:
      return "yes";
    case Answer::no:
      return "no";
    case Answer::undecided:
      break;
  }
  return "undecided";
}

Answer answer_from(double probability) {
  if (probability >= decision_probability) return Answer::yes;
  if (probability <= 1 - decision_probability) return Answer::no;
  return Answer::undecided;
}

double share_within(const std::vector<Lab>& distribution, const Lab& center, double tolerance_de00) {
  if (distribution.empty()) return 0;
  const auto inside = std::count_if(distribution.begin(), distribution.end(), [&](const Lab& color) {
    return difference_ciede2000(color, center) <= tolerance_de00;
  });
  return static_cast<double>(inside) / static_cast<double>(distribution.size());
}

}  // namespace colorlib
