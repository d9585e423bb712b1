#include "tests/scenes/scene_planes.hpp"

namespace colorlib::scenes {
namespace {

/// A chart without windows lies beside its specimens: they get a card below it.
ChartDefinition with_ground(ChartDefinition chart, bool needed) {
  if (needed && chart.windows.empty())
    chart.windows.push_back({"beside",
                             {0.12 * chart.width_mm, chart.height_mm + 6, 0.76 * chart.width_mm,
                              std::max(55.0, 0.35 * chart.width_mm)}});
  return chart;
}

}  // namespace

std::vector<Plane> planes_of(const SceneSettings& s, const ChartDefinition& chart) {
  std::vector<Plane> planes;
  const ChartDefinition grounded = with_ground(chart, !s.specimens.empty());
  const bool split = s.substrate == Substrate::half_black_half_white && chart.backings.empty();
  planes.push_back({grounded, s.sheet, print_sheet(s, chart), SheetMap(grounded, split), {}});
  if (s.second) {
    const double turn = s.second->rotation_deg * 0.017453292519943295;
    planes.push_back({s.second->chart,
                      s.second->sheet,
                      print_sheet(s.second->sheet, s.second->chart, s.second->seed, s.reference_sd),
                      SheetMap(s.second->chart, false),
                      {},
                      s.second->x_mm,
                      s.second->y_mm,
                      std::cos(turn),
                      std::sin(turn)});
  }
  return planes;
}

Extent extent_of(const std::vector<Plane>& planes) {
  Extent e{1e9, 1e9, -1e9, -1e9};
  const auto add = [&](const PointMm& p) {
    e.left = std::min(e.left, p.x), e.right = std::max(e.right, p.x), e.top = std::min(e.top, p.y),
    e.bottom = std::max(e.bottom, p.y);
  };
  for (const Plane& plane : planes) {
    for (const PointMm& corner :
         {PointMm{0, 0}, PointMm{plane.chart.width_mm, 0},
          PointMm{plane.chart.width_mm, plane.chart.height_mm}, PointMm{0, plane.chart.height_mm}})
      add(plane.global(corner));
    for (const ChartWindow& window : plane.chart.windows) {
      add(plane.global({window.place.x, window.place.y}));
      add(plane.global({window.place.x + window.place.width, window.place.y + window.place.height}));
    }
  }
  return e;
}
PointMm first_from_second(const SecondSheet& second, const PointMm& p) {
  const double turn = second.rotation_deg * 0.017453292519943295;
  return {second.x_mm + std::cos(turn) * p.x - std::sin(turn) * p.y,
          second.y_mm + std::sin(turn) * p.x + std::cos(turn) * p.y};
}

}  // namespace colorlib::scenes
