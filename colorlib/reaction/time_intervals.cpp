#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/reaction/kinetic_curves.hpp>
#include <colorlib/reaction/time_intervals_internal.hpp>

namespace colorlib {
namespace {

constexpr std::size_t most_axes = 3, polled = 500;
using Point = std::array<double, most_axes>;

struct Box {
  Point low{}, high{};
};

/// Sums of squares on a regular grid of a box; those where the second step is the faster one stay infinite.
class Grid {
 public:
  Grid(const PathRegression& regression, PathShape shape, const Box& box, std::size_t nodes,
       const Progress& progress)
      : box_(box), axes_(static_cast<std::size_t>(times_of(shape))), nodes_(nodes) {
    std::size_t size = 1;
    for (std::size_t a = 0; a < axes_; ++a) size *= nodes_;
    sums_.assign(size, INFINITY);
    for (std::size_t i = 0; i < size; ++i) {
      if (i % polled == 0 && progress.cancelled()) return;
      const Point p = point(i);
      if (axes_ == 3 && p[2] > p[1]) continue;
      sums_[i] = regression.sum_of_squares(shape, p.data());
    }
  }

  std::size_t size() const { return sums_.size(); }
  double sum(std::size_t i) const { return sums_[i]; }
  double cell(std::size_t axis) const {
    return (box_.high[axis] - box_.low[axis]) / static_cast<double>(nodes_ - 1);
  }
  double coordinate(std::size_t axis, std::size_t node) const {
    return box_.low[axis] + static_cast<double>(node) * cell(axis);
  }
  std::size_t node(std::size_t i, std::size_t axis) const {
    for (std::size_t a = 0; a < axis; ++a) i /= nodes_;
    return i % nodes_;
  }
  Point point(std::size_t i) const {
    Point p{};
    for (std::size_t a = 0; a < axes_; ++a) p[a] = coordinate(a, node(i, a));
    return p;
  }
  /// The least sum at each node of one axis.
  std::vector<double> profile(std::size_t axis) const {
    std::vector<double> least(nodes_, INFINITY);
    for (std::size_t i = 0; i < sums_.size(); ++i)
      least[node(i, axis)] = std::min(least[node(i, axis)], sums_[i]);
    return least;
  }

