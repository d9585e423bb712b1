#include "tests/time_courses/simulated_course.hpp"

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/kinetic_curves.hpp>

#include "tests/scenes/random.hpp"

namespace colorlib::time_courses {
namespace {

using scenes::Random;

Vector3 plus(const Vector3& a, const Vector3& b, double times = 1) {
  return {a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]};
}

double log_uniform(Random& random, double low, double high) {
  return low * std::pow(high / low, random.uniform());
}

/// Pale tissue, as caps, stems and cut flesh are.
Lab tissue(Random& random) { return {random.uniform(65, 92), random.uniform(-2, 7), random.uniform(6, 30)}; }

/// A colour at a true distance of `low` to `high` from another, darker more often than lighter.
Lab reacted(Random& random, const Lab& from, double low, double high) {
  for (;;) {
    const Lab to{random.uniform(15, 90), random.uniform(-30, 45), random.uniform(-30, 70)};
    const double de00 = difference_ciede2000(from, to);
    if (de00 >= low && de00 <= high) return to;
  }
}

/// One frame or two before, then frames whose gaps grow with the time: `first_gap_s` at first, a `growth` of
/// the time passed later, as people take them.
std::vector<double> moments(Random& random, double first_gap_s, double growth, double end_s) {
  std::vector<double> seconds{-random.uniform(15, 40)};
  if (random.chance(0.5)) seconds.push_back(-random.uniform(2, 8));
  for (double t = random.uniform(0, 1) * first_gap_s; t < end_s;
       t += std::max(first_gap_s, growth * t) * random.uniform(0.8, 1.2))
    seconds.push_back(t);
  return seconds;
}

/// Standard deviations in L*, a*, b* from frame to frame.
constexpr Vector3 frame_sd{0.5, 0.35, 0.5};    ///< of all regions alike: the photo's calibration
constexpr Vector3 spot_sd{0.45, 0.25, 0.35};   ///< of the spot: slope and shine of a drop, compression
constexpr Vector3 control_sd{0.3, 0.2, 0.25};  ///< of a control
constexpr double rough_frames = 0.03;          ///< share of frames with three times the scatter

Vector3 scatter(Random& random, const Vector3& sd, double times) {
  return {times * sd[0] * random.normal(), times * sd[1] * random.normal(), times * sd[2] * random.normal()};
}

}  // namespace

std::string_view course_kind_name(CourseKind kind) {
  switch (kind) {
    case CourseKind::fast:
      return "first-order, fast";
    case CourseKind::slow:
      return "first-order, slow";
    case CourseKind::consecutive:
      return "consecutive";
    case CourseKind::fading:
      return "fading";
    case CourseKind::none:
      return "none";
  }
  return "";
}

double gap_at(const std::vector<double>& seconds, double moment_s) {
  const auto after = std::upper_bound(seconds.begin(), seconds.end(), moment_s);
  if (after == seconds.begin() || after == seconds.end()) return 0;
  return *after - *std::prev(after);
}

void tell_second_step(Course& course) {
  const auto& seconds = course.series.seconds;
  const double peak_s = std::min(
      seconds.back(), course.onset_s + consecutive_peak(rate_from_half_time(course.half_time_s),
                                                        rate_from_half_time(course.second_half_time_s))
                                           .since_onset_s);
  const auto at_peak =
      static_cast<std::size_t>(std::lower_bound(seconds.begin(), seconds.end(), peak_s) - seconds.begin());
  const Lab peak = course.truth[std::min(at_peak, course.truth.size() - 1)], end = course.truth.back();
  const double lost =
      1 - difference_ciede2000(end, course.untreated) / difference_ciede2000(peak, course.untreated);
  course.model = lost >= 0.15 ? KineticModel::fading : KineticModel::consecutive;
  course.can_tell = difference_ciede2000(peak, end) >= 4 && std::abs(lost - 0.15) >= 0.1;
}

