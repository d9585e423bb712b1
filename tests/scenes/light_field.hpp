#pragma once
/// How much light arrives where.

#include <colorlib/calibration/light_kind.hpp>

#include "tests/scenes/lights.hpp"
#include "tests/scenes/view.hpp"

namespace colorlib::scenes {

enum class LightShape { lamp, window, sky };

/// One light of a scene: colour and place. Its field is scaled so that it gives `share` at the sheet's centre
/// (unshadowed).
struct LightSettings {
  LightColor color;
  LightKind kind = LightKind::lamp;  ///< as its user would call it
  LightShape shape = LightShape::lamp;
  double share = 1;
  Point3 place{0, -300, 500};  ///< mm from the sheet's centre; of a window its middle
  double width_mm = 80;        ///< of the source, seen as a square: large sources cast soft light
  double even_share = 0.2;     ///< of its light that the room throws back from everywhere
  // A soft shadow edge: the light's direct part falls by `shadow_depth` beyond a line.
  double shadow_depth = 0;
  double shadow_x_mm = 0, shadow_y_mm = 0, shadow_angle_deg = 0, shadow_width_mm = 30;
};

class LightField {
 public:
  LightField() = default;
  LightField(const LightSettings& settings, double sheet_width_mm, double sheet_height_mm);
  /// Irradiance at a point with a surface normal, relative to a sheet's centre in the plane.
  double at(const Point3& point, const Point3& normal) const;

 private:
  double direct(const Point3& point, const Point3& normal) const;

  LightSettings settings_;
  double centre_x_mm_ = 0, centre_y_mm_ = 0, unit_ = 1;
};

}  // namespace colorlib::scenes
