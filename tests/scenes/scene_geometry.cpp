#include "tests/scenes/scene_geometry.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace colorlib::scenes {

double vignette_at(const ViewSettings& view, double vignetting, double x_px, double y_px) {
  const double dx = x_px - (view.width_px - 1) / 2.0, dy = y_px - (view.height_px - 1) / 2.0;
  const double r2 = (dx * dx + dy * dy) * 4 /
                    (double(view.width_px) * view.width_px + double(view.height_px) * view.height_px);
  return 1 - vignetting * (0.7 * r2 + 0.3 * r2 * r2);
}

NodeGrid::NodeGrid(const View& view, const std::vector<LightField>& fields, double vignetting) {
  const ViewSettings& v = view.settings();
  columns_ = (v.width_px - 1) / step + 2;
  rows_ = (v.height_px - 1) / step + 2;
  nodes_.resize(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(columns_));
  for (int row = 0; row < rows_; ++row)
    for (int column = 0; column < columns_; ++column) {
      Node& node = nodes_[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
                          static_cast<std::size_t>(column)];
      const PointMm p = view.mm_from_px({double(column) * step, double(row) * step});
      node.x_mm = static_cast<float>(p.x);
      node.y_mm = static_cast<float>(p.y);
      node.vignette = static_cast<float>(vignette_at(v, vignetting, column * step, row * step));
      const Point3 place = view.surface_point(p), normal = view.surface_normal(p);
      for (std::size_t l = 0; l < fields.size(); ++l)
        node.light[l] = node.vignette * static_cast<float>(fields[l].at(place, normal));
    }
}

std::vector<EllipseShape> specimen_places(const SceneSettings& settings, const ChartDefinition& chart) {
  std::vector<EllipseShape> places;
  const bool split = settings.substrate == Substrate::half_black_half_white || !chart.backings.empty();
  for (std::size_t i = 0; i < settings.specimens.size(); ++i) {
    const SpecimenSettings& s = settings.specimens[i];
    if (s.place_mm) {
      places.push_back(*s.place_mm);
      continue;
    }
    if (chart.windows.empty())
      throw std::runtime_error("the chart has no window for the specimens of a scene");
    bool placed = false;
    for (int attempt = 0; attempt < 6000 && !placed; ++attempt) {
      // One sequence an attempt and a specimen: adding a specimen moves none of those before it.
      Random random(settings.seed * 1000003 + static_cast<std::uint64_t>(attempt), 300 + i);
      const ChartWindow& window =
          chart.windows[static_cast<std::size_t>(random.below(static_cast<int>(chart.windows.size())))];
      const double shrink = std::max(0.35, 1 - attempt / 6000.0);
      EllipseShape e;
      e.radius_x = s.radius_mm * shrink * random.uniform(0.88, 1.12);
      e.radius_y = s.radius_mm * shrink * random.uniform(0.88, 1.12);
      const double reach = 1.45 * std::max(e.radius_x, e.radius_y) + 1;
      const RectangleMm& w = window.place;
      if (w.width < 2 * reach || w.height < 2 * reach) continue;
      e.x = random.uniform(w.x + reach, w.x + w.width - reach);
      e.y = random.uniform(w.y + reach, w.y + w.height - reach);
      if (split) e.x = w.x + w.width / 2;  // across both grounds
      placed = std::all_of(places.begin(), places.end(), [&](const EllipseShape& o) {
        return std::hypot(o.x - e.x, o.y - e.y) > reach + 1.45 * std::max(o.radius_x, o.radius_y);
      });
      if (placed) places.push_back(e);
    }
    if (!placed) throw std::runtime_error("specimen '" + s.id + "' does not fit the chart's windows");
  }
  return places;
}

}  // namespace colorlib::scenes
