#include <cmath>
#include <colorlib/chart/placement.hpp>

namespace colorlib {
namespace {

/// Solves r (1 + k r^2) = distorted for r >= 0.
double undistorted_radius(double distorted, double k) {
  if (k == 0 || distorted == 0) return distorted;
  double upper = distorted;  // of the branch that starts at 0
  if (k < 0) {
    upper = 1 / std::sqrt(-3 * k);
    if (distorted >= upper * (1 + k * upper * upper)) return upper;
  }
  double r = std::fmin(distorted, upper);
  for (int step = 0; step < 50; ++step) {
    const double slope = 1 + 3 * k * r * r;
    if (slope <= 1e-12) return r;
    double next = r - (r * (1 + k * r * r) - distorted) / slope;
    if (k < 0) next = std::fmin(next, 0.5 * (r + upper));  // stay on this side of the fold
    if (std::fabs(next - r) < 1e-14) return next;
    r = next;
  }
  return r;
}

}  // namespace

PointPx Placement::px_from_mm(const PointMm& p) const {
  const Vector3 q = homography * Vector3{p.x, p.y, 1};
  const double x = q[0] / q[2] - centre.x, y = q[1] / q[2] - centre.y;
  const double stretch = 1 + radial * (x * x + y * y) / (half_diagonal_px * half_diagonal_px);
  return {centre.x + x * stretch, centre.y + y * stretch};
}

PointMm Placement::mm_from_px(const PointPx& p) const {
  double x = p.x - centre.x, y = p.y - centre.y;
  const double distorted = std::hypot(x, y) / half_diagonal_px;
  if (distorted > 0) {
    const double shrink = undistorted_radius(distorted, radial) / distorted;
    x *= shrink;
    y *= shrink;
  }
  const Vector3 q = inverse(homography) * Vector3{centre.x + x, centre.y + y, 1};
  return {q[0] / q[2], q[1] / q[2]};
}

std::array<double, 4> Placement::jacobian(const PointMm& p) const {
  const Vector3 q = homography * Vector3{p.x, p.y, 1};
  const double u = q[0] / q[2], v = q[1] / q[2];
  // Ideal px by mm: quotient rule on the homogeneous coordinates.
  const double ux = (homography(0, 0) - u * homography(2, 0)) / q[2];
  const double uy = (homography(0, 1) - u * homography(2, 1)) / q[2];
  const double vx = (homography(1, 0) - v * homography(2, 0)) / q[2];
  const double vy = (homography(1, 1) - v * homography(2, 1)) / q[2];
  // Seen px by ideal px.
  const double x = u - centre.x, y = v - centre.y;
  const double k = radial / (half_diagonal_px * half_diagonal_px);
  const double stretch = 1 + k * (x * x + y * y);
  const double xx = stretch + 2 * k * x * x, xy = 2 * k * x * y, yy = stretch + 2 * k * y * y;
  return {xx * ux + xy * vx, xx * uy + xy * vy, xy * ux + yy * vx, xy * uy + yy * vy};
}

double Placement::px_per_mm(const PointMm& p) const {
  const auto j = jacobian(p);
  return std::sqrt(std::fabs(j[0] * j[3] - j[1] * j[2]));
}

}  // namespace colorlib
