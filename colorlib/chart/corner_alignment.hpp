#pragma once
/// Placing a sheet by its four corners, given roughly, with the patches as they should look.

#include <array>
#include <colorlib/base/result.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <variant>

namespace colorlib {

/// Checks corners in the order top-left, top-right, bottom-right, bottom-left. Errors: bad_call, saying what
/// is wrong with them: not finite, outside the photo, in another order, crossing, too small.
Result<std::monostate> check_corners(const Photo& photo, const std::array<PointPx, 4>& corners);

/// The placement that brings these corners to the sheet's, without radial term.
Placement placement_from_corners(const Photo& photo, const ChartDefinition& chart,
                                 const std::array<PointPx, 4>& corners);

struct CornerAlignment {
  Placement placement;
  /// Partial correlation, over the sheet without its openings, between lightness as seen and as the nominal
  /// colours have it, after a quadratic lighting field was taken out. 1: they explain everything.
  double correlation = 0;
};

/// Moves `start` so that the patches fit best: least squares between seen and expected lightness, from coarse
/// to fine. Takes errors of `start` up to about 1.5 % of the sheet's size; afterwards borders are within
/// about 0.4 mm.
CornerAlignment align_to_patches(const Photo& photo, const ChartDefinition& chart, const Placement& start);

}  // namespace colorlib
