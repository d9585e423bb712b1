#pragma once
/// Means that one wrong result does not carry away.

#include <colorlib/colorimetry/color_types.hpp>
#include <vector>

namespace colorlib {

/// Of single numbers, in their unit.
struct RobustMean {
  double mean = 0;                  ///< x*
  double standard_deviation = 0;    ///< s*, between the results
  double standard_uncertainty = 0;  ///< u(x_pt) = 1.25 s* / sqrt(p)
  int iterations = 0;
};

/// Algorithm A of [ISO13528, annex C]: start at the median and 1.483 times the median deviation, then pull
/// values further than 1.5 s* to that bound, until the mean and s* move by less than 1e-12 s* or
/// `most_iterations` are done. Where more than half of the values are identical, the median deviation is 0
/// and the start is 1.2533 times the mean deviation instead. One value: s* = 0. `values` finite, not empty.
RobustMean algorithm_a(const std::vector<double>& values, int most_iterations = 1000);

/// Of colours.
struct RobustLabMean {
  Lab mean;                         ///< D50 when the colours are
  double coordinate_deviation = 0;  ///< s*: standard deviation of one coordinate, mean over all directions
  Matrix3 spread{};                 ///< robust covariance of the colours about the mean
  Matrix3 covariance{};             ///< of the mean: 1.25^2 spread / p
  int iterations = 0;
};

/// Algorithm A carried over to three coordinates: start at the spatial median; pull colours that lie further
/// than 2.3634 s* from the mean to that sphere. The radius leaves outside what 1.5 s* does in one dimension
/// (13.4 % of a normal distribution), the factor 1.0540 makes s* true for one. Turning the a*, b* plane, or
/// all of Lab, turns the result with it, which coordinate-wise means do not. This project's own extension;
/// what is reported as consensus. `colors` finite, not empty; one colour: spread 0.
RobustLabMean robust_lab_mean(const std::vector<Lab>& colors, int most_iterations = 1000);

/// The point with the least sum of distances to `colors` [Weiszfeld1937], within 1e-9.
Lab spatial_median(const std::vector<Lab>& colors);

}  // namespace colorlib
