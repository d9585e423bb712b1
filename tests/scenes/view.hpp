#pragma once
/// Where the camera stands and what its lens does: sheet mm <-> photo px. Written apart from colorlib's
/// placement.

#include <colorlib/chart/geometry.hpp>

#include "tests/scenes/random.hpp"

namespace colorlib::scenes {

/// mm; x and y as on the sheet, z up from it.
struct Point3 {
  double x = 0, y = 0, z = 0;
};
inline Point3 operator-(const Point3& a, const Point3& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
inline Point3 operator+(const Point3& a, const Point3& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
inline Point3 operator*(double s, const Point3& a) { return {s * a.x, s * a.y, s * a.z}; }
inline double dot(const Point3& a, const Point3& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }

struct ViewSettings {
  int width_px = 1600, height_px = 1200;
  double tilt_deg = 8;             ///< between the sheet's normal and the optical axis
  double tilt_direction_deg = 40;  ///< towards which side of the sheet the camera leans
  double rotation_deg = 3;         ///< of the picture about the optical axis
  double focal_share = 0.95;       ///< focal length / width in px
  double fill = 0.88;              ///< how much of the frame the sheet (or what has to be seen) spans
  double shift_x = 0,
         shift_y = 0;           ///< of the sheet's place in the frame, in shares of the free margin, -1 to 1
  double distortion = 0.01;     ///< relative shift at the frame's corner, third order; negative: barrel
  double distortion_fifth = 0;  ///< the same, fifth order
  double decentring_px = 0;     ///< distortion's centre to the right of the frame's centre
};

/// How the sheet bends: a cylinder whose axis is turned in the plane.
struct CurlSettings {
  double sag_mm = 0;     ///< 0: flat
  double axis_deg = 0;   ///< 0: the sheet's left and right ends move
  bool edges_up = true;  ///< else the middle is up
};

/// What has to be in the frame, mm in the sheet's coordinates.
struct Extent {
  double left = 0, top = 0, right = 0, bottom = 0;
};

class View {
 public:
  View() = default;
  /// The camera looks at the middle of `framed`; without it at the sheet's own.
  View(const ViewSettings& settings, const CurlSettings& curl, double sheet_width_mm, double sheet_height_mm);
  View(const ViewSettings& settings, const CurlSettings& curl, double sheet_width_mm, double sheet_height_mm,
       const Extent& framed);

  /// Photo place of a point of the sheet's surface.
  PointPx px_from_mm(const PointMm& p) const;
  PointPx px_from_point(const Point3& p) const;
  /// The point of the sheet's surface, continued beyond its edges, that a pixel sees. Exact to 1e-6 mm.
  PointMm mm_from_px(const PointPx& p) const;
  /// Where the surface's point lies in space, and the surface's normal there.
  Point3 surface_point(const PointMm& p) const;
  Point3 surface_normal(const PointMm& p) const;
  /// Unit vector from a point to the camera.
  Point3 towards_camera(const Point3& p) const;
  const ViewSettings& settings() const { return settings_; }
  bool curled() const { return radius_mm_ > 0; }

 private:
  PointPx distorted(const PointPx& ideal) const;
  PointPx undistorted(const PointPx& p) const;

  ViewSettings settings_;
  CurlSettings curl_;
  Point3 camera_, right_, down_, forward_;
  double focal_px_ = 1, offset_x_px_ = 0, offset_y_px_ = 0;
  double centre_x_mm_ = 0, centre_y_mm_ = 0, radius_mm_ = 0, cos_axis_ = 1, sin_axis_ = 0;
};

}  // namespace colorlib::scenes
