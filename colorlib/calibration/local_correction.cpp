#include <algorithm>
#include <cmath>
#include <colorlib/calibration/local_correction_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>

namespace colorlib {
namespace {

double kernel(const Lab& a, const Lab& b) {
  const double distance = difference_cie76(a, b) / LocalCorrection::length_lab;
  return LocalCorrection::relative_variance * std::exp(-distance * distance / 2);
}

}  // namespace

LocalCorrection::LocalCorrection(std::vector<Lab> places, const std::vector<Lab>& residuals,
                                 const std::vector<double>& weights)
    : places_(std::move(places)) {
  const auto n = static_cast<Eigen::Index>(places_.size());
  Eigen::MatrixXd covariance(n, n);
  Eigen::MatrixX3d values(n, 3);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto at = static_cast<std::size_t>(i);
    for (Eigen::Index j = 0; j < n; ++j)
      covariance(i, j) = kernel(places_[at], places_[static_cast<std::size_t>(j)]);
    covariance(i, i) += 1 / std::max(weights[at], 1e-6);
    values.row(i) << residuals[at].l, residuals[at].a, residuals[at].b;
  }
  coefficients_ = covariance.ldlt().solve(values);
}

Vector3 LocalCorrection::at(const Lab& lab) const {
  Vector3 sum{};
  for (std::size_t i = 0; i < places_.size(); ++i) {
    const double k = kernel(lab, places_[i]);
    for (std::size_t c = 0; c < 3; ++c)
      sum[c] += k * coefficients_(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(c));
  }
  return sum;
}

}  // namespace colorlib
