#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/card_border_internal.hpp>
#include <colorlib/specimen/cell_mask.hpp>
#include <colorlib/specimen/deposit_finder.hpp>
#include <colorlib/specimen/mirror_ground_internal.hpp>
#include <optional>

namespace colorlib {
namespace {

CellColors cell_colors(const Photo& photo, const Placement& placement, const Calibration& calibration,
                       const RectangleMm& place, double cell_mm) {
  CellColors cells{CellMask(place, cell_mm), {}};
  cells.lab.resize(cells.grid.set.size());
  for (int r = 0; r < cells.grid.rows; ++r)
    for (int c = 0; c < cells.grid.columns; ++c) {
      const PointMm centre = cells.grid.centre(r, c);
      Vector3 sum{};
      int count = 0;
      // Two pixels on a diagonal: enough against noise, since single odd cells are smoothed away.
      for (const double d : {-0.25, 0.25}) {
        const PointPx px = placement.px_from_mm({centre.x + d * cell_mm, centre.y + d * cell_mm});
        const double column = std::round(px.x), row = std::round(px.y);
        if (!(column >= 0 && row >= 0 && column < photo.width_px() && row < photo.height_px())) continue;
        const Vector3 value = photo.encoded_at(static_cast<int>(column), static_cast<int>(row));
        for (std::size_t k = 0; k < 3; ++k) sum[k] += value[k];
        ++count;
      }
      if (count == 0) continue;
      for (double& v : sum) v /= count;
      cells.lab[cells.grid.index(r, c)] = lab_from_xyz(calibration.xyz_from_pixel({centre, sum}), white_d50);
    }
  return cells;
}

/// Colours along the rim of the search place.
std::vector<Lab> rim_of(const CellColors& cells, double ring_mm) {
  const int ring = static_cast<int>(ring_mm / cells.grid.cell_mm);
  std::vector<Lab> rim;
  for (int r = 0; r < cells.grid.rows; ++r)
    for (int c = 0; c < cells.grid.columns; ++c) {
      const bool on_rim =
          r < ring || c < ring || r >= cells.grid.rows - ring || c >= cells.grid.columns - ring;
      if (const auto& lab = cells.lab[cells.grid.index(r, c)]; on_rim && lab) rim.push_back(*lab);
    }
  return rim;
}

/// The commonest colour of the rim: the candidate with most rim cells near it, then their mean.
std::optional<Ground> ground_of(std::vector<Lab> rim) {
  constexpr double near = 6;
  if (rim.size() < 50) return std::nullopt;
  std::size_t best = 0, most = 0;
  const std::size_t stride = std::max<std::size_t>(1, rim.size() / 200);
  for (std::size_t i = 0; i < rim.size(); i += stride) {
    std::size_t count = 0;
    for (std::size_t j = 0; j < rim.size(); j += stride) count += difference_cie76(rim[i], rim[j]) < near;
    if (count > most) most = count, best = i;
  }
  const Lab centre = rim[best];
  std::vector<double> alike;
  for (const Lab& lab : rim)
    if (std::hypot(lab.a - centre.a, lab.b - centre.b) < near / 2) alike.push_back(lab.l);
  std::erase_if(rim, [&](const Lab& lab) { return difference_cie76(lab, centre) > 2 * near; });
  Ground ground;
  const auto darkest = alike.begin() + static_cast<std::ptrdiff_t>(alike.size() / 100);
  std::nth_element(alike.begin(), darkest, alike.end());
  ground.darkest_l = *darkest;
  for (const Lab& lab : rim) {
    ground.lab.l += lab.l / static_cast<double>(rim.size());
    ground.lab.a += lab.a / static_cast<double>(rim.size());
    ground.lab.b += lab.b / static_cast<double>(rim.size());
  }
  std::vector<double> distances;
  for (const Lab& lab : rim) distances.push_back(difference_cie76(lab, ground.lab));
  ground.spread = median(std::move(distances));
  return ground;
}

/// A second card beside the first, as where a deposit lies half over black and half over white: even, neutral
/// and along a good part of the rim. None: what else the rim shows is a deposit that reaches so far, or dirt.
std::optional<Ground> second_ground(std::vector<Lab> rim, const Ground& first) {
  constexpr double apart = 20, least_share = 0.2;  // Lab units; of the rim's cells
  constexpr double most_chroma = 6;                // of white, grey and black card
  if (first.is_mirror()) return std::nullopt;
  const auto least = static_cast<std::size_t>(least_share * static_cast<double>(rim.size()));
  std::erase_if(rim, [&](const Lab& lab) { return difference_cie76(lab, first.lab) < apart; });
  if (rim.size() < least) return std::nullopt;
  auto second = ground_of(rim);
  if (!second || second->is_mirror() || std::hypot(second->lab.a, second->lab.b) > most_chroma)
    return std::nullopt;
  const auto alike = std::count_if(
      rim.begin(), rim.end(), [&](const Lab& lab) { return difference_cie76(lab, second->lab) < apart / 2; });
  if (static_cast<std::size_t>(alike) < least) return std::nullopt;
  return second;
}

FoundSpecimen specimen_from(const CellMask& core, double area_mm2, double least_hole_mm2) {
  FoundSpecimen found;
  found.area_mm2 = area_mm2;
  found.region.kind = RegionKind::deposit;
  found.region.found = true;
  PolygonShape polygon;
  for (const PointMm& p : outline(core, least_hole_mm2)) polygon.points.push_back({p.x, p.y});
  found.region.shape = std::move(polygon);
  return found;
}

/// The cells whose colour `holds`, single odd ones smoothed away.
template <class Holds>
CellMask cells_where(const CellColors& cells, const Holds& holds) {
  CellMask mask = cells.grid;
  for (std::size_t i = 0; i < mask.set.size(); ++i) mask.set[i] = cells.lab[i] && holds(*cells.lab[i]);
  return majority_smoothed(mask);
}

/// What of a part can be read: drawn in from its rim. None: all of it is rim.
std::optional<FoundSpecimen> specimen_of(const CellPart& cells, const CellMask& grid,
                                         const FinderOptions& options) {
  const CellMask part = mask_of(cells, grid);
  CellMask core = eroded(part, options.rim_mm);
  if (core.area_mm2() < options.least_area_mm2 / 4) core = eroded(part, options.rim_mm / 2);
  const auto cores = connected_parts(core);
  if (cores.empty()) return std::nullopt;
  return specimen_from(mask_of(cores.front(), core), grid.area_mm2(cells.size()), options.least_hole_mm2);
}

bool like(const Lab& lab, const Ground& card, const FinderOptions& options) {
  return difference_cie76(lab, card.lab) <=
         std::max(options.least_contrast, options.least_spreads * card.spread);
}

/// What stands out, each piece on one of the two cards; with `across` when nothing tells where they meet.
struct Piece {
  CellPart cells;
  bool across = false;
};

std::vector<Piece> pieces_on_cards(const std::vector<CellPart>& parts, const CellColors& cells,
                                   const Ground& ground, const Ground& other, const FinderOptions& options) {
  const CellMask first = cells_where(cells, [&](const Lab& lab) { return like(lab, ground, options); });
  const CellMask second = cells_where(cells, [&](const Lab& lab) { return like(lab, other, options); });
  const auto border = card_border(first, second);
  std::vector<Piece> pieces;
  for (const CellPart& part : parts) {
    if (!border) {
      pieces.push_back({part, lies_across(part, first, second)});
      continue;
    }
    for (CellPart& piece : parted(part, cells.grid, *border, options.least_area_mm2))
      pieces.push_back({std::move(piece)});
  }
  std::stable_sort(pieces.begin(), pieces.end(),
                   [](const Piece& a, const Piece& b) { return a.cells.size() > b.cells.size(); });
  return pieces;
}

std::vector<FoundSpecimen> search(const Photo& photo, const ChartDefinition& chart,
                                  const Placement& placement, const Calibration& calibration,
                                  const RectangleMm& opening, bool backing, const FinderOptions& options) {
  const RectangleMm place{opening.x + options.edge_gap_mm, opening.y + options.edge_gap_mm,
                          opening.width - 2 * options.edge_gap_mm, opening.height - 2 * options.edge_gap_mm};
  const CellColors cells = cell_colors(photo, placement, calibration, place, options.cell_mm);
  const std::vector<Lab> rim = rim_of(cells, options.ring_mm);
  const auto ground = ground_of(rim);
  if (!ground) return {};
  // A backing is one card: what else its rim shows is a deposit that lies across to the next one.
  const auto other_ground = backing ? std::nullopt : second_ground(rim, *ground);
  // A mirror's own lightness wanders further than a pale deposit stands out; its hue does not.
  const auto stands_out = [&](const Lab& lab) {
    if (other_ground && like(lab, *other_ground, options)) return false;
    return !like(lab, *ground, options) || (ground->is_mirror() && !mirror_like(lab, *ground));
  };
  std::vector<CellPart> parts = connected_parts(cells_where(cells, stands_out));
  if (ground->is_mirror()) parts = deposits_on_mirror(parts, cells, *ground);
  std::erase_if(
      parts, [&](const CellPart& part) { return cells.grid.area_mm2(part.size()) < options.least_area_mm2; });
  std::vector<Piece> pieces;
  if (other_ground)
    pieces = pieces_on_cards(parts, cells, *ground, *other_ground, options);
  else
    for (CellPart& part : parts) pieces.push_back({std::move(part)});
  std::vector<FoundSpecimen> found;
  for (const Piece& piece : pieces) {
    if (found.size() == options.most_specimens) break;
    auto specimen = specimen_of(piece.cells, cells.grid, options);
    if (!specimen) continue;
    specimen->two_grounds = other_ground.has_value();
    specimen->across_grounds = piece.across;
    found.push_back(std::move(*specimen));
  }
  const Lab paper = chart.paper_lab.value_or(Lab{94, 0, -2});
  if (found.empty() && !backing && !other_ground && !ground->is_mirror() &&
      difference_cie76(ground->lab, paper) > 15) {
    CellMask whole = cells.grid;
    std::fill(whole.set.begin(), whole.set.end(), std::uint8_t{1});
    found.push_back(specimen_from(eroded(whole, options.ring_mm), whole.area_mm2(), options.least_hole_mm2));
    found.back().fills_opening = true;
    found.back().region.found = false;  // what was taken ends at the opening, not at an edge of the deposit
  }
  return found;
}

}  // namespace

std::vector<FoundSpecimen> find_specimens(const Photo& photo, const ChartDefinition& chart,
                                          const Placement& placement, const Calibration& calibration,
                                          const FinderOptions& options) {
  std::vector<FoundSpecimen> all;
  const auto add = [&](const std::string& id, const RectangleMm& place, bool backing) {
    auto found = search(photo, chart, placement, calibration, place, backing, options);
    for (std::size_t i = 0; i < found.size(); ++i) {
      found[i].region.id = found.size() == 1 ? id : id + "-" + std::to_string(i + 1);
      all.push_back(std::move(found[i]));
    }
  };
  for (const auto& window : chart.windows) {
    bool divided = false;
    for (const auto& backing : chart.backings)
      if (window.place.contains(backing.place.centre())) {
        divided = true;
        add(window.id + "-" + backing.id, backing.place, true);
      }
    if (!divided) add(window.id, window.place, false);
  }
  return all;
}

}  // namespace colorlib
