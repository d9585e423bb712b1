#include <Eigen/Dense>
#include <algorithm>
#include <boost/math/distributions/gamma.hpp>
#include <cmath>
#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {

Vector3 expanded_uncertainty(const Matrix3& covariance) {
  return {2 * std::sqrt(std::max(covariance(0, 0), 0.0)), 2 * std::sqrt(std::max(covariance(1, 1), 0.0)),
          2 * std::sqrt(std::max(covariance(2, 2), 0.0))};
}

double expanded_de00(const Lab& lab, const Matrix3& covariance) {
  const Matrix3 root = ciede2000_metric_root(lab);
  const Matrix3 weighted = root * covariance * transpose(root);
  // Sum of eigenvalues and of their squares are traces; no decomposition is needed.
  const double mean = weighted(0, 0) + weighted(1, 1) + weighted(2, 2);
  const Matrix3 squared = weighted * weighted;
  const double variance = 2 * (squared(0, 0) + squared(1, 1) + squared(2, 2));
  if (!(mean > 0) || !(variance > 0)) return 0;
  const boost::math::gamma_distribution<double> form(mean * mean / variance, variance / mean);
  return std::sqrt(boost::math::quantile(form, 0.95));
}

Vector3 proportional_light_direction(const Lab& lab) {
  const Xyz xyz = xyz_from_lab(lab, white_d50);
  return lab_jacobian(xyz, white_d50) * vector_from(xyz);
}

Matrix3 outer(const Vector3& v) {
  Matrix3 m;
  for (int r = 0; r < 3; ++r)
    for (int c = 0; c < 3; ++c) m(r, c) = v[static_cast<std::size_t>(r)] * v[static_cast<std::size_t>(c)];
  return m;
}

}  // namespace colorlib
