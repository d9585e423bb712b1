#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/name_distance.hpp>
#include <limits>

namespace colorlib {
namespace {

constexpr double unbounded = std::numeric_limits<double>::infinity();
// A box's nearest colour is never closer than this share of the difference at its start (tested against
// scans).
constexpr double least_share_of_start = 0.4;

/// The nearest point of a box in hue, value and chroma, each by itself.
Munsell nearest_in(const NameCell& cell, const Munsell& to) {
  Munsell point{to.hue_step, std::clamp(to.value, cell.value_begin, std::min(cell.value_end, 10.0)),
                std::clamp(to.chroma, cell.chroma_begin, cell.chroma_end)};
  const double into = wrapped_hue_step(to.hue_step - cell.hue_begin);
  if (into > cell.hue_width) {
    const bool past_the_end = into - cell.hue_width < 100 - into;
    point.hue_step = wrapped_hue_step(cell.hue_begin + (past_the_end ? cell.hue_width : 0));
  }
  return point;
}

}  // namespace

NameDistances::NameDistances(const Lab& lab, const MunsellRenotation& renotation, const ColorNames& names)
    : lab_(lab), renotation_(&renotation), names_(&names) {
  const Munsell own = renotation.munsell_from_lab(lab).munsell;
  own_block_ = names.block_of(own);
  candidates_.reserve(names.cells().size());
  for (const auto& cell : names.cells()) {
    const Munsell start = nearest_in(cell, own);
    candidates_.push_back({&cell, start, difference_at(start)});
  }
  std::sort(candidates_.begin(), candidates_.end(),
            [](const Candidate& a, const Candidate& b) { return a.start_de00 < b.start_de00; });
}

double NameDistances::difference_at(const Munsell& munsell) const {
  return difference_ciede2000(lab_, renotation_->lab_from_munsell(munsell));
}

double NameDistances::searched(const Candidate& candidate) const {
  const NameCell& cell = *candidate.cell;
  Munsell best = candidate.start;
  double best_de00 = candidate.start_de00;
  double into_hue = wrapped_hue_step(best.hue_step - cell.hue_begin);
  if (into_hue > cell.hue_width) into_hue = 0;
  const double highest_value = std::min(cell.value_end, 10.0);
  // Steps along the three axes, halved when none helps.
  double scale = 1;
  constexpr double smallest_scale = 1.0 / 256;
  while (scale > smallest_scale) {
    bool better = false;
    const double hue_way = std::min(4.0, 6.0 / std::max(best.chroma, 0.5)) * scale;
    for (const Munsell& way : {Munsell{hue_way, 0, 0}, Munsell{-hue_way, 0, 0}, Munsell{0, 0.5 * scale, 0},
                               Munsell{0, -0.5 * scale, 0}, Munsell{0, 0, scale}, Munsell{0, 0, -scale}}) {
      const double hue = std::clamp(into_hue + way.hue_step, 0.0, cell.hue_width);
      const Munsell tried{wrapped_hue_step(cell.hue_begin + hue),
                          std::clamp(best.value + way.value, cell.value_begin, highest_value),
                          std::clamp(best.chroma + way.chroma, cell.chroma_begin, cell.chroma_end)};
      if (tried == best) continue;
      const double de00 = difference_at(tried);
      if (de00 < best_de00 - 1e-9) {
        best = tried;
        best_de00 = de00;
        into_hue = hue;
        better = true;
      }
    }
    if (!better) scale /= 2;
  }
  return best_de00;
}

double NameDistances::to_name(std::size_t name_index, NameLevel level) const {
  if (names_->name_index(own_block_, level) == name_index) return 0;
  double best = unbounded;
  for (const auto& candidate : candidates_) {
    if (candidate.start_de00 * least_share_of_start > best) break;
    if (names_->name_index(candidate.cell->number, level) != name_index) continue;
    best = std::min(best, searched(candidate));
  }
  return best;
}

NameDistance NameDistances::to_other_than(std::size_t name_index, NameLevel level) const {
  const std::size_t own = names_->name_index(own_block_, level);
  if (own != name_index) return {own, 0};
  NameDistance best{own, unbounded};
  for (const auto& candidate : candidates_) {
    if (candidate.start_de00 * least_share_of_start > best.de00) break;
    const std::size_t name = names_->name_index(candidate.cell->number, level);
    if (name == own) continue;
    const double de00 = searched(candidate);
    if (de00 < best.de00) best = {name, de00};
  }
  return best;
}

std::vector<NameDistance> NameDistances::within(double limit_de00, NameLevel level) const {
  const std::size_t own = names_->name_index(own_block_, level);
  std::vector<NameDistance> found{{own, 0}};
  for (const auto& candidate : candidates_) {
    if (candidate.start_de00 * least_share_of_start > limit_de00) break;
    const std::size_t name = names_->name_index(candidate.cell->number, level);
    if (name == own) continue;
    const double de00 = searched(candidate);
    if (de00 > limit_de00) continue;
    const auto known = std::find_if(found.begin(), found.end(),
                                    [name](const NameDistance& d) { return d.name_index == name; });
    if (known == found.end())
      found.push_back({name, de00});
    else
      known->de00 = std::min(known->de00, de00);
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const NameDistance& a, const NameDistance& b) { return a.de00 < b.de00; });
  return found;
}

}  // namespace colorlib
