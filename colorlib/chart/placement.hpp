#pragma once
/// Where a flat sheet lies in a photo: a homography and one radial term.

#include <array>
#include <colorlib/base/small_matrix.hpp>
#include <colorlib/chart/geometry.hpp>

namespace colorlib {

/// Sheet mm -> photo px. With q = homography(p) (px of an ideal lens), r^2 = |q - centre|^2 /
/// half_diagonal^2: px = centre + (q - centre) (1 + radial r^2).
struct Placement {
  Matrix3 homography = Matrix3::identity();  ///< mm -> ideal px, homogeneous
  PointPx centre;                            ///< of the photo
  double half_diagonal_px = 1;
  double radial = 0;

  /// Meaningful in front of the camera only: where the homogeneous third coordinate is positive.
  PointPx px_from_mm(const PointMm& p) const;
  /// The inverse; Newton's method on the radius, exact to 1e-6 px for |radial| <= 0.2 wherever an inverse
  /// exists. A barrel term folds the plane back far outside the photo: points beyond the fold map to the
  /// fold.
  PointMm mm_from_px(const PointPx& p) const;
  /// Local scale at `p`: geometric mean of the two axes, px per mm; from the Jacobian's determinant.
  double px_per_mm(const PointMm& p) const;
  /// d(px)/d(mm) at `p`: {dx/dx_mm, dx/dy_mm, dy/dx_mm, dy/dy_mm}, px per mm.
  std::array<double, 4> jacobian(const PointMm& p) const;
};

}  // namespace colorlib