Course simulated_course(CourseKind kind, std::uint64_t seed) {
  Random random(seed, static_cast<std::uint64_t>(kind) + 1);
  Course course;
  course.kind = kind;
  const Lab untreated = tissue(random);
  Lab middle = untreated, last = untreated;
  std::vector<double>& seconds = course.series.seconds;
  switch (kind) {
    case CourseKind::fast:
      course.onset_s = random.uniform(0.5, 4);
      course.half_time_s = log_uniform(random, 1.5, 10);
      last = reacted(random, untreated, 6, 45);
      seconds = moments(random, random.uniform(0.7, 1.5), 0.12, random.uniform(60, 180));
      course.model = KineticModel::first_order;
      break;
    case CourseKind::slow:
      course.onset_s = random.uniform(5, 60);
      course.half_time_s = log_uniform(random, 20, 150);
      last = reacted(random, untreated, 6, 45);
      seconds = moments(random, random.uniform(5, 10), 0.12,
                        course.onset_s + random.uniform(4, 10) * course.half_time_s);
      course.model = KineticModel::first_order;
      break;
    case CourseKind::consecutive:
    case CourseKind::fading:
      course.onset_s = random.uniform(1, 15);
      course.half_time_s = log_uniform(random, 4, 30);
      course.second_half_time_s = course.half_time_s * log_uniform(random, 6, 30);
      middle = reacted(random, untreated, 10, 45);
      if (kind == CourseKind::consecutive) {
        last = reacted(random, middle, 10, 40);
      } else {
        // Most of the way back, and a little off the way.
        const double lost = random.uniform(0.4, 0.9);
        last = lab_from(
            plus(plus(vector_from(middle), vector_from(middle), -lost), vector_from(untreated), lost));
        last.a += random.normal(0, 1);
        last.b += random.normal(0, 1);
      }
      seconds = moments(random, random.uniform(1, 3), 0.15,
                        course.onset_s + random.uniform(1.5, 4) * course.second_half_time_s);
      break;
    case CourseKind::none:
      seconds = moments(random, random.uniform(1, 6), 0.15, log_uniform(random, 60, 1200));
      break;
  }

  course.untreated = untreated;
  course.end = last;
  const double span = seconds.back() - seconds.front();
  const Vector3 light_drift{random.normal(0, 1.2), random.normal(0, 0.6),
                            random.normal(0, 1.2)};  // over the series
  const double uneven_drift =
      random.uniform(-0.15, 0.15);  // of it, what the spot has and the controls have not
  const Vector3 wetting{-4, 0.2, 1};
  const double wetting_rate = rate_from_half_time(30), uneven_wetting = random.uniform(0.8, 1.2);
  const bool water = random.chance(0.7);
  // What is stated is off by a factor, and knows nothing of what a photo does to all its regions.
  const double stated = log_uniform(random, 0.6, 1.7);
  const auto covariance_of = [&](const Vector3& sd) {
    return Matrix3::diagonal(std::pow(stated * sd[0], 2), std::pow(stated * sd[1], 2),
                             std::pow(stated * sd[2], 2));
  };
  ControlPath control{water ? "W" : "U", water ? RegionKind::water : RegionKind::control, {}};
  for (const double t : seconds) {
    Vector3 path = vector_from(untreated);
    if (course.second_half_time_s > 0) {
      const auto share = consecutive_shares(t - course.onset_s, rate_from_half_time(course.half_time_s),
                                            rate_from_half_time(course.second_half_time_s));
      path = plus(plus(plus({}, vector_from(untreated), share.a), vector_from(middle), share.b),
                  vector_from(last), share.c);
    } else if (course.half_time_s > 0) {
      const double p = first_order_progress(t - course.onset_s, rate_from_half_time(course.half_time_s));
      path = plus(plus(path, path, -p), vector_from(last), p);
    }
    course.truth.push_back(lab_from(path));
    const double rough = random.chance(rough_frames) ? 3 : 1;
    const Vector3 all = plus(scatter(random, frame_sd, rough), light_drift, (t - seconds.front()) / span);
    const double wet = water ? first_order_progress(t, wetting_rate) : 0;
    Vector3 spot = plus(plus(path, all, 1 + uneven_drift), scatter(random, spot_sd, rough));
    spot = plus(spot, wetting, wet * uneven_wetting);
    const Vector3 beside =
        plus(plus(plus(vector_from(untreated), all), scatter(random, control_sd, rough)), wetting, wet);
    course.series.spot.push_back({lab_from(spot), covariance_of(spot_sd)});
    control.frames.push_back(ColorState{lab_from(beside), covariance_of(control_sd)});
  }
  course.series.controls.push_back(std::move(control));

  if (course.second_half_time_s > 0) tell_second_step(course);
  return course;
}

}  // namespace colorlib::time_courses
