#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/specimen/mirror_ground_internal.hpp>

namespace colorlib {
namespace {

/// Lighter than any spore deposit; only what lies beyond is surely a lamp's image.
constexpr double lightest_deposit_l = 98;
/// Distance in (a*, b*): foil's own places keep within 1.2 of one another on simulated scenes, white deposits
/// are 3 and more away.
constexpr double same_hue = 2.5;
/// Below the darkest place of the rim no mirror image lies: a black deposit.
constexpr double darker_than_mirror = 15;
/// Of a part's area that differs from the mirror in hue: a coloured deposit has more, and what it lacks is a
/// wrinkle beside it.
constexpr double coloured_share = 0.8;
/// Median distance in L* of an even part's cells from their middle: deposits 0.2 to 1.2 on simulated scenes,
/// large wrinkles 2 and more.
constexpr double even_l = 1.4;
constexpr double widest_wrinkle_mm2 = 100;  ///< of those as even: 86 at most on 24 simulated scenes

bool even_and_large(const CellPart& part, const CellColors& cells) {
  if (cells.grid.area_mm2(part.size()) < widest_wrinkle_mm2) return false;
  std::vector<double> l;
  for (const std::size_t i : part)
    if (cells.lab[i]) l.push_back(cells.lab[i]->l);
  const double middle = median(l);
  for (double& value : l) value = std::abs(value - middle);
  return middle < lightest_deposit_l && median(std::move(l)) < even_l;
}

}  // namespace

bool mirror_like(const Lab& lab, const Ground& ground) {
  return lab.l > lightest_deposit_l || (std::hypot(lab.a - ground.lab.a, lab.b - ground.lab.b) < same_hue &&
                                        lab.l > ground.darkest_l - darker_than_mirror);
}

std::vector<CellPart> deposits_on_mirror(const std::vector<CellPart>& parts, const CellColors& cells,
                                         const Ground& ground) {
  std::vector<CellPart> deposits;
  for (const CellPart& part : parts) {
    CellPart rest;
    for (const std::size_t i : part)
      if (cells.lab[i] && !mirror_like(*cells.lab[i], ground)) rest.push_back(i);
    const bool neutral = cells.grid.area_mm2(rest.size()) < coloured_share * cells.grid.area_mm2(part.size());
    if (neutral && even_and_large(part, cells))
      deposits.push_back(part);
    else
      for (CellPart& left : smoothed_parts(rest, cells.grid)) deposits.push_back(std::move(left));
  }
  std::stable_sort(deposits.begin(), deposits.end(),
                   [](const CellPart& a, const CellPart& b) { return a.size() > b.size(); });
  return deposits;
}

}  // namespace colorlib
