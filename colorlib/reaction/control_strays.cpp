#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/base/distribution_quantiles.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/control_strays_internal.hpp>
#include <colorlib/reaction/corrected_path_internal.hpp>

namespace colorlib {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

/// Of four others a course and its scatter can be made.
constexpr std::size_t least_readings = 5;
/// Chance that a series of normal scatter loses a photo.
constexpr double false_alarm = 0.001;
/// A stray nearer than this does little to a threshold. A drop of water alone may do so much to one frame
/// that it dries before the next. The project's own figures.
constexpr double least_away_de00 = 5, least_away_from_water_de00 = 10;
/// Frames whose median is the course on one side: a single other stray does not move it.
constexpr std::size_t side_frames = 3;

/// One control's reading that is held against others.
struct Point {
  std::size_t frame = 0;
  double seconds = 0;
  Vector3d lab;
  Matrix3d covariance;
};
using Points = std::vector<Point>;

Lab lab_of(const Vector3d& v) { return {v[0], v[1], v[2]}; }

Points points_of(const ControlPath& control, const std::vector<double>& seconds,
                 const std::vector<bool>& stray) {
  const auto& readings = control.as_read.empty() ? control.frames : control.as_read;
  Points points;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (!readings[i] || stray[i]) continue;
    const Vector3 v = vector_from(readings[i]->lab);
    Matrix3d covariance =
        Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(readings[i]->covariance.m.data());
    covariance.diagonal().array() += least_reading_sd * least_reading_sd;
    points.push_back({i, seconds[i], {v[0], v[1], v[2]}, covariance});
  }
  return points;
}

/// The median of each coordinate.
Vector3d level(const Points& points, std::size_t begin, std::size_t end) {
  Vector3d middle;
  for (int axis = 0; axis < 3; ++axis) {
    std::vector<double> values;
    for (std::size_t i = begin; i < end; ++i) values.push_back(points[i].lab[axis]);
    std::sort(values.begin(), values.end());
    middle[axis] = (values[(values.size() - 1) / 2] + values[values.size() / 2]) / 2;
  }
  return middle;
}

double squared(const Vector3d& away, const Matrix3d& covariance) {
  return away.dot(covariance.ldlt().solve(away));
}

/// By how much the course's scatter exceeds what is stated, as a factor of variances; 1 at least. By the
/// median of successive differences: a slow change adds next to nothing, nor do a few strays.
double excess_variance(const Points& points) {
  std::vector<double> squares;
  for (std::size_t i = 1; i < points.size(); ++i)
    squares.push_back(
        squared(points[i].lab - points[i - 1].lab, points[i].covariance + points[i - 1].covariance));
  std::sort(squares.begin(), squares.end());
  return std::max(1.0, squares[(squares.size() - 1) / 2] / chi_squared_quantile(0.5, 3));
}

/// Where the course may have been instead: between two colours.
struct Stretch {
  Vector3d from, to;
};

/// Where the others say that a reading between place - 1 and place of them should lie. At an end: where the
/// last few were, or as much further on as they had come, or where the very last was.
std::vector<Stretch> stretches_at(const Points& others, std::size_t place) {
  const std::size_t n = others.size(), reach = std::min(side_frames, n / 2);
  if (place > 0 && place < n)
    return {{level(others, place - std::min(place, side_frames), place),
             level(others, place, std::min(place + side_frames, n))}};
  const std::size_t last = place == 0 ? 0 : n - 1;
  const Vector3d near = place == 0 ? level(others, 0, reach) : level(others, n - reach, n);
  const Vector3d before =
      place == 0 ? level(others, reach, 2 * reach) : level(others, n - 2 * reach, n - reach);
  return {{near, near + (near - before)}, {others[last].lab, others[last].lab}};
}

/// An end so far off in time that the others cannot foretell it.
bool beyond_foresight(const Points& others, const Point& point) {
  const double first = others.front().seconds, last = others.back().seconds;
  return std::max(first - point.seconds, point.seconds - last) > last - first;
}

struct Distance {
  double squared = INFINITY;  ///< in units of the covariance
  double de00 = INFINITY;
};

