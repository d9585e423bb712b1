#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/specimen/bare_ground.hpp>
#include <colorlib/specimen/sheet_cells_internal.hpp>
#include <optional>

namespace colorlib {
namespace {

/// The backing, else the opening, that holds the place.
std::optional<RectangleMm> place_around(const ChartDefinition& chart, const PointMm& p) {
  for (const auto& backing : chart.backings)
    if (backing.place.contains(p)) return backing.place;
  for (const auto& window : chart.windows)
    if (window.place.contains(p)) return window.place;
  return std::nullopt;
}

/// Cells of the ring round the region that no region covers.
std::vector<Cell> ring_cells(const Cells& cells, const ChartDefinition& chart, const Region& region,
                             const std::vector<Region>& others, const GroundOptions& options) {
  const double ring = options.ring_mm * cells.scale();
  constexpr double edge_gap_mm = 2;
  const auto [left, top, right, bottom] = region.bounds();
  const PointMm centre = cells.mm((left + right) / 2, (top + bottom) / 2);
  const auto place = place_around(chart, centre);
  const double area = (right - left + 2 * ring) * (bottom - top + 2 * ring);
  const double stride = std::max(cells.step(), std::sqrt(area / options.most_cells));
  const auto near = [&](const Region& other, double x, double y) {
    const auto [l, t, r, b] = other.bounds();
    const double rx = (r - l) / 2 * 1.15, ry = (b - t) / 2 * 1.15;
    return other.contains(x, y) || std::hypot((x - (l + r) / 2) / rx, (y - (t + b) / 2) / ry) < 1;
  };
  std::vector<Cell> found;
  for (double y = top - ring; y < bottom + ring; y += stride)
    for (double x = left - ring; x < right + ring; x += stride) {
      const PointMm p = cells.mm(x, y);
      if (place && !(p.x > place->x + edge_gap_mm && p.x < place->x + place->width - edge_gap_mm &&
                     p.y > place->y + edge_gap_mm && p.y < place->y + place->height - edge_gap_mm))
        continue;
      if (near(region, x, y) ||
          std::any_of(others.begin(), others.end(), [&](const Region& other) { return near(other, x, y); }))
        continue;
      if (auto cell = cells.at(x, y)) found.push_back(std::move(*cell));
    }
  return found;
}

/// The commonest colour of the ring.
Result<BareGround> ground_in(const std::vector<Cell>& ring, const Calibration& calibration,
                             const std::string& id, const GroundOptions& options) {
  const auto no_ground = [&] {
    return fail(ErrorCode::untrustworthy,
                fmt::format("Looking for the ground of region '{}': no bare ground is seen beside it, and "
                            "without the ground a thin "
                            "layer's own colour (its masstone) cannot be told.",
                            id),
                "Leave some bare ground of the same kind round the deposit.");
  };
  if (ring.size() < options.least_cells) return no_ground();
  const std::size_t stride = std::max<std::size_t>(1, ring.size() / 400);
  std::size_t best = 0, most = 0;
  for (std::size_t i = 0; i < ring.size(); i += stride) {
    std::size_t count = 0;
    for (std::size_t j = 0; j < ring.size(); j += stride)
      count += difference_cie76(ring[i].lab, ring[j].lab) < options.spread;
    if (count > most) most = count, best = i;
  }
  const Lab commonest = ring[best].lab;
  // Noise is larger in dark colours.
  const double darker = 1 + std::max(0.0, 40 - commonest.l) / 30;
  std::vector<double> distances;
  for (const Cell& cell : ring) distances.push_back(difference_cie76(cell.lab, commonest));
  const double unevenness = median(std::move(distances));
  if (unevenness > darker * options.most_unevenness)
    return fail(ErrorCode::untrustworthy,
                fmt::format("Looking for the ground of region '{}': the ground beside it is not one matt, "
                            "evenly lit colour (half "
                            "of it is more than {:.1f} Lab units off). On foil, which mirrors its "
                            "surroundings, a thin layer's "
                            "own colour (its masstone) cannot be told.",
                            id, unevenness),
                "Move the deposit to matt card, or better to the sheet with a black and a white ground.");
  std::vector<const Cell*> bare;
  std::vector<SheetPixel> pixels;
  for (const Cell& cell : ring)
    if (difference_cie76(cell.lab, commonest) < darker * options.spread) {
      bare.push_back(&cell);
      if (pixels.size() < 6000) pixels.insert(pixels.end(), cell.pixels.begin(), cell.pixels.end());
    }
  if (bare.size() < options.least_cells) return no_ground();
  BareGround ground;
  ground.color = calibration.color_of(pixels);
  Vector3 mean{}, squares{};
  for (const Cell* cell : bare)
    for (std::size_t k = 0; k < 3; ++k) {
      mean[k] += cell->root[k] / static_cast<double>(bare.size());
      squares[k] += cell->root[k] * cell->root[k] / static_cast<double>(bare.size());
    }
  for (std::size_t k = 0; k < 3; ++k)
    ground.noise[k] = std::sqrt(std::max(squares[k] - mean[k] * mean[k], 0.0));
  return ground;
}

}  // namespace

Result<BareGround> bare_ground(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                               const Calibration& calibration, const Region& region, RegionFrame frame,
                               const std::vector<Region>& others, const GroundOptions& options) {
  const Cells cells(photo, placement, calibration, region, frame, options.cell_mm);
  return ground_in(ring_cells(cells, chart, region, others, options), calibration, region.id, options);
}

}  // namespace colorlib
