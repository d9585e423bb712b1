#pragma once
/// One shape of curve fitted to a path: the best times and how well they do.

#include <colorlib/reaction/path_regression_internal.hpp>

namespace colorlib {

/// Where times are looked for. Rates are natural logarithms of 1/s.
struct TimesRange {
  double earliest_s = 0, latest_s = 0;  ///< of the onset
  double slowest = 0, fastest = 0;      ///< ln k
};
/// An onset from the application (or the first frame) to the last frame; half times from a twentieth of the
/// shortest gap between frames, which looks like a jump, to ten times the series, which looks like a straight
/// line.
TimesRange times_range(const std::vector<double>& seconds, bool zero_is_application);

struct ShapeFit {
  PathShape shape = PathShape::constant;
  std::vector<double> times;  ///< onset_s, ln k1, ln k2 as far as the shape has them; k1 >= k2
  double sum_of_squares = 0;
};

/// The smallest sum of squares over the whole range. The onset is a hinge, so that the sum has a kink
/// wherever the onset passes a frame: a coarse grid finds the promising stretches between frames, and least
/// squares ends the search within each.
ShapeFit fit_shape(const PathRegression& regression, PathShape shape, const TimesRange& range);

}  // namespace colorlib
