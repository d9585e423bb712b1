#pragma once
/// A reading as what it is: a distribution of possible colours, here as a fixed set of equally likely ones.

#include <colorlib/colorimetry/color_types.hpp>
#include <vector>

namespace colorlib {

/// How many colours stand for a distribution.
inline constexpr std::size_t distribution_size = 4096;

/// Whether `covariance` says nothing: all zero, or not finite.
bool is_exact(const Matrix3& covariance);

/// `distribution_size` equally likely colours of the normal distribution around `lab` with `covariance` of
/// (L*, a*, b*), or `lab` alone when the covariance is exact. The same set for the same input, always:
/// a Hammersley set, shifted and scaled so that mean and covariance are met. A share counted over the set is
/// within 0.01 of the true one (tested for boxes and slabs of every size). Negative eigenvalues count as 0.
std::vector<Lab> distribution_of(const Lab& lab, const Matrix3& covariance);

/// The 95 % quantile of dE00 between `lab` and the colours of its distribution; 0 for an exact colour.
double expanded_difference(const Lab& lab, const std::vector<Lab>& distribution);

}  // namespace colorlib
