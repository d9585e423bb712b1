#pragma once
/// Which times a series leaves open: profile likelihood on a grid, since the onset is a hinge.

#include <colorlib/base/progress.hpp>
#include <colorlib/reaction/shape_fit_internal.hpp>

namespace colorlib {

/// `open`: the sum of squares stays below the limit as far as times were looked for.
struct OpenInterval {
  double low = 0, high = 0;
  bool open_low = false, open_high = false;
};

/// All in seconds. Half times count from the onset, the others as series time.
struct TimeIntervals {
  OpenInterval onset, half_time, second_half_time, to_90, to_95;
};

/// For each time the values that some curve with a sum of squares up to `limit` has [Venzon1988]. `fit` is a
/// one_step or two_steps fit, `limit` above its sum. Once cancelled the intervals mean nothing.
TimeIntervals time_intervals(const PathRegression& regression, const ShapeFit& fit, const TimesRange& range,
                             double limit, const Progress& progress);

}  // namespace colorlib
