#include "tests/scenes/light_field.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace colorlib::scenes {

LightField::LightField(const LightSettings& settings, double sheet_width_mm, double sheet_height_mm)
    : settings_(settings), centre_x_mm_(sheet_width_mm / 2), centre_y_mm_(sheet_height_mm / 2) {
  unit_ = 1 / std::max(1e-12, direct({centre_x_mm_, centre_y_mm_, 0}, {0, 0, 1}));
}

double LightField::direct(const Point3& point, const Point3& normal) const {
  if (settings_.shape == LightShape::sky) return 0.5 * (1 + normal.z);
  // A square source as 3 x 3 Lambertian pieces that face the sheet (lamp) or stand upright and face it
  // (window).
  const Point3 centre{centre_x_mm_, centre_y_mm_, 0};
  const Point3 place = settings_.place;
  const double length = std::sqrt(dot(place, place));
  Point3 facing = -1 / length * place;
  if (settings_.shape == LightShape::window) {
    const double flat = std::hypot(place.x, place.y);
    facing = {-place.x / flat, -place.y / flat, 0};
  }
  // Two directions across the source.
  const double flat = std::hypot(facing.x, facing.y);
  const Point3 side = flat > 1e-6 ? Point3{-facing.y / flat, facing.x / flat, 0} : Point3{1, 0, 0};
  const Point3 up{side.y * facing.z - side.z * facing.y, side.z * facing.x - side.x * facing.z,
                  side.x * facing.y - side.y * facing.x};
  double sum = 0;
  for (int i = -1; i <= 1; ++i)
    for (int j = -1; j <= 1; ++j) {
      const Point3 from =
          centre + place + (i * settings_.width_mm / 3) * side + (j * settings_.width_mm / 3) * up;
      const Point3 way = from - point;
      const double r2 = dot(way, way), r = std::sqrt(r2);
      const double arriving = dot(way, normal) / r, leaving = -dot(way, facing) / r;
      sum += std::max(0.0, arriving) * std::max(0.0, leaving) / r2;
    }
  return sum;
}

double LightField::at(const Point3& point, const Point3& normal) const {
  double shade = 1;
  if (settings_.shadow_depth > 0) {
    const double angle = settings_.shadow_angle_deg * std::numbers::pi / 180;
    const double d = (point.x - settings_.shadow_x_mm) * std::cos(angle) +
                     (point.y - settings_.shadow_y_mm) * std::sin(angle);
    const double t = std::clamp(d / settings_.shadow_width_mm + 0.5, 0.0, 1.0);
    shade = 1 - settings_.shadow_depth * t * t * (3 - 2 * t);
  }
  const double even = 0.5 * (1 + normal.z);
  return settings_.share *
         ((1 - settings_.even_share) * shade * unit_ * direct(point, normal) + settings_.even_share * even);
}

}  // namespace colorlib::scenes
