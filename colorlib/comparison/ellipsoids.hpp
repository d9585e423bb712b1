#pragma once
/// Where readings of one thing lie in Lab: ellipsoids with limits that are honest about small numbers.

#include <array>
#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <cstddef>
#include <vector>

namespace colorlib {

/// One principal axis of a covariance.
struct EllipsoidAxis {
  double variance = 0;  ///< eigenvalue
  Vector3 direction{};  ///< of length 1 in (L*, a*, b*)
};

/// Axes of `covariance`, the shortest first. Negative eigenvalues count as 0.
std::array<EllipsoidAxis, 3> principal_axes(const Matrix3& covariance);

/// d^2 = (x - m)' S^-1 (x - m), >= 0. `covariance` must be positive definite.
double mahalanobis_squared(const Vector3& deviation, const Matrix3& covariance);

/// The limit of d^2 that holds `share` of a three-dimensional normal distribution of known covariance.
double known_limit(double share);
/// The limit of d^2 that the *next* reading keeps with probability `share`, when mean and covariance were
/// estimated from `count` readings: 3 (n-1)(n+1) / (n (n-3)) F(share; 3, n-3) [Hotelling1931]. Infinite for n
/// < 4.
double prediction_limit(std::size_t count, double share = 0.95);
/// The same for the true mean: 3 (n-1) / (n (n-3)) F(share; 3, n-3).
double confidence_limit(std::size_t count, double share = 0.95);

/// From this many readings on an ellipsoid is worth printing; with fewer its limit is over 26 times S.
inline constexpr std::size_t ellipsoid_worth_printing = 8;

struct LabEllipsoid {
  std::size_t readings = 0;
  Lab mean;
  Matrix3 covariance{};  ///< S, of the readings, with n - 1
  std::array<EllipsoidAxis, 3> axes{};
  double prediction_limit = 0, confidence_limit = 0;       ///< of d^2, 95 %
  Vector3 prediction_semi_axes{}, confidence_semi_axes{};  ///< Lab units, in the order of `axes`
};

/// Errors: bad_call with fewer than four readings, since no three-dimensional limit exists for them.
Result<LabEllipsoid> ellipsoid_of(const std::vector<Lab>& readings);

}  // namespace colorlib
