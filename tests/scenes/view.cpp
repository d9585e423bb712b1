#include "tests/scenes/view.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace colorlib::scenes {
namespace {
constexpr double degree = std::numbers::pi / 180;
}

View::View(const ViewSettings& settings, const CurlSettings& curl, double sheet_width_mm,
           double sheet_height_mm)
    : View(settings, curl, sheet_width_mm, sheet_height_mm, Extent{0, 0, sheet_width_mm, sheet_height_mm}) {}

View::View(const ViewSettings& settings, const CurlSettings& curl, double sheet_width_mm,
           double sheet_height_mm, const Extent& framed)
    : settings_(settings), curl_(curl), centre_x_mm_(sheet_width_mm / 2), centre_y_mm_(sheet_height_mm / 2) {
  if (curl.sag_mm > 0) {
    cos_axis_ = std::cos(curl.axis_deg * degree);
    sin_axis_ = std::sin(curl.axis_deg * degree);
    const double length = std::abs(sheet_width_mm * cos_axis_) + std::abs(sheet_height_mm * sin_axis_);
    radius_mm_ = length * length / (8 * curl.sag_mm);
  }
  // The camera leans by the tilt towards `t`, looking at the sheet's centre.
  const double tilt = settings.tilt_deg * degree, lean = settings.tilt_direction_deg * degree;
  const Point3 t{std::cos(lean), std::sin(lean), 0};
  const Point3 axis{std::sin(tilt) * t.x, std::sin(tilt) * t.y, std::cos(tilt)};  // sheet -> camera
  forward_ = -1.0 * axis;
  const Point3 t_leaned{std::cos(tilt) * t.x, std::cos(tilt) * t.y, -std::sin(tilt)};
  const auto leaned = [&](const Point3& v) { return (v - dot(v, t) * t) + dot(v, t) * t_leaned; };
  const Point3 r0 = leaned({1, 0, 0}), d0 = leaned({0, 1, 0});
  const double turn = settings.rotation_deg * degree;
  right_ = std::cos(turn) * r0 + std::sin(turn) * d0;
  down_ = -std::sin(turn) * r0 + std::cos(turn) * d0;
  focal_px_ = settings.focal_share * settings.width_px;

  // Step back until the frame's contents span `fill` of the frame, then move it within the free margin.
  const double half_w = (settings.width_px - 1) / 2.0, half_h = (settings.height_px - 1) / 2.0;
  const Point3 target{(framed.left + framed.right) / 2, (framed.top + framed.bottom) / 2, 0};
  const double across = framed.right - framed.left, along = framed.bottom - framed.top;
  double distance = 2 * std::max(across, along);
  for (int round = 0; round < 30; ++round) {
    camera_ = target + distance * axis;
    double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
    offset_x_px_ = offset_y_px_ = 0;
    for (int i = 0; i <= 16; ++i)
      for (int side = 0; side < 4; ++side) {
        const double s = i / 16.0;
        const PointMm p = side == 0   ? PointMm{framed.left + s * across, framed.top}
                          : side == 1 ? PointMm{framed.left + s * across, framed.bottom}
                          : side == 2 ? PointMm{framed.left, framed.top + s * along}
                                      : PointMm{framed.right, framed.top + s * along};
        const PointPx q = px_from_mm(p);
        left = std::min(left, q.x), right = std::max(right, q.x), top = std::min(top, q.y),
        bottom = std::max(bottom, q.y);
      }
    const double span = std::max((right - left) / (2 * half_w), (bottom - top) / (2 * half_h));
    distance *= span / settings.fill;
    if (round == 29) {
      const double free_x = half_w - (right - left) / 2, free_y = half_h - (bottom - top) / 2;
      offset_x_px_ = half_w - (left + right) / 2 + 0.8 * settings.shift_x * free_x;
      offset_y_px_ = half_h - (top + bottom) / 2 + 0.8 * settings.shift_y * free_y;
    }
  }
}

Point3 View::surface_point(const PointMm& p) const {
  if (!curled()) return {p.x, p.y, 0};
  const double dx = p.x - centre_x_mm_, dy = p.y - centre_y_mm_;
  const double s = dx * cos_axis_ + dy * sin_axis_, across = -dx * sin_axis_ + dy * cos_axis_;
  const double angle = s / radius_mm_, along = radius_mm_ * std::sin(angle);
  const double rise = radius_mm_ * (1 - std::cos(angle));
  return {centre_x_mm_ + along * cos_axis_ - across * sin_axis_,
          centre_y_mm_ + along * sin_axis_ + across * cos_axis_, curl_.edges_up ? rise : curl_.sag_mm - rise};
}

