#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/cell_mask.hpp>
#include <colorlib/specimen/grown_region.hpp>
#include <optional>

namespace colorlib {
namespace {

/// Mean calibrated Lab over a small square lattice about `centre`; nothing when part of it lies outside the
/// photo.
std::optional<Lab> color_at(const Photo& photo, const Placement& placement, const Calibration& calibration,
                            const PointMm& centre, double half_mm) {
  constexpr int side = 3;
  Xyz sum;
  for (int j = 0; j < side; ++j)
    for (int i = 0; i < side; ++i) {
      const PointMm place{centre.x + half_mm * (2.0 * i / (side - 1) - 1),
                          centre.y + half_mm * (2.0 * j / (side - 1) - 1)};
      const PointPx px = placement.px_from_mm(place);
      const auto column = std::lround(px.x), row = std::lround(px.y);
      if (column < 0 || row < 0 || column >= photo.width_px() || row >= photo.height_px())
        return std::nullopt;
      const Xyz xyz = calibration.xyz_from_pixel(
          {place, photo.encoded_at(static_cast<int>(column), static_cast<int>(row))});
      sum = {sum.x + xyz.x, sum.y + xyz.y, sum.z + xyz.z};
    }
  constexpr double count = side * side;
  return lab_from_xyz({sum.x / count, sum.y / count, sum.z / count}, white_d50);
}

RectangleMm place_to_search(const ChartDefinition& chart, const PointMm& start) {
  for (const auto& window : chart.windows)
    if (window.place.contains(start)) return window.place;
  return {0, 0, chart.width_mm, chart.height_mm};
}

}  // namespace

Result<Region> grow_region(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                           const Calibration& calibration, const PointMm& start, const GrowOptions& options,
                           Progress& progress) {
  const RectangleMm place = place_to_search(chart, start);
  const auto seed = place.contains(start)
                        ? color_at(photo, placement, calibration, start, options.start_radius_mm / 2)
                        : std::nullopt;
  if (!seed)
    return fail(ErrorCode::bad_call,
                "Growing a region: the place to start from lies off the sheet or outside the photo.",
                "Start inside the opening.");
  CellMask like(place, options.cell_mm);
  for (int r = 0; r < like.rows; ++r) {
    if (progress.cancelled())
      return fail(ErrorCode::cancelled, "Growing a region was stopped.", "Start it again when you like.");
    progress.report(static_cast<double>(r) / like.rows, "comparing colours with the start");
    for (int c = 0; c < like.columns; ++c) {
      const auto color = color_at(photo, placement, calibration, like.centre(r, c), options.cell_mm / 3);
      like.set[like.index(r, c)] = color && difference_ciede2000(*color, *seed) <= options.tolerance_de00;
    }
  }
  like = majority_smoothed(like);
  const int row = std::clamp(static_cast<int>((start.y - place.y) / options.cell_mm), 0, like.rows - 1);
  const int column = std::clamp(static_cast<int>((start.x - place.x) / options.cell_mm), 0, like.columns - 1);
  const std::size_t start_cell = like.index(row, column);
  for (const CellPart& part : connected_parts(like)) {
    if (!std::binary_search(part.begin(), part.end(), start_cell) ||
        like.area_mm2(part.size()) < options.least_area_mm2)
      continue;
    Region region;
    PolygonShape shape;
    for (const PointMm& corner : outline(mask_of(part, like), options.least_hole_mm2))
      shape.points.push_back({corner.x, corner.y});
    region.shape = std::move(shape);
    return region;
  }
  return fail(
      ErrorCode::untrustworthy,
      fmt::format(
          "Growing a region: less than {:.0f} mm² round the start is within ΔE00 {:.1f} of its colour.",
          options.least_area_mm2, options.tolerance_de00),
      "Start on an even patch of colour, or allow a larger difference.");
}

}  // namespace colorlib
