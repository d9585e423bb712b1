#include <algorithm>
#include <cmath>
#include <colorlib/chart/patch_sampler.hpp>
#include <colorlib/specimen/clear_places.hpp>
#include <colorlib/specimen/region_pixels.hpp>

namespace colorlib {

RegionPixels gather_pixels(const Photo& photo, const Placement& placement, const Region& region,
                           RegionFrame frame, std::size_t most, const ClearPlaces* clear) {
  RegionPixels found;
  const auto [left, top, right, bottom] = region.bounds();
  const bool on_sheet = frame == RegionFrame::chart_mm;
  const double scale =
      on_sheet ? placement.px_per_mm({(left + right) / 2, (top + bottom) / 2})
               : placement.px_per_mm(placement.mm_from_px({(left + right) / 2, (top + bottom) / 2}));
  const double pixel = on_sheet ? 1 / scale : 1;
  const double width = right - left, height = bottom - top;
  // The lattice covers the bounding box; an ellipse fills pi/4 of it, a thin polygon less.
  double step = std::max(pixel, std::sqrt(width * height * 0.8 / static_cast<double>(most)));
  step = std::max(step, std::max(width, height) / 2000);
  const bool linear = photo.encoding().kind == EncodingKind::linear_sensor;
  const double top_level = SampleOptions{}.top_level(linear);
  const double bottom_level = SampleOptions{}.bottom_level(linear);
  std::size_t inside = 0, outside = 0, clipped = 0, dark = 0;
  for (double y = top + step / 2; y < bottom; y += step) {
    const auto edges = region.crossings(y);
    std::size_t passed = 0;
    for (double x = left + step / 2; x < right; x += step) {
      while (passed < edges.size() && edges[passed] <= x) ++passed;
      if (passed % 2 == 0) continue;
      ++inside;
      const PointPx px = on_sheet ? placement.px_from_mm({x, y}) : PointPx{x, y};
      const double column = std::round(px.x), row = std::round(px.y);
      if (!(column >= 0 && row >= 0 && column < photo.width_px() && row < photo.height_px())) {
        ++outside;
        continue;
      }
      if (clear != nullptr && !clear->contains(x, y)) continue;
      const Vector3 value = photo.encoded_at(static_cast<int>(column), static_cast<int>(row));
      const auto [least, greatest] = std::minmax_element(value.begin(), value.end());
      clipped += *greatest >= top_level;
      dark += *least <= bottom_level;
      found.pixels.push_back({on_sheet ? PointMm{x, y} : placement.mm_from_px(px), value});
    }
  }
  const double area = static_cast<double>(inside) * step * step;
  found.area_mm2 = on_sheet ? area : area / (scale * scale);
  if (inside == 0) return found;
  found.outside_share = static_cast<double>(outside) / static_cast<double>(inside);
  const auto read = static_cast<double>(found.pixels.size());
  const double read_area = (read + static_cast<double>(outside)) * step * step;
  found.photo_pixels = on_sheet ? read_area * scale * scale : read_area;
  if (read > 0) {
    found.clipped_share = static_cast<double>(clipped) / read;
    found.dark_share = static_cast<double>(dark) / read;
  }
  return found;
}

}  // namespace colorlib
