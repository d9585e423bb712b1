#pragma once
/// How far the calibration's error, which is not the same all along a path, moves the times fitted to it.

#include <colorlib/reaction/shape_fit_internal.hpp>
#include <colorlib/reaction/time_intervals_internal.hpp>

namespace colorlib {

/// How alike the calibration's errors are at two colours.
double bend_correlation(const Eigen::Vector3d& a, const Eigen::Vector3d& b);

/// Covariance of (onset in s, ln k1, ln k2) by an error of covariance `error` at each colour, whose
/// correlation between two colours falls with their distance as exp(-(d / reach)^2 / 2), d in Lab and reach
/// in `bend_reach_lab`. What is alike in all frames, or grows in step along the path, goes into the colours;
/// the rest bends the path. Linearised at the fit. Frames beyond 200 are taken together with their
/// neighbours.
Eigen::MatrixXd times_covariance_by_bend(const PathRegression& regression, const ShapeFit& fit,
                                         const Eigen::Matrix3d& error);

/// The intervals, each side widened by what the bend adds, as independent parts are.
TimeIntervals widened(TimeIntervals intervals, const ShapeFit& fit, const TimesRange& range,
                      const Eigen::MatrixXd& covariance);

}  // namespace colorlib
