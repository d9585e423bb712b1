#include <algorithm>
#include <cmath>
#include <colorlib/chart/edge_refinement.hpp>
#include <colorlib/chart/sheet_edges.hpp>

namespace colorlib {
namespace {

constexpr double touching_mm = 0.25;       // neighbours nearer than this share one border
constexpr double telling_lightness = 15;   // difference in L* that any tone curve and light keep the sign of
constexpr std::size_t many_patches = 150;  // one spot a side is then enough
constexpr double longest_half_length_px = 4;  // averaging further along gains little

struct Side {
  PointMm middle, outward;
  double length_mm = 0, depth_mm = 0;
};

std::array<Side, 4> sides_of(const RectangleMm& r) {
  const PointMm c = r.centre();
  return {{{{c.x, r.y}, {0, -1}, r.width, r.height},
           {{r.x + r.width, c.y}, {1, 0}, r.height, r.width},
           {{c.x, r.y + r.height}, {0, 1}, r.width, r.height},
           {{r.x, c.y}, {-1, 0}, r.height, r.width}}};
}

/// What lies in front of the inner half of a side.
struct Front {
  double distance_mm = 0;  // to the nearest other thing, or the sheet's edge
  bool touching = false, ambiguous = false;
  double neighbour_depth_mm = 0;
  std::optional<double> neighbour_lightness;
};

/// A rectangle's position as seen from a side: how far in front it starts and ends, and which part of the
/// side it faces.
struct Facing {
  double near_mm = 0, far_mm = 0, from_mm = 0, to_mm = 0;
};

Facing facing(const Side& side, const RectangleMm& r) {
  const double x0 = r.x - side.middle.x, x1 = x0 + r.width, y0 = r.y - side.middle.y, y1 = y0 + r.height;
  if (side.outward.x != 0) {
    const double s = side.outward.x;
    return {std::min(s * x0, s * x1), std::max(s * x0, s * x1), y0, y1};
  }
  const double s = side.outward.y;
  return {std::min(s * y0, s * y1), std::max(s * y0, s * y1), x0, x1};
}

void put_in_front(Front& front, const Side& side, const RectangleMm& thing, std::optional<double> lightness) {
  const Facing f = facing(side, thing);
  const double half = 0.35 * side.length_mm;  // the inner half and something for its own averaging
  if (f.to_mm < -half || f.from_mm > half || f.far_mm <= touching_mm) return;
  if (f.near_mm < -touching_mm) {  // overlaps the side itself
    front.ambiguous = true;
    return;
  }
  if (f.near_mm <= touching_mm) {
    if (front.touching || f.from_mm > -half || f.to_mm < half) front.ambiguous = true;
    front.touching = true;
    front.neighbour_depth_mm = f.far_mm;
    front.neighbour_lightness = lightness;
  } else {
    front.distance_mm = std::min(front.distance_mm, f.near_mm);
  }
}

int sign_of(double lighter_outside) {
  if (std::fabs(lighter_outside) < telling_lightness) return 0;
  return lighter_outside > 0 ? 1 : -1;
}

}  // namespace

std::vector<SheetEdgeSpot> patch_edge_spots(const ChartDefinition& chart) {
  const double paper_lightness = chart.paper_lab ? chart.paper_lab->l : 95.0;
  std::vector<SheetEdgeSpot> spots;
  for (std::size_t index = 0; index < chart.patches.size(); ++index) {
    const Patch& patch = chart.patches[index];
    for (const Side& side : sides_of(patch.place)) {
      Front front;
      const double ahead_x = side.outward.x > 0 ? chart.width_mm - side.middle.x : side.middle.x;
      const double ahead_y = side.outward.y > 0 ? chart.height_mm - side.middle.y : side.middle.y;
      front.distance_mm = side.outward.x != 0 ? ahead_x : ahead_y;
      for (std::size_t other = 0; other < chart.patches.size(); ++other)
        if (other != index)
          put_in_front(front, side, chart.patches[other].place, chart.patches[other].nominal_lab.l);
      for (const Marker& m : chart.markers)
        put_in_front(front, side, {m.x_mm, m.y_mm, m.side_mm, m.side_mm}, std::nullopt);
      for (const ChartWindow& w : chart.windows) put_in_front(front, side, w.place, std::nullopt);
      for (const Backing& b : chart.backings) put_in_front(front, side, b.place, std::nullopt);
      for (const PrintedText& t : chart.texts) put_in_front(front, side, t.place, std::nullopt);
      if (front.ambiguous) continue;
      double outside_lightness = paper_lightness, outside_clear = front.distance_mm;
      if (front.touching) {
        if (!front.neighbour_lightness) continue;
        outside_lightness = *front.neighbour_lightness;
        outside_clear = front.neighbour_depth_mm;
      }
      SheetEdgeSpot spot;
      spot.owner = index;
      spot.outward = side.outward;
      spot.half_length_mm = 0.08 * side.length_mm;
      spot.clear_mm = std::min(outside_clear, 0.9 * side.depth_mm);
      spot.brighter_outside = sign_of(outside_lightness - patch.nominal_lab.l);
      for (const double along : {0.0, -0.2, 0.2}) {
        if (along != 0 && chart.patches.size() > many_patches) break;
        spot.at = {side.middle.x + along * side.length_mm * std::fabs(side.outward.y),
                   side.middle.y + along * side.length_mm * std::fabs(side.outward.x)};
        spots.push_back(spot);
      }
    }
  }
  return spots;
}

std::vector<SheetEdgeSpot> marker_edge_spots(const ChartDefinition& chart, std::size_t marker) {
  const Marker& m = chart.markers[marker];
  std::vector<SheetEdgeSpot> spots;
  SheetEdgeSpot spot;
  spot.owner = marker;
  spot.of_marker = true;
  spot.clear_mm = m.side_mm / 8;  // a cell of the pattern
  spot.half_length_mm = m.side_mm / 24;
  spot.brighter_outside = 1;
  for (const Side& side : sides_of({m.x_mm, m.y_mm, m.side_mm, m.side_mm})) {
    spot.outward = side.outward;
    for (const double along : {-0.4, -0.24, -0.08, 0.08, 0.24, 0.4}) {
      spot.at = {side.middle.x + along * m.side_mm * std::fabs(side.outward.y),
                 side.middle.y + along * m.side_mm * std::fabs(side.outward.x)};
      spots.push_back(spot);
    }
  }
  return spots;
}

EdgeOutcome look_at_edge(const Photo& photo, const Placement& placement, const SheetEdgeSpot& spot,
                         const EdgeExpectation& expectation, std::optional<SeenEdge>& seen) {
  seen.reset();
  const auto j = placement.jacobian(spot.at);
  // The border's direction in the photo, and the normal on the side of the outward direction.
  const PointMm along_mm{-spot.outward.y, spot.outward.x};
  const PointPx along{j[0] * along_mm.x + j[1] * along_mm.y, j[2] * along_mm.x + j[3] * along_mm.y};
  const PointPx out{j[0] * spot.outward.x + j[1] * spot.outward.y,
                    j[2] * spot.outward.x + j[3] * spot.outward.y};
  const double along_px_per_mm = std::hypot(along.x, along.y);
  if (!(along_px_per_mm > 1e-3)) return EdgeOutcome::not_seen;
  EdgeSearch search;
  search.normal = {-along.y / along_px_per_mm, along.x / along_px_per_mm};
  double across_px_per_mm = out.x * search.normal.x + out.y * search.normal.y;
  if (across_px_per_mm < 0) {
    search.normal = {-search.normal.x, -search.normal.y};
    across_px_per_mm = -across_px_per_mm;
  }
  const double clear_px = spot.clear_mm * across_px_per_mm;
  const double least = expectation.error_px + 2 * expectation.spread_px + 1;
  const double most = clear_px - expectation.error_px;
  search.reach_px = std::min(most, expectation.error_px + 4 * expectation.spread_px + 3);
  if (search.reach_px < least) return EdgeOutcome::out_of_reach;
  search.clear_px = clear_px;
  search.spread_px = expectation.spread_px;
  search.at = placement.px_from_mm(spot.at);
  search.half_length_px = std::min(longest_half_length_px, spot.half_length_mm * along_px_per_mm);
  search.brighter_outside = spot.brighter_outside;
  const std::optional<EdgeFound> found = locate_edge(photo, search);
  if (!found) return EdgeOutcome::not_seen;
  seen = SeenEdge{
      spot,
      {spot.at,
       {search.at.x + found->offset_px * search.normal.x, search.at.y + found->offset_px * search.normal.y},
       search.normal,
       found->sd_px},
      found->spread_px,
      found->wide_spread_px};
  return EdgeOutcome::seen;
}

}  // namespace colorlib
