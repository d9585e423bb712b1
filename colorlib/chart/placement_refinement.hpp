#pragma once
/// From a first placement to one that rests on every printed border of the sheet.

#include <colorlib/base/progress.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement_fit.hpp>
#include <colorlib/chart/sheet_edges.hpp>
#include <colorlib/image/photo.hpp>
#include <optional>
#include <span>
#include <vector>

namespace colorlib {

struct RefinedPlacement {
  PlacementFit fit;             ///< residuals and weights in the order of `edges`
  std::vector<SeenEdge> edges;  ///< markers' first
  int patch_spots_tried = 0;    ///< inside the photo and within reach
  int patch_spots_used = 0;
  double spread_px = 1;  ///< median standard deviation of the photo's edge spread
};

struct RefinementOptions {
  bool patch_edges = true;
  /// How far print and paper may lie off the flat sheet, mm: a curl of 5 mm moves borders by about this much.
  double off_sheet_mm = 0.6;
};

/// Measures the sides of the markers in `markers` (indices into the definition) near where `start` has them,
/// to within `start_error_px`. Sides that are covered, cut off or blurred away are left out.
std::vector<SeenEdge> see_marker_edges(const Photo& photo, const ChartDefinition& chart,
                                       const Placement& start, std::size_t marker, double start_error_px);

/// Fits `known` edges, then takes in patch sides wherever the fit so far says their place well enough not to
/// confuse neighbouring borders: with two markers it grows outward from them. `start_error_px` stands for the
/// fit's own uncertainty while `known` is too small to be fitted (a sheet placed by its corners).
std::optional<RefinedPlacement> refine_placement(const Photo& photo, const ChartDefinition& chart,
                                                 const Placement& start, std::vector<SeenEdge> known,
                                                 double start_error_px, const RefinementOptions& options,
                                                 Progress& progress);

}  // namespace colorlib
