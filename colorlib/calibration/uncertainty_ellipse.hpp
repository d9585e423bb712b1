#pragma once
/// A reading's uncertainty as an ellipse in the a*b* plane.

#include <colorlib/base/small_matrix.hpp>

namespace colorlib {

/// Semi-axes in Lab units, the long one first; `angle_rad` of the long one from the a* axis towards b*, in
/// (-pi/2, pi/2].
struct UncertaintyEllipse {
  double long_axis = 0, short_axis = 0, angle_rad = 0;
};

/// The ellipse that holds 95 % of a normal distribution of (a*, b*) with this covariance of (L*, a*, b*):
/// square roots of its eigenvalues times sqrt(5.991), the 95 % quantile of chi-squared with 2 degrees of
/// freedom. Negative eigenvalues count as 0.
UncertaintyEllipse ellipse_ab(const Matrix3& lab_covariance);

}  // namespace colorlib
