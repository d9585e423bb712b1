#include <random>
#include <tests/colorlib/naming/fungal_colors.hpp>
#include <tests/colorlib/naming/reference_tables.hpp>

namespace colorlib {

std::vector<Lab> fungal_colors(std::size_t count, std::uint64_t seed) {
  std::vector<Lab> deposits, others;
  for (const auto& term : namer().trade_terms().terms())
    (term.kind == TermKind::deposit ? deposits : others).push_back(term.center);
  std::mt19937_64 random(seed);
  std::normal_distribution<double> unit(0, 1);
  std::vector<Lab> colors;
  while (colors.size() < count) {
    const auto& centers = colors.size() % 3 < 2 ? deposits : others;
    const Lab& center = centers[random() % centers.size()];
    const Lab color{center.l + 7 * unit(random), center.a + 6 * unit(random), center.b + 6 * unit(random)};
    if (color.l > 2 && color.l < 98) colors.push_back(color);
  }
  return colors;
}

}  // namespace colorlib
