#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/cautions.hpp>
#include <colorlib/exports/overlay.hpp>
#include <colorlib/exports/overlay_labels_internal.hpp>
#include <colorlib/exports/photo_preview.hpp>

namespace colorlib {
namespace {

constexpr int pieces_per_side = 12;  // straight sides bend with the lens: drawn in pieces
constexpr int pieces_per_round = 72;
constexpr double text_share = 1.0 / 125;  // of the long side

/// From the sheet and from the photo to the canvas.
struct CanvasMap {
  const Placement& placement;
  double scale = 1;  // canvas px per photo px

  PointPx from_px(const PointPx& p) const { return {(p.x + 0.5) * scale, (p.y + 0.5) * scale}; }
  PointPx from_mm(const PointMm& p) const { return from_px(placement.px_from_mm(p)); }

  std::vector<PointPx> side(const PointMm& a, const PointMm& b) const {
    std::vector<PointPx> points;
    for (int i = 0; i <= pieces_per_side; ++i) {
      const double t = static_cast<double>(i) / pieces_per_side;
      points.push_back(from_mm({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}));
    }
    return points;
  }
  std::vector<PointPx> rectangle(const RectangleMm& r) const {
    const PointMm corners[] = {
        {r.x, r.y}, {r.x + r.width, r.y}, {r.x + r.width, r.y + r.height}, {r.x, r.y + r.height}, {r.x, r.y}};
    std::vector<PointPx> points;
    for (int i = 0; i < 4; ++i) {
      const auto piece = side(corners[i], corners[i + 1]);
      points.insert(points.end(), piece.begin(), piece.end() - 1);
    }
    return points;
  }
  PointPx from_frame(RegionFrame frame, double x, double y) const {
    return frame == RegionFrame::chart_mm ? from_mm({x, y}) : from_px({x, y});
  }
  /// The region's loops, the outer one first.
  std::vector<std::vector<PointPx>> outlines(const Reading& reading) const {
    std::vector<PointPx> points;
    if (const auto* ellipse = std::get_if<EllipseShape>(&reading.region.shape)) {
      constexpr double whole_turn = 6.283185307179586;
      for (int i = 0; i < pieces_per_round; ++i) {
        const double angle = whole_turn * i / pieces_per_round;
        points.push_back(from_frame(reading.frame, ellipse->x + ellipse->radius_x * std::cos(angle),
                                    ellipse->y + ellipse->radius_y * std::sin(angle)));
      }
      return {points};
    }
    std::vector<std::vector<PointPx>> loops;
    for (const auto& loop : std::get<PolygonShape>(reading.region.shape).loops()) {
      loops.emplace_back();
      for (const auto& point : loop) loops.back().push_back(from_frame(reading.frame, point[0], point[1]));
    }
    return loops;
  }
};

/// The strip's lines: how far to trust what is drawn above.
std::string strip_text(const Photo& photo, const PhotoReading& reading) {
  const CalibrationSummary& fit = reading.calibration.summary();
  std::string dropped;
  int count = 0;
  for (const PatchSample& sample : reading.samples.patches) {
    if (!sample.dropped || sample.patch >= reading.chart.patches.size()) continue;
    if (++count <= 6) dropped.append(count > 1 ? ", " : "").append(reading.chart.patches[sample.patch].id);
  }
  if (count > 6) dropped += ", ...";
  const std::string placed =
      reading.sheet.markers_found > 0
          ? fmt::format("{} of {} markers", reading.sheet.markers_found, reading.chart.markers.size())
          : std::string("four corners given by hand");
  std::string text = fmt::format(
      "{}: sheet {}, placed by {} within {:.2f} px rms. Reference values: {}.\n"
      "{} patches used (outlined), {} dropped (crossed out{}{}); {} samples of bare paper (dots).\n"
      "Each patch left out in turn is met within ΔE00 {:.1f} on average, {:.1f} for 95 %. "
      "Uncorrected, the light would shift paper by ΔE00 {:.1f} across the sheet.\n",
      photo.name(), reading.chart.name, placed, reading.sheet.reprojection_px,
      reference_kind_name(reading.reference.kind), fit.patches_used, count, count > 0 ? ": " : "", dropped,
      fit.paper_used, fit.check_de00_mean, fit.check_de00_p95, fit.lighting_spread_de00);
  for (const Flag& flag : reading.flags) text += fmt::format("{}: {}\n", flag.code, flag.advice);
  return text +
         "CIELAB under D50, 2° observer; ± is the expanded uncertainty (k = 2). Swatches are only as true as "
         "the "
         "screen.\n" +
         std::string(caution_safety);
}

void draw_sheet_marks(OverlayCanvas& canvas, const CanvasMap& map, const PhotoReading& reading,
                      std::vector<CanvasBox>& patch_boxes) {
  const double thin = std::max(1.0, canvas.text_px() / 12);
  for (const PaperSample& sample : reading.samples.paper) canvas.dot(map.from_mm(sample.place), thin * 1.4);
  canvas.line(map.rectangle({0, 0, reading.chart.width_mm, reading.chart.height_mm}), {2.2 * thin});
  for (const ChartWindow& window : reading.chart.windows)
    canvas.line(map.rectangle(window.place), {1.6 * thin});
  for (const PatchSample& sample : reading.samples.patches) {
    if (sample.patch >= reading.chart.patches.size()) continue;
    const RectangleMm& place = reading.chart.patches[sample.patch].place;
    patch_boxes.push_back(bounds_of(map.rectangle(place)));
    canvas.line(map.rectangle(place), {thin});
    if (sample.dropped) {
      const PointMm top_left{place.x, place.y}, bottom_right{place.x + place.width, place.y + place.height};
      canvas.line(map.side(top_left, bottom_right), {1.5 * thin, false, false});
      canvas.line(map.side({bottom_right.x, top_left.y}, {top_left.x, bottom_right.y}),
                  {1.5 * thin, false, false});
    }
  }
}

}  // namespace

Result<std::string> draw_overlay(const Photo& photo, const PhotoReading& reading,
                                 const OverlayOptions& options) {
  return draw_overlay(photo, reading, reading.readings, options);
}

Result<std::string> draw_overlay(const Photo& photo, const PhotoReading& reading,
                                 const std::vector<Reading>& readings, const OverlayOptions& options) {
  const int longest = std::max(photo.width_px(), photo.height_px());
  if (longest <= 0)
    return fail(ErrorCode::bad_call, "Drawing an overlay needs a photo, this one has no pixels.",
                "Decode a photo first.");
  const Image8 picture = photo_preview(photo, options.longest_px);
  const int picture_longest = std::max(picture.rows, picture.columns);
  const double enlargement = std::max(1.0, static_cast<double>(options.shortest_px) / picture_longest);
  const double text_px = picture_longest * enlargement * text_share, margin = text_px;
  const std::string strip = strip_text(photo, reading);

  const OverlayCanvas trial(Image8(1, 1, 3), 1, 0, text_px);
  const double strip_wrap = std::round(picture.columns * enlargement) - 2 * margin;
  const int strip_px = static_cast<int>(trial.text_size(strip, strip_wrap).height + 2 * margin);
  OverlayCanvas canvas(picture, enlargement, strip_px, text_px);
  if (!canvas.sound()) return canvas.png();

  const CanvasMap map{reading.sheet.placement, canvas.width() / photo.width_px()};
  std::vector<CanvasBox> patch_boxes;
  draw_sheet_marks(canvas, map, reading, patch_boxes);
  std::vector<std::vector<PointPx>> outlines;
  for (const Reading& item : readings) {
    const auto loops = map.outlines(item);
    for (const auto& loop : loops) canvas.line(loop, {std::max(1.5, text_px / 7), item.refused.has_value()});
    outlines.push_back(loops.empty() ? std::vector<PointPx>{} : loops.front());
  }
  draw_labels(canvas, readings, outlines, patch_boxes);
  canvas.box({0, canvas.picture_height(), canvas.width(), static_cast<double>(strip_px)}, 0.13, 1);
  canvas.text(strip, {margin, canvas.picture_height() + margin}, strip_wrap);
  return canvas.png();
}

}  // namespace colorlib
