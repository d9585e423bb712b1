#pragma once
/// The sheets of a scene on their table, and what they look like to the camera.

#include <algorithm>
#include <cmath>
#include <vector>

#include "tests/scenes/scene.hpp"
#include "tests/scenes/sheet_colors.hpp"
#include "tests/scenes/sheet_map.hpp"

namespace colorlib::scenes {

/// Three floats that add and scale.
struct Rgb {
  float v[3] = {0, 0, 0};
  void add(float factor, const Rgb& other) {
    for (int k = 0; k < 3; ++k) v[k] += factor * other.v[k];
  }
};
inline Rgb rgb_from(const Vector3& c, double factor) {
  return {{static_cast<float>(factor * c[0]), static_cast<float>(factor * c[1]),
           static_cast<float>(factor * c[2])}};
}

/// Camera RGB under each light, exposure included.
using LitColor = std::array<Rgb, 2>;

/// One sheet on the table: where it lies, what it shows where, and how that looks to the camera.
struct Plane {
  ChartDefinition chart;
  SheetSettings settings;
  SheetColors colors;
  SheetMap map;
  std::vector<LitColor> material;  ///< by material id
  double x_mm = 0, y_mm = 0, cos = 1, sin = 0;

  PointMm local(double x, double y) const {
    const double dx = x - x_mm, dy = y - y_mm;
    return {cos * dx + sin * dy, -sin * dx + cos * dy};
  }
  PointMm global(const PointMm& p) const {
    return {x_mm + cos * p.x - sin * p.y, y_mm + sin * p.x + cos * p.y};
  }
  /// Distance of a point outside from the sheet's edge; 0 inside.
  double distance_mm(double x, double y) const {
    const PointMm p = local(x, y);
    return std::hypot(std::max({0.0, -p.x, p.x - chart.width_mm}),
                      std::max({0.0, -p.y, p.y - chart.height_mm}));
  }
};

/// The first sheet, with a card beside it when its chart has no window for the specimens, and the second one
/// if there is one. Colours are not lit yet: `material` is empty.
std::vector<Plane> planes_of(const SceneSettings& settings, const ChartDefinition& chart);
/// What has to be in the frame: all sheets and windows, in the first sheet's coordinates.
Extent extent_of(const std::vector<Plane>& planes);

}  // namespace colorlib::scenes
