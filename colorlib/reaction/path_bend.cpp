#include <algorithm>
#include <cmath>
#include <colorlib/reaction/kinetic_curves.hpp>
#include <colorlib/reaction/path_bend_internal.hpp>

namespace colorlib {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::Vector3d;

/// Over this distance the calibration's error changes. The project's own figure: of the intervals of 120
/// rendered series (seeds 701 to 724 of each kind) 99.0 % cover the truth with 8 to 11, 97.4 % with 12, 95.8
/// % with 14; of others see docs/results/time_courses.md.
constexpr double bend_reach_lab = 12;
constexpr std::size_t most_places = 200;
constexpr double two_sided_95 = 1.96;

/// How far from `best` a side of an interval is with an independent part besides.
double pushed_out(double side, double best, double sd) { return std::hypot(side - best, two_sided_95 * sd); }

/// Frames taken together: where they lie on the curve, and what they do to the times.
struct Place {
  Vector3d colour = Vector3d::Zero();
  MatrixXd gain;
};

}  // namespace

double bend_correlation(const Vector3d& a, const Vector3d& b) {
  const double distance = (a - b).norm() / bend_reach_lab;
  return std::exp(-0.5 * distance * distance);
}

MatrixXd times_covariance_by_bend(const PathRegression& regression, const ShapeFit& fit,
                                  const Eigen::Matrix3d& error) {
  const auto times = static_cast<Index>(fit.times.size());
  const auto gains = regression.time_gains(fit.shape, fit.times);
  const Colours colours = regression.solve(fit.shape, fit.times.data()).colours;
  const std::size_t together = (gains.size() + most_places - 1) / most_places;
  std::vector<Place> places;
  for (std::size_t i = 0; i < gains.size(); i += together) {
    const std::size_t end = std::min(i + together, gains.size());
    Place place{Vector3d::Zero(), MatrixXd::Zero(times, 3)};
    for (std::size_t frame = i; frame < end; ++frame) {
      place.colour +=
          regression.colour_on_curve(fit.shape, fit.times.data(), colours, regression.seconds()[frame]) /
          static_cast<double>(end - i);
      place.gain += gains[frame];
    }
    places.push_back(std::move(place));
  }
  MatrixXd covariance = MatrixXd::Zero(times, times);
  for (const Place& a : places)
    for (const Place& b : places)
      covariance += bend_correlation(a.colour, b.colour) * a.gain * error * b.gain.transpose();
  return covariance;
}

TimeIntervals widened(TimeIntervals intervals, const ShapeFit& fit, const TimesRange& range,
                      const MatrixXd& covariance) {
  const double onset_sd = std::sqrt(std::max(0.0, covariance(0, 0)));
  const auto apart = [&](OpenInterval& interval, double best, double sd) {
    interval.low = best - pushed_out(std::min(interval.low, best), best, sd);
    interval.high = best + pushed_out(std::max(interval.high, best), best, sd);
  };
  apart(intervals.onset, fit.times[0], onset_sd);
  intervals.onset.low = std::max(intervals.onset.low, range.earliest_s);
  intervals.onset.high = std::min(intervals.onset.high, range.latest_s);
  // Half times as factors, so that none becomes negative.
  const auto half_time = [&](OpenInterval& interval, Index rate) {
    const double best = std::log(half_time_s(std::exp(fit.times[static_cast<std::size_t>(rate)])));
    OpenInterval in_ln{std::log(interval.low), std::log(interval.high), interval.open_low,
                       interval.open_high};
    apart(in_ln, best, std::sqrt(std::max(0.0, covariance(rate, rate))));
    interval.low = std::exp(in_ln.low);
    interval.high = std::exp(in_ln.high);
  };
  half_time(intervals.half_time, 1);
  if (covariance.rows() > 2) half_time(intervals.second_half_time, 2);
  for (const auto& [share, interval] :
       {std::pair{0.90, &intervals.to_90}, std::pair{0.95, &intervals.to_95}}) {
    const double since_onset = time_to_share_s(std::exp(fit.times[1]), share);
    const Eigen::Vector2d slope(1, -since_onset);  // d time / d (onset, ln k)
    const double variance = slope.dot(covariance.topLeftCorner<2, 2>() * slope);
    apart(*interval, fit.times[0] + since_onset, std::sqrt(std::max(0.0, variance)));
    interval->low = std::max(interval->low, range.earliest_s);  // no change is done before it can begin
  }
  return intervals;
}

}  // namespace colorlib
