#include <algorithm>
#include <cmath>
#include <colorlib/calibration/uncertainty_ellipse.hpp>

namespace colorlib {

UncertaintyEllipse ellipse_ab(const Matrix3& lab_covariance) {
  constexpr double quantile = 5.991464547;  // chi-squared, 2 degrees of freedom, 95 %: -2 ln 0.05
  const double aa = lab_covariance(1, 1), bb = lab_covariance(2, 2),
               ab = (lab_covariance(1, 2) + lab_covariance(2, 1)) / 2;
  const double mean = (aa + bb) / 2, radius = std::hypot((aa - bb) / 2, ab);
  UncertaintyEllipse ellipse;
  ellipse.long_axis = std::sqrt(quantile * std::max(0.0, mean + radius));
  ellipse.short_axis = std::sqrt(quantile * std::max(0.0, mean - radius));
  ellipse.angle_rad = 0.5 * std::atan2(2 * ab, aa - bb);
  return ellipse;
}

}  // namespace colorlib
