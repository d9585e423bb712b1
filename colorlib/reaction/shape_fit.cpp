#include <algorithm>
#include <cmath>
#include <colorlib/base/least_squares.hpp>
#include <colorlib/reaction/kinetic_curves.hpp>
#include <colorlib/reaction/shape_fit_internal.hpp>

namespace colorlib {
namespace {

struct Stretch {
  double from_s = 0, to_s = 0;
  std::vector<double> best;  ///< times of the best point of the grid within
  double sum_of_squares = INFINITY;
};

/// The stretches between neighbouring frames in which the onset may lie; long series are cut coarser.
std::vector<Stretch> stretches_of(const std::vector<double>& seconds, const TimesRange& range) {
  constexpr std::size_t most = 60;
  std::vector<double> cuts{range.earliest_s};
  const std::size_t stride = std::max<std::size_t>(1, seconds.size() / most);
  for (std::size_t i = 0; i < seconds.size(); i += stride)
    if (seconds[i] > range.earliest_s && seconds[i] < range.latest_s) cuts.push_back(seconds[i]);
  cuts.push_back(range.latest_s);
  std::vector<Stretch> stretches;
  for (std::size_t i = 1; i < cuts.size(); ++i)
    if (cuts[i] > cuts[i - 1]) stretches.push_back({cuts[i - 1], cuts[i], {}, INFINITY});
  return stretches;
}

void search_grid(const PathRegression& regression, PathShape shape, const TimesRange& range,
                 Stretch& stretch) {
  const int rates = shape == PathShape::one_step ? 14 : 11;
  const double step = (range.fastest - range.slowest) / (rates - 1);
  for (const double share : {0.15, 0.6}) {
    const double onset = stretch.from_s + share * (stretch.to_s - stretch.from_s);
    for (int first = 0; first < rates; ++first) {
      const double k1 = range.slowest + first * step;
      const int seconds = shape == PathShape::one_step ? 1 : first + 1;  // k2 <= k1
      for (int second = 0; second < seconds; ++second) {
        const double times[3] = {onset, k1, range.slowest + second * step};
        const double sum = regression.sum_of_squares(shape, times);
        if (sum < stretch.sum_of_squares) {
          stretch.sum_of_squares = sum;
          stretch.best.assign(times, times + times_of(shape));
        }
      }
    }
  }
}

void descend(const PathRegression& regression, PathShape shape, const TimesRange& range, Stretch& stretch) {
  LeastSquaresProblem problem;
  problem.residual_count = regression.residual_count(shape);
  // The onset runs from 0 to 1 within the stretch, the second rate is slower than the first by a factor:
  // bounds stay simple ones.
  const double length = stretch.to_s - stretch.from_s;
  const auto times_from = [&](const std::vector<double>& p) {
    std::vector<double> times{stretch.from_s + p[0] * length, p[1]};
    if (shape == PathShape::two_steps) times.push_back(p[1] - p[2]);
    return times;
  };
  problem.residuals = [&](const std::vector<double>& p, std::vector<double>& r) {
    regression.residuals(shape, times_from(p), r);
  };
  problem.start = {(stretch.best[0] - stretch.from_s) / length, stretch.best[1]};
  problem.lower = {0, range.slowest};
  problem.upper = {1, range.fastest};
  if (shape == PathShape::two_steps) {
    problem.start.push_back(stretch.best[1] - stretch.best[2]);
    problem.lower.push_back(0);
    problem.upper.push_back(range.fastest - range.slowest);
  }
  LeastSquaresOptions options;
  options.most_iterations = 60;
  options.step_tolerance = 1e-6;
  options.slope_tolerance = 1e-7;
  const auto fit = least_squares(problem, options);
  if (!fit) return;
  const auto times = times_from(fit->parameters);
  const double sum = regression.sum_of_squares(shape, times.data());
  if (sum < stretch.sum_of_squares) {
    stretch.sum_of_squares = sum;
    stretch.best = times;
  }
}

}  // namespace

TimesRange times_range(const std::vector<double>& seconds, bool zero_is_application) {
  TimesRange range;
  const double span = seconds.back() - seconds.front();
  double gap = span;
  for (std::size_t i = 1; i < seconds.size(); ++i) gap = std::min(gap, seconds[i] - seconds[i - 1]);
  range.earliest_s = zero_is_application ? std::min(0.0, seconds.back()) : seconds.front();
  range.latest_s = std::max(seconds.back(), range.earliest_s + 1e-6);
  range.fastest = std::log(rate_from_half_time(gap / 20));
  range.slowest = std::log(rate_from_half_time(10 * span));
  return range;
}

ShapeFit fit_shape(const PathRegression& regression, PathShape shape, const TimesRange& range) {
  ShapeFit fit;
  fit.shape = shape;
  if (times_of(shape) == 0) {
    fit.sum_of_squares = regression.sum_of_squares(shape, nullptr);
    return fit;
  }
  auto stretches = stretches_of(regression.seconds(), range);
  for (Stretch& stretch : stretches) search_grid(regression, shape, range, stretch);
  std::sort(stretches.begin(), stretches.end(),
            [](const Stretch& a, const Stretch& b) { return a.sum_of_squares < b.sum_of_squares; });
  constexpr std::size_t promising = 4;
  if (stretches.size() > promising) stretches.resize(promising);
  for (Stretch& stretch : stretches) descend(regression, shape, range, stretch);
  const auto best = std::min_element(
      stretches.begin(), stretches.end(),
      [](const Stretch& a, const Stretch& b) { return a.sum_of_squares < b.sum_of_squares; });
  fit.times = best->best;
  fit.sum_of_squares = best->sum_of_squares;
  return fit;
}

}  // namespace colorlib
