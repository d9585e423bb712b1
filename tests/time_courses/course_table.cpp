#include "tests/time_courses/course_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <cstdio>

namespace colorlib::time_courses {
namespace {

bool holds(const TimeEstimate& estimate, double truth) {
  if (estimate.less_than_s) return truth <= *estimate.less_than_s;
  if (estimate.greater_than_s) return truth >= *estimate.greater_than_s;
  return estimate.value_s && truth >= *estimate.low_s && truth <= *estimate.high_s;
}

bool is_stated(const TimeEstimate& e) { return e.value_s || e.less_than_s || e.greater_than_s; }

std::string share(int part, int whole) {
  return whole == 0 ? "–" : fmt::format("{:.1f} %", 100.0 * part / whole);
}

std::string said(const TimeEstimate& e) {
  if (e.value_s) return fmt::format("{:.2f} ({:.2f}-{:.2f})", *e.value_s, *e.low_s, *e.high_s);
  if (e.less_than_s) return fmt::format("< {:.2f}", *e.less_than_s);
  if (e.greater_than_s) return fmt::format("> {:.2f}", *e.greater_than_s);
  return "-";
}

}  // namespace

void add_course(const Course& course, const Result<Kinetics>& fit, std::uint64_t seed, bool print_misses,
                CourseFigures& f) {
  ++f.courses;
  if (!fit) {
    // What could not be read counts as missed.
    f.tellable += course.can_tell;
    f.onsets += course.kind != CourseKind::none;
    f.half_times += course.kind != CourseKind::none;
    if (print_misses)
      std::printf("%s seed %llu: %s\n", f.name.c_str(), static_cast<unsigned long long>(seed),
                  fit.error().message.c_str());
    return;
  }
  if (is_reaction(*fit)) ++f.called_reaction;
  std::string misses;
  if (course.can_tell) {
    ++f.tellable;
    if (fit->model == course.model)
      ++f.right_kind;
    else
      misses +=
          fmt::format(" kind {} not {}", kinetic_model_name(fit->model), kinetic_model_name(course.model));
  }
  if (course.kind != CourseKind::none) {
    // A reaction that was not found counts as a miss of both times.
    ++f.onsets;
    ++f.half_times;
    const double onset_gap = gap_at(course.series.seconds, course.onset_s);
    const double half_gap = gap_at(course.series.seconds, course.onset_s + course.half_time_s);
    const auto near = [](const TimeEstimate& e, double truth, double gap) {
      return e.value_s ? std::abs(*e.value_s - truth) <= std::max(0.1 * truth, gap)
                       : e.less_than_s && *e.less_than_s <= truth + std::max(0.1 * truth, gap) &&
                             truth <= *e.less_than_s;
    };
    if (near(fit->onset, course.onset_s, onset_gap))
      ++f.onsets_near;
    else
      misses += " onset off";
    if (near(fit->half_time, course.half_time_s, half_gap))
      ++f.half_times_near;
    else
      misses += " half time off";
    if (is_stated(fit->onset)) {
      ++f.intervals;
      if (!fit->onset.value_s)
        ++f.bounds;
      else
        f.onset_widths_s.push_back(*fit->onset.expanded_s());
      if (holds(fit->onset, course.onset_s)) {
        ++f.covered;
        ++f.onset_covered;
      } else
        misses += " onset not covered";
    }
    if (is_stated(fit->half_time)) {
      ++f.intervals;
      if (!fit->half_time.value_s)
        ++f.bounds;
      else
        f.half_time_widths.push_back(*fit->half_time.expanded_s() / course.half_time_s);
      if (holds(fit->half_time, course.half_time_s)) {
        ++f.covered;
        ++f.half_time_covered;
      } else
        misses += " half time not covered";
    }
    for (const auto& [estimate, times] :
         {std::pair{&fit->to_90, 3.3219281}, std::pair{&fit->to_95, 4.3219281}})
      if (is_stated(*estimate)) {
        ++f.end_times;
        f.end_times_covered += holds(*estimate, course.onset_s + times * course.half_time_s);
      }
    if (fit->model == KineticModel::first_order && fit->plateau) {
      ++f.plateaus;
      const double truth = difference_ciede2000(course.end, course.untreated);
      f.plateaus_covered += std::abs(fit->change_de00 - truth) <= fit->change_de00_expanded;
    }
  }
  if (print_misses && !misses.empty())
    std::printf(
        "%s seed %llu, %zu frames: true onset %.2f half %.2f second %.1f; said onset %s half %s change "
        "%.1f bad %zu:%s\n",
        f.name.c_str(), static_cast<unsigned long long>(seed), course.series.seconds.size(), course.onset_s,
        course.half_time_s, course.second_half_time_s, said(fit->onset).c_str(), said(fit->half_time).c_str(),
        fit->change_de00, fit->bad_frames.size(), misses.c_str());
}

CourseFigures run_courses(CourseKind kind, int courses, std::uint64_t first_seed, bool print_misses) {
  CourseFigures f;
  f.name = std::string(course_kind_name(kind));
  for (int i = 0; i < courses; ++i) {
    const std::uint64_t seed = first_seed + static_cast<std::uint64_t>(i);
    const Course course = simulated_course(kind, seed);
    add_course(course, fit_kinetics(course.series), seed, print_misses, f);
  }
  return f;
}

CourseFigures pooled(const std::vector<CourseFigures>& figures) {
  CourseFigures all;
  all.name = "pooled";
  for (const CourseFigures& f : figures) {
    all.courses += f.courses;
    all.onsets += f.onsets;
    all.onsets_near += f.onsets_near;
    all.half_times += f.half_times;
    all.half_times_near += f.half_times_near;
    all.intervals += f.intervals;
    all.covered += f.covered;
    all.onset_covered += f.onset_covered;
    all.half_time_covered += f.half_time_covered;
    all.bounds += f.bounds;
    all.end_times += f.end_times;
    all.end_times_covered += f.end_times_covered;
    all.plateaus += f.plateaus;
    all.plateaus_covered += f.plateaus_covered;
    all.tellable += f.tellable;
    all.right_kind += f.right_kind;
    all.onset_widths_s.insert(all.onset_widths_s.end(), f.onset_widths_s.begin(), f.onset_widths_s.end());
    all.half_time_widths.insert(all.half_time_widths.end(), f.half_time_widths.begin(),
                                f.half_time_widths.end());
    all.called_reaction += f.called_reaction;
  }
  return all;
}

std::string course_table_head() {
  return "| kind | courses | onset near | half time near | covered (onset, half time) | bounds only | ± "
         "onset | ± half time "
         "| to 90, 95 % covered | change covered | right kind | called a reaction |\n"
         "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
}

std::string course_table_row(const CourseFigures& f) {
  return fmt::format("| {} | {} | {} | {} | {} | {} | {:.2f} s | {:.0f} % | {} | {} | {} of {} | {} |\n",
                     f.name, f.courses, share(f.onsets_near, f.onsets),
                     share(f.half_times_near, f.half_times), share(f.covered, f.intervals),
                     share(f.bounds, f.intervals), median(f.onset_widths_s), 100 * median(f.half_time_widths),
                     share(f.end_times_covered, f.end_times), share(f.plateaus_covered, f.plateaus),
                     share(f.right_kind, f.tellable), f.tellable, share(f.called_reaction, f.courses));
}

}  // namespace colorlib::time_courses