Distance distance(const Vector3d& lab, const Stretch& stretch, const Matrix3d& covariance) {
  const Vector3d along = stretch.to - stretch.from, away = lab - stretch.from;
  const Vector3d weighted = covariance.ldlt().solve(along);
  const double length = along.dot(weighted);
  const double share = length > 0 ? std::clamp(away.dot(weighted) / length, 0.0, 1.0) : 0;
  const Vector3d nearest = stretch.from + share * along;
  return {squared(lab - nearest, covariance), difference_ciede2000(lab_of(lab), lab_of(nearest))};
}

struct Verdict {
  double beyond = 0;  ///< squared distance as a multiple of its limit; a stray above 1
  double away_de00 = 0;
};

/// One reading against all others. `judged`: how many are judged in the series.
Verdict judge(const Points& points, std::size_t at, std::size_t judged, double least_de00) {
  Points others = points;
  others.erase(others.begin() + static_cast<std::ptrdiff_t>(at));
  const Point& point = points[at];
  if (beyond_foresight(others, point)) return {};
  Matrix3d beside = Matrix3d::Zero();
  for (const Point& other : others) beside += other.covariance / static_cast<double>(others.size());
  const Matrix3d covariance = point.covariance + beside;
  Distance nearest;
  for (const Stretch& stretch : stretches_at(others, at)) {
    const Distance one = distance(point.lab, stretch, covariance);
    nearest = {std::min(nearest.squared, one.squared), std::min(nearest.de00, one.de00)};
  }
  if (nearest.de00 < least_de00) return {};
  // The median of squares of three coordinates is worth 1.6 degrees of freedom a difference, a little less as
  // successive ones share a frame.
  const double freedom = 1.5 * static_cast<double>(others.size() - 1);
  const double limit = 3 * fisher_quantile(1 - false_alarm / static_cast<double>(judged), 3, freedom);
  return {nearest.squared / (excess_variance(others) * limit), nearest.de00};
}

/// Whether the series keeps a frame before the drop without this one: its untreated colour.
bool is_spared(const ReactionSeries& series, const std::vector<bool>& stray, std::size_t frame) {
  if (!series.zero_is_application || series.seconds[frame] > 0) return false;
  for (std::size_t i = 0; i < stray.size() && series.seconds[i] <= 0; ++i)
    if (i != frame && !stray[i]) return false;
  return true;
}

/// The reading that lies farthest beyond its limit, if any does.
std::optional<ControlStray> worst_of(const ReactionSeries& series, const std::vector<bool>& stray) {
  std::optional<ControlStray> worst;
  double beyond = 1;
  const std::size_t judged = series.seconds.size() * series.controls.size();
  for (const ControlPath& control : series.controls) {
    if (control.kind == RegionKind::bruise) continue;
    const Points points = points_of(control, series.seconds, stray);
    if (points.size() < least_readings) continue;
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (is_spared(series, stray, points[i].frame)) continue;
      const Verdict verdict =
          judge(points, i, judged,
                control.kind == RegionKind::water ? least_away_from_water_de00 : least_away_de00);
      if (verdict.beyond <= beyond) continue;
      beyond = verdict.beyond;
      worst = ControlStray{points[i].frame, control.id, verdict.away_de00};
    }
  }
  return worst;
}

}  // namespace

std::size_t most_control_strays(std::size_t frames) {
  // A film has thousands of frames, and each search costs the square of their number.
  return std::min<std::size_t>(1 + frames / 12, 12);
}

ControlStrays control_strays(const ReactionSeries& series) {
  ControlStrays result;
  std::vector<bool> stray(series.seconds.size());
  while (const auto worst = worst_of(series, stray)) {
    if (result.strays.size() == most_control_strays(stray.size())) return {{}, true};
    stray[worst->frame] = true;
    result.strays.push_back(*worst);
  }
  std::sort(result.strays.begin(), result.strays.end(),
            [](const auto& a, const auto& b) { return a.frame < b.frame; });
  return result;
}

}  // namespace colorlib
