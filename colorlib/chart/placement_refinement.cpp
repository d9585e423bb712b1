#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/chart/placement_refinement.hpp>
#include <iterator>

namespace colorlib {
namespace {

constexpr int most_rounds = 8;
constexpr double usual_spread_px = 1.0;   // before anything was measured
constexpr double narrow_spread_px = 2.0;  // fits well into the reach for the usual one
constexpr double settled_growth = 1.05;
constexpr std::size_t most_spread_spots = 150, least_spread_spots = 8;

double median_spread(const std::vector<SeenEdge>& edges) {
  if (edges.empty()) return usual_spread_px;
  std::vector<double> spreads;
  for (const SeenEdge& e : edges) spreads.push_back(e.spread_px);
  return std::clamp(median(std::move(spreads)), 0.3, 30.0);
}

std::optional<PlacementFit> fit_edges(const Placement& start, const std::vector<SeenEdge>& edges,
                                      bool reject) {
  std::vector<EdgeObservation> observations;
  observations.reserve(edges.size());
  for (const SeenEdge& e : edges) observations.push_back(e.observation);
  PlacementFitOptions options;
  options.reject = reject;
  return fit_placement(start, observations, options);
}

/// The spread of the borders seen, looked at ever wider while it grows: within a reach that is too short for
/// it a wide spread looks narrow. Where other borders leave no more room the last one stands.
double settled_spread(const Photo& photo, const RefinedPlacement& refined) {
  double spread = refined.spread_px;
  const std::size_t every = 1 + refined.edges.size() / most_spread_spots;
  for (int round = 0; round < most_rounds && spread > narrow_spread_px; ++round) {
    std::vector<double> spreads;
    std::optional<SeenEdge> seen;
    for (std::size_t i = 0; i < refined.edges.size(); i += every) {
      const SheetEdgeSpot& spot = refined.edges[i].spot;
      if (refined.fit.weights[i] <= 0 || spot.half_length_mm <= 0) continue;
      const double error_px = 1 + 3 * placement_sd_px(refined.fit, spot.at);
      look_at_edge(photo, refined.fit.placement, spot, {error_px, spread}, seen);
      if (seen) spreads.push_back(seen->wide_spread_px);
    }
    if (spreads.size() < least_spread_spots) break;
    const double wider = median(std::move(spreads));
    const bool settled = wider < settled_growth * spread;
    spread = std::max(spread, wider);
    if (settled) break;
  }
  return spread;
}

bool inside(const Photo& photo, const PointPx& p) {
  return p.x >= 0 && p.y >= 0 && p.x <= photo.width_px() - 1 && p.y <= photo.height_px() - 1;
}

}  // namespace

std::vector<SeenEdge> see_marker_edges(const Photo& photo, const ChartDefinition& chart,
                                       const Placement& start, std::size_t marker, double start_error_px) {
  std::vector<SeenEdge> edges;
  std::optional<SeenEdge> seen;
  for (const SheetEdgeSpot& spot : marker_edge_spots(chart, marker)) {
    // A small marker leaves less room: then expect less, as far as the pattern's cells allow.
    for (const double share : {1.0, 0.6, 0.35, 0.2}) {
      if (look_at_edge(photo, start, spot, {share * start_error_px, usual_spread_px}, seen) ==
          EdgeOutcome::out_of_reach)
        continue;
      if (seen) edges.push_back(*seen);
      break;
    }
  }
  return edges;
}

std::optional<RefinedPlacement> refine_placement(const Photo& photo, const ChartDefinition& chart,
                                                 const Placement& start, std::vector<SeenEdge> known,
                                                 double start_error_px, const RefinementOptions& options,
                                                 Progress& progress) {
  RefinedPlacement refined;
  refined.edges = std::move(known);
  refined.spread_px = median_spread(refined.edges);
  std::optional<PlacementFit> fit;
  if (!refined.edges.empty()) {
    fit = fit_edges(start, refined.edges, false);
    if (!fit) return std::nullopt;
  }
  if (options.patch_edges) {
    std::vector<SheetEdgeSpot> waiting = patch_edge_spots(chart);
    for (int round = 0; round < most_rounds && !waiting.empty(); ++round) {
      if (progress.cancelled()) return std::nullopt;
      const Placement& placement = fit ? fit->placement : start;
      std::vector<SheetEdgeSpot> left;
      std::optional<SeenEdge> seen;
      std::size_t tried = 0, found = 0;
      for (const SheetEdgeSpot& spot : waiting) {
        if (!inside(photo, placement.px_from_mm(spot.at))) {
          left.push_back(spot);
          continue;
        }
        const double uncertain_px = fit ? 3 * placement_sd_px(*fit, spot.at) : start_error_px;
        const double off_sheet_px = options.off_sheet_mm * placement.px_per_mm(spot.at);
        // Narrow gaps between patches leave less room: then allow for less curl.
        EdgeOutcome outcome = EdgeOutcome::out_of_reach;
        for (const double share : {1.0, 0.4, 0.15}) {
          const double error_px = std::max(1.0, share * off_sheet_px) + uncertain_px;
          outcome = look_at_edge(photo, placement, spot, {error_px, refined.spread_px}, seen);
          if (outcome != EdgeOutcome::out_of_reach) break;
        }
        if (outcome == EdgeOutcome::out_of_reach) {
          left.push_back(spot);
          continue;
        }
        ++tried;
        if (outcome == EdgeOutcome::seen) {
          ++found;
          refined.edges.push_back(*seen);
        }
      }
      refined.patch_spots_tried += static_cast<int>(tried);
      refined.patch_spots_used += static_cast<int>(found);
      waiting = std::move(left);
      if (found == 0 && round > 0) break;
      if (found > 0) {
        std::optional<PlacementFit> next = fit_edges(placement, refined.edges, true);
        if (!next) break;
        fit = std::move(next);
        if (round == 0) refined.spread_px = median_spread(refined.edges);
      }
      if (tried == 0) break;
    }
  }
  if (!fit || fit->residuals_px.size() != refined.edges.size()) {
    // The last patch edges were never fitted (the fit failed on them): leave them out.
    if (!fit) return std::nullopt;
    refined.edges.resize(fit->residuals_px.size());
  }
  refined.fit = std::move(*fit);
  refined.spread_px = settled_spread(photo, refined);
  return refined;
}

}  // namespace colorlib