 private:
  Box box_;
  std::size_t axes_, nodes_;
  std::vector<double> sums_;
};

/// Where a profile crosses the limit on the way out; deviations are compared, since sums grow as their
/// squares.
double crossing(double inside, double inside_sum, double outside, double outside_sum, double least,
                double limit) {
  const double a = std::sqrt(std::max(0.0, inside_sum - least)),
               b = std::sqrt(std::max(0.0, outside_sum - least)), c = std::sqrt(limit - least);
  return b > a ? inside + (outside - inside) * std::clamp((c - a) / (b - a), 0.0, 1.0) : inside;
}

/// A profile: places in ascending order, and the least sum of squares at each.
struct Profile {
  std::vector<double> places, sums;
};

/// From the outermost crossing on the left to that on the right; `best` is always within.
OpenInterval interval_of(const Profile& profile, double best, double least, double limit) {
  OpenInterval interval{best, best, false, false};
  for (std::size_t n = 0; n < profile.places.size(); ++n) {
    if (profile.sums[n] > limit) continue;
    const auto towards = [&](std::size_t other) {
      return std::isfinite(profile.sums[other])
                 ? crossing(profile.places[n], profile.sums[n], profile.places[other], profile.sums[other],
                            least, limit)
                 : profile.places[n];
    };
    interval.low = std::min({interval.low, profile.places[n], n > 0 ? towards(n - 1) : profile.places[n]});
    interval.high = std::max({interval.high, profile.places[n],
                              n + 1 < profile.places.size() ? towards(n + 1) : profile.places[n]});
  }
  return interval;
}

OpenInterval axis_interval(const Grid& grid, std::size_t axis, double best, double least, double limit,
                           double range_low, double range_high) {
  Profile profile{{}, grid.profile(axis)};
  for (std::size_t n = 0; n < profile.sums.size(); ++n) profile.places.push_back(grid.coordinate(axis, n));
  OpenInterval interval = interval_of(profile, best, least, limit);
  const double slack = 1e-9 * (1 + std::abs(range_high - range_low));
  interval.open_low = interval.low <= range_low + slack;
  interval.open_high = interval.high >= range_high - slack;
  return interval;
}

/// Of a moment that follows from onset and first rate: the grid's points sorted into bins of it.
OpenInterval moment_interval(const Grid& grid, double best, double since_onset_times_rate, double least,
                             double limit) {
  const auto moment = [&](std::size_t i) {
    const Point p = grid.point(i);
    return p[0] + since_onset_times_rate * std::exp(-p[1]);
  };
  // Points well outside are looked at too, so that the crossing lies between bins.
  const double outside = least + 4 * (limit - least);
  double low = best, high = best;
  for (std::size_t i = 0; i < grid.size(); ++i) {
    if (grid.sum(i) > outside) continue;
    low = std::min(low, moment(i));
    high = std::max(high, moment(i));
  }
  if (!(high > low)) return {best, best, false, false};
  constexpr std::size_t bins = 40;
  std::vector<double> places(bins, best), sums(bins, INFINITY);
  for (std::size_t i = 0; i < grid.size(); ++i) {
    if (grid.sum(i) > outside) continue;
    const double when = moment(i);
    const auto bin = std::min(bins - 1, static_cast<std::size_t>((when - low) / (high - low) * bins));
    if (grid.sum(i) >= sums[bin]) continue;
    sums[bin] = grid.sum(i);
    places[bin] = when;
  }
  Profile profile;
  for (std::size_t b = 0; b < bins; ++b) {
    if (!std::isfinite(sums[b])) continue;
    profile.places.push_back(places[b]);
    profile.sums.push_back(sums[b]);
  }
  return interval_of(profile, best, least, limit);
}

/// The box that holds the region below the limit, with a cell of margin where the range allows it.
Box enclosing_box(const PathRegression& regression, const ShapeFit& fit, const Box& whole, double limit,
                  const Progress& progress) {
  const auto axes = static_cast<std::size_t>(times_of(fit.shape));
  const std::size_t nodes = axes == 2 ? 25 : 13;
  Box box = whole;
  // Each pass looks at the bounding box of what the one before found, a cell wider. A thin oblique region can
  // slip between the nodes: where it touches an edge again, the edge moves out.
  constexpr int passes = 12;
  for (int pass = 0; pass < passes; ++pass) {
    const Grid grid(regression, fit.shape, box, nodes, progress);
    Box next;
    for (std::size_t a = 0; a < axes; ++a) next.low[a] = next.high[a] = fit.times[a];
    for (std::size_t i = 0; i < grid.size(); ++i) {
      if (grid.sum(i) > limit) continue;
      const Point p = grid.point(i);
      for (std::size_t a = 0; a < axes; ++a) {
        next.low[a] = std::min(next.low[a], p[a]);
        next.high[a] = std::max(next.high[a], p[a]);
      }
    }
    double shrunk = 1;
    bool touching = false;
    for (std::size_t a = 0; a < axes; ++a) {
      const double margin = std::max(grid.cell(a), 0.0), width = box.high[a] - box.low[a];
      const bool at_low = next.low[a] <= box.low[a] && box.low[a] > whole.low[a];
      const bool at_high = next.high[a] >= box.high[a] && box.high[a] < whole.high[a];
      touching = touching || at_low || at_high;
      next.low[a] = std::max(next.low[a] - (at_low ? width / 2 : margin), whole.low[a]);
      next.high[a] = std::min(next.high[a] + (at_high ? width / 2 : margin), whole.high[a]);
      shrunk *= (next.high[a] - next.low[a]) / std::max(width, 1e-300);
    }
    box = next;
    if (!touching && shrunk > 0.6) break;
  }
  return box;
}

}  // namespace

TimeIntervals time_intervals(const PathRegression& regression, const ShapeFit& fit, const TimesRange& range,
                             double limit, const Progress& progress) {
  const auto axes = static_cast<std::size_t>(times_of(fit.shape));
  const Box whole{{range.earliest_s, range.slowest, range.slowest},
                  {range.latest_s, range.fastest, range.fastest}};
  const Grid grid(regression, fit.shape, enclosing_box(regression, fit, whole, limit, progress),
                  axes == 2 ? 81 : 31, progress);
  const double least = fit.sum_of_squares;
  const auto axis = [&](std::size_t a) {
    return axis_interval(grid, a, fit.times[a], least, limit, whole.low[a], whole.high[a]);
  };
  const auto as_half_time = [](const OpenInterval& ln_rate) {
    return OpenInterval{half_time_s(std::exp(ln_rate.high)), half_time_s(std::exp(ln_rate.low)),
                        ln_rate.open_high, ln_rate.open_low};
  };
  TimeIntervals result;
  result.onset = axis(0);
  result.half_time = as_half_time(axis(1));
  if (axes == 3) result.second_half_time = as_half_time(axis(2));
  for (const auto& [share, interval] : {std::pair{0.90, &result.to_90}, std::pair{0.95, &result.to_95}}) {
    const double times_rate = time_to_share_s(1, share);
    *interval =
        moment_interval(grid, fit.times[0] + times_rate * std::exp(-fit.times[1]), times_rate, least, limit);
    interval->open_low = result.half_time.open_low && result.onset.open_low;
    interval->open_high = result.half_time.open_high;
  }
  return result;
}

}  // namespace colorlib