Point3 View::surface_normal(const PointMm& p) const {
  if (!curled()) return {0, 0, 1};
  const double s = (p.x - centre_x_mm_) * cos_axis_ + (p.y - centre_y_mm_) * sin_axis_;
  const double angle = (curl_.edges_up ? 1 : -1) * s / radius_mm_;
  return {-std::sin(angle) * cos_axis_, -std::sin(angle) * sin_axis_, std::cos(angle)};
}

Point3 View::towards_camera(const Point3& p) const {
  const Point3 d = camera_ - p;
  return 1 / std::sqrt(dot(d, d)) * d;
}

PointPx View::distorted(const PointPx& q) const {
  const double cx = (settings_.width_px - 1) / 2.0 + settings_.decentring_px,
               cy = (settings_.height_px - 1) / 2.0;
  const double dx = q.x - cx, dy = q.y - cy;
  const double r2 = (dx * dx + dy * dy) / (0.25 * (settings_.width_px * double(settings_.width_px) +
                                                   settings_.height_px * double(settings_.height_px)));
  const double factor = 1 + r2 * (settings_.distortion + r2 * settings_.distortion_fifth);
  return {cx + dx * factor, cy + dy * factor};
}

PointPx View::undistorted(const PointPx& p) const {
  PointPx q = p;
  for (int i = 0; i < 25; ++i) {
    const PointPx made = distorted(q);
    const double ex = p.x - made.x, ey = p.y - made.y;
    q.x += ex, q.y += ey;
    if (std::abs(ex) + std::abs(ey) < 1e-9) break;
  }
  return q;
}

PointPx View::px_from_point(const Point3& p) const {
  const Point3 v = p - camera_;
  const double z = dot(v, forward_);
  return distorted({(settings_.width_px - 1) / 2.0 + offset_x_px_ + focal_px_ * dot(v, right_) / z,
                    (settings_.height_px - 1) / 2.0 + offset_y_px_ + focal_px_ * dot(v, down_) / z});
}

PointPx View::px_from_mm(const PointMm& p) const { return px_from_point(surface_point(p)); }

PointMm View::mm_from_px(const PointPx& p) const {
  const PointPx q = undistorted(p);
  const double u = (q.x - (settings_.width_px - 1) / 2.0 - offset_x_px_) / focal_px_;
  const double v = (q.y - (settings_.height_px - 1) / 2.0 - offset_y_px_) / focal_px_;
  const Point3 ray = forward_ + u * right_ + v * down_;
  if (!curled()) {
    const double t = -camera_.z / ray.z;
    return {camera_.x + t * ray.x, camera_.y + t * ray.y};
  }
  // Cylinder (a, z): a^2 + (z - zc)^2 = R^2, the lower wall for edges up, the upper wall else.
  const double a0 = (camera_.x - centre_x_mm_) * cos_axis_ + (camera_.y - centre_y_mm_) * sin_axis_;
  const double da = ray.x * cos_axis_ + ray.y * sin_axis_;
  const double zc = curl_.edges_up ? radius_mm_ : curl_.sag_mm - radius_mm_;
  const double z0 = camera_.z - zc;
  const double qa = da * da + ray.z * ray.z, qb = a0 * da + z0 * ray.z,
               qc = a0 * a0 + z0 * z0 - radius_mm_ * radius_mm_;
  const double root = std::sqrt(std::max(0.0, qb * qb - qa * qc));
  const double t = (-qb + (curl_.edges_up ? root : -root)) / qa;
  const Point3 hit = camera_ + t * ray;
  const double a = a0 + t * da;
  const double s = radius_mm_ * std::asin(std::clamp(a / radius_mm_, -1.0, 1.0));
  const double across = -(hit.x - centre_x_mm_) * sin_axis_ + (hit.y - centre_y_mm_) * cos_axis_;
  return {centre_x_mm_ + s * cos_axis_ - across * sin_axis_,
          centre_y_mm_ + s * sin_axis_ + across * cos_axis_};
}

}  // namespace colorlib::scenes
