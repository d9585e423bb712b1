#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/reaction/first_frame.hpp>
#include <colorlib/specimen/region_reading.hpp>

namespace colorlib {
namespace {

bool is_treated(RegionKind kind) {
  return kind == RegionKind::spot || kind == RegionKind::bruise || kind == RegionKind::water;
}
bool is_spot(RegionKind kind) { return kind == RegionKind::spot || kind == RegionKind::bruise; }

RectangleMm around(const Region& region, const FirstFrameOptions& options, const ChartDefinition& chart) {
  const auto [left, top, right, bottom] = region.bounds();
  const double margin =
      std::max(options.least_margin_mm, options.margin_share * 0.5 * std::max(right - left, bottom - top));
  RectangleMm bounds{0, 0, chart.width_mm, chart.height_mm};
  const PointMm centre{(left + right) / 2, (top + bottom) / 2};
  for (const auto& window : chart.windows)  // never over the printed patches, which stand still
    if (window.place.contains(centre)) bounds = window.place;
  const double x0 = std::max(bounds.x, left - margin), y0 = std::max(bounds.y, top - margin);
  return {x0, y0, std::min(bounds.x + bounds.width, right + margin) - x0,
          std::min(bounds.y + bounds.height, bottom + margin) - y0};
}

Region moved_region(const Region& region, const Movement& movement, const PointMm& centre) {
  Region moved = region;
  if (auto* ellipse = std::get_if<EllipseShape>(&moved.shape)) {
    const PointMm p = moved_point(movement, centre, {ellipse->x, ellipse->y});
    ellipse->x = p.x, ellipse->y = p.y;
  } else if (auto* polygon = std::get_if<PolygonShape>(&moved.shape)) {
    for (auto& point : polygon->points) {
      const PointMm p = moved_point(movement, centre, {point[0], point[1]});
      point = {p.x, p.y};
    }
  }
  return moved;
}

/// Inside the region when it is grown about its middle.
bool in_grown(const Region& region, const PointMm& p, double grown) {
  const auto [left, top, right, bottom] = region.bounds();
  const double x = (left + right) / 2, y = (top + bottom) / 2;
  return region.contains(x + (p.x - x) / grown, y + (p.y - y) / grown);
}

/// Without untreated tissue: the stillest corner of a spot's own window, where the stain has not come yet.
std::optional<double> corner_noise(const ChangeMap& map) {
  std::optional<double> least;
  const RectangleMm& w = map.place;
  const double radius = 0.15 * std::min(w.width, w.height);
  for (const double x : {w.x + radius, w.x + w.width - radius})
    for (const double y : {w.y + radius, w.y + w.height - radius}) {
      const auto here =
          map_noise_de00(map, {"corner", RegionKind::control, {}, EllipseShape{x, y, radius, radius}});
      if (here) least = std::min(least.value_or(*here), *here);
    }
  return least;
}

}  // namespace

FirstFrame::FirstFrame(const Photo& photo, const PhotoReading& reading, const ReadRequest& request,
                       FirstFrameOptions options)
    : options_(std::move(options)) {
  if (!request.regions || request.regions->frame != RegionFrame::chart_mm) return;
  for (const Region& region : request.regions->items) {
    Part part;
    part.region = region;
    for (const Reading& r : reading.readings)
      if (r.id == region.id && !r.refused) part.xyz = xyz_from_lab(r.lab, white_d50);
    const auto window_at = [&](const RectangleMm& place, double px_per_mm) {
      return rectified_window(photo, reading.sheet.placement, reading.calibration, place, px_per_mm);
    };
    const RectangleMm place = around(region, options_, reading.chart);
    part.window = window_at(place, options_.px_per_mm);
    part.look = window_at(place, options_.px_per_mm / 2);
    const auto [left, top, right, bottom] = region.bounds();
    part.core = window_at({left, top, right - left, bottom - top}, options_.px_per_mm);
    parts_.push_back(std::move(part));
  }
  constexpr double outside_treated = 1.15;
  const auto untreated = [&](const PointMm& p) { return !in_treated(p, outside_treated); };
  for (Part& part : parts_) {
    part.finder = MovementFinder(part.window, untreated, options_.alignment);
    part.look_finder = MovementFinder(part.look, untreated, options_.alignment);
  }
}

bool FirstFrame::in_treated(const PointMm& p, double grown) const {
  return std::any_of(parts_.begin(), parts_.end(), [&](const Part& part) {
    return is_treated(part.region.kind) && in_grown(part.region, p, grown);
  });
}

Vector3 FirstFrame::control_factor(const PhotoReading& reading, const Region& spot, RegionKind kind) const {
  Vector3 sum{};
  double count = 0;
  for (const Part& part : parts_) {
    const auto& named = spot.controls;
    if (!named.empty() && std::find(named.begin(), named.end(), part.region.id) == named.end()) continue;
    if (part.region.kind != kind || part.region.id == spot.id || !(part.xyz.y > 0)) continue;
    for (const Reading& r : reading.readings) {
      if (r.id != part.region.id || r.refused) continue;
      const Xyz now = xyz_from_lab(r.lab, white_d50);
      sum[0] += now.x / part.xyz.x, sum[1] += now.y / part.xyz.y, sum[2] += now.z / part.xyz.z;
      count += 1;
    }
  }
  if (count == 0) return {1, 1, 1};
  for (double& v : sum) v /= count;
  return sum;
}

double FirstFrame::wetting_de00(const PhotoReading& reading, const Region& spot, const Vector3& light) const {
  if (spot.kind != RegionKind::spot) return 0;
  const Vector3 wet = control_factor(reading, spot, RegionKind::water);
  for (const Part& part : parts_)
    if (part.region.id == spot.id && part.xyz.y > 0)
      return difference_ciede2000(
          lab_from_xyz(part.xyz, white_d50),
          lab_from_xyz({part.xyz.x * wet[0] / light[0], part.xyz.y * wet[1] / light[1],
                        part.xyz.z * wet[2] / light[2]},
                       white_d50));
  return 0;
}

FrameComparison FirstFrame::compare(const Photo& photo, PhotoReading& reading, const ReadRequest& request,
                                    const Namer& namer) const {
  FrameComparison result;
  const auto window_at = [&](const RectangleMm& place, double px_per_mm) {
    return rectified_window(photo, reading.sheet.placement, reading.calibration, place, px_per_mm);
  };
  std::vector<PointMm> shifts(parts_.size(), PointMm{0, 0});
  std::size_t followable = 0, lost = 0;
  double best = -1;
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    const Part& part = parts_[i];
    if (part.finder.contrast() < options_.alignment.least_contrast) continue;
    const auto still = part.look_finder.if_still(window_at(part.look.place, part.look.px_per_mm));
    const Movement movement =
        still ? *still : part.finder.movement_to(window_at(part.window.place, part.window.px_per_mm));
    ++followable;
    lost += movement.quality < options_.lost_quality;
    best = std::max(best, movement.quality);
    RegionMovement moved{part.region.id, movement, false};
    const bool far = std::hypot(movement.dx_mm, movement.dy_mm) > options_.least_movement_mm ||
                     std::abs(movement.turn_deg) > options_.least_turn_deg;
    if (far && movement.quality >= options_.trusted_quality &&
        movement.quality - movement.quality_unmoved >= options_.quality_gain) {
      moved.followed = true;
      const Region there = moved_region(part.region, movement, part.window.place.centre());
      for (Reading& r : reading.readings)
        if (r.id == part.region.id)
          r = read_region(photo, reading.sheet.placement, reading.calibration, reading.chart, there,
                          RegionFrame::chart_mm, request.height_mm, reading.sheet.blur_px, namer);
      // The map follows by the shift alone: a small turn changes it by less than a pixel.
      shifts[i] = {movement.dx_mm, movement.dy_mm};
    }
    result.movements.push_back(std::move(moved));
  }
  if (followable > 0 && lost == followable)
    result.untrusted =
        Error{ErrorCode::untrustworthy,
              fmt::format("What lies in the regions does not look like the first frame any more: its "
                          "outlines agree to {:.2f} at "
                          "best, {:.2f} is needed.",
                          best, options_.lost_quality),
              "Look whether a hand, a shadow or another piece lies there; leave the frame out if so."};

  const auto now_at = [&](std::size_t part, const RectifiedWindow& before) {
    RectangleMm place = before.place;
    place.x += shifts[part].x, place.y += shifts[part].y;
    return window_at(place, before.px_per_mm);
  };
  // The map's own noise, in untreated tissue.
  std::optional<double> noise;
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    const Part& part = parts_[i];
    if (part.region.kind != RegionKind::control || part.core.empty()) continue;
    const auto here = map_noise_de00(change_map(part.core, now_at(i, part.core),
                                                control_factor(reading, part.region, RegionKind::control)),
                                     part.region);
    if (here) noise = std::max(noise.value_or(0), *here);
  }
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    const Part& part = parts_[i];
    if (!is_spot(part.region.kind) || part.window.empty()) continue;
    const Vector3 light = control_factor(reading, part.region, RegionKind::control);
    const ChangeMap map = change_map(part.window, now_at(i, part.window), light);
    ChangedAreaOptions options = options_.area;
    options.wetting_de00 = wetting_de00(reading, part.region, light);
    result.areas.push_back(changed_area(map, part.region, noise ? noise : corner_noise(map), options));
  }
  return result;
}

}  // namespace colorlib
