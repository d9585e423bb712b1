#pragma once
/// The printed borders of a sheet that say where it lies: sides of markers and of patches.

#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/chart/placement_fit.hpp>
#include <colorlib/image/photo.hpp>
#include <cstddef>
#include <optional>
#include <vector>

namespace colorlib {

/// One spot on one printed side.
struct SheetEdgeSpot {
  std::size_t owner = 0;  ///< index of the patch or marker in the definition
  bool of_marker = false;
  PointMm at;
  PointMm outward;            ///< unit, along x or y
  double half_length_mm = 0;  ///< free of corners to either side
  double clear_mm = 0;        ///< no other border this near along the normal, inside or outside
  int brighter_outside = 0;   ///< by the nominal colours; 0 when they are too alike to say
};

/// Spots on the inner half of every side of every patch whose surroundings are known: paper, or one neighbour
/// along the whole side.
std::vector<SheetEdgeSpot> patch_edge_spots(const ChartDefinition& chart);
/// Spots on the sides of one marker's black square; white paper outside, one black cell inside.
std::vector<SheetEdgeSpot> marker_edge_spots(const ChartDefinition& chart, std::size_t marker);

/// A spot as the photo shows it.
struct SeenEdge {
  SheetEdgeSpot spot;
  EdgeObservation observation;
  double spread_px = 0, wide_spread_px = 0;  ///< see EdgeFound
};

/// How well the place of a spot is known beforehand.
struct EdgeExpectation {
  double error_px = 2;   ///< it lies within this of where the placement says
  double spread_px = 1;  ///< of the photo's edges
};

enum class EdgeOutcome { seen, not_seen, out_of_reach };

/// Measures one spot. `out_of_reach`: other borders are so near that an error of this size could confuse
/// them.
EdgeOutcome look_at_edge(const Photo& photo, const Placement& placement, const SheetEdgeSpot& spot,
                         const EdgeExpectation& expectation, std::optional<SeenEdge>& seen);

}  // namespace colorlib
