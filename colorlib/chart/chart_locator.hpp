#pragma once
/// Finding the sheet in a photo.

#include <array>
#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/marker_search.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace colorlib {

/// A sheet found, and how far to trust where.
struct LocatedSheet {
  std::size_t chart = 0;  ///< index into the candidates
  Placement placement;
  int markers_found = 0;
  double reprojection_px =
      0;  ///< rms of marker sides (and patch edges used) about the placement, along their normals
  int edges_used = 0;  ///< patch sides that took part in the refinement
  /// rms of patch edges about the flat sheet, in mm, low-pass over neighbours: large when the sheet is
  /// curled.
  double flatness_mm = 0;
  bool curled = false;  ///< flatness_mm above LocateOptions::curl_limit_mm (and above 0.2 px)
  double blur_px =
      0;  ///< standard deviation of the spread of the chart's borders: focus, motion and pixel together
  std::array<PointPx, 4> corners_px{};  ///< of the sheet: top-left, top-right, bottom-right, bottom-left
  std::vector<std::string> remarks;  ///< what a user should see: a marker left out, markers of another chart
};

struct LocateOptions {
  int least_markers = 2;             ///< two fix a homography with their eight corners
  double worst_reprojection_px = 3;  ///< above this the finding is refused
  /// Sheets that lay flat stay below 0.04 in simulated photos (lenses to 3 %, JPEG); a sag of 5 mm seen from
  /// 35 to 60 cm exceeds this limit in more than 95 % of poses.
  double curl_limit_mm = 0.06;
  bool refine_on_patch_edges = true;
  std::optional<MarkerSearch>
      seen;  ///< what was found before, of this sheet alone; none: the photo is searched
};

/// By markers: decides among the candidates by marker ids. Errors: chart_not_found (says what was seen: no
/// markers, too few, mirrored, too blurred or small), cancelled.
Result<LocatedSheet> locate_sheet(const Photo& photo, std::span<const ChartDefinition> candidates,
                                  const LocateOptions& options, Progress& progress);
/// By the sheet's four corners in the photo (top-left, top-right, bottom-right, bottom-left of the upright
/// sheet), given to a few px; refined on patch edges. Errors: bad_call (not a convex quadrilateral in this
/// order, outside the photo), chart_not_found (patches do not fit).
Result<LocatedSheet> locate_sheet_by_corners(const Photo& photo, const ChartDefinition& chart,
                                             const std::array<PointPx, 4>& corners,
                                             const LocateOptions& options, Progress& progress);

}  // namespace colorlib
