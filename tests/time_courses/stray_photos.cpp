#include "tests/time_courses/stray_photos.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/reaction/control_strays_internal.hpp>

#include "tests/scenes/random.hpp"

namespace colorlib::time_courses {
namespace {

bool left_out(const Kinetics& fit, std::size_t frame) {
  return std::find(fit.bad_frames.begin(), fit.bad_frames.end(), frame) != fit.bad_frames.end();
}

void shift(Lab& lab, const Lab& from, const Lab& to) {
  lab = {lab.l + to.l - from.l, lab.a + to.a - from.a, lab.b + to.b - from.b};
}

}  // namespace

Course thinned(const Course& course, std::size_t frames) {
  const std::size_t all = course.series.seconds.size();
  if (frames >= all) return course;
  Course thin = course;
  thin.series.seconds.clear();
  thin.series.spot.clear();
  thin.series.controls[0].frames.clear();
  thin.truth.clear();
  for (std::size_t k = 0; k < frames; ++k) {
    const std::size_t i = k * (all - 1) / (frames - 1);
    thin.series.seconds.push_back(course.series.seconds[i]);
    thin.series.spot.push_back(course.series.spot[i]);
    thin.series.controls[0].frames.push_back(course.series.controls[0].frames[i]);
    thin.truth.push_back(course.truth[i]);
  }
  return thin;
}

std::size_t spoil_a_frame(Course& course, double least_de00, std::uint64_t seed) {
  scenes::Random random(seed, 77);
  ReactionSeries& series = course.series;
  // The only frame before the drop is never left out.
  const std::size_t first = series.seconds[1] > 0 ? 1 : 0;
  const auto count = static_cast<double>(series.seconds.size() - first);
  const std::size_t frame = first + static_cast<std::size_t>(random.uniform(0, count));
  Lab& control = series.controls[0].frames[frame]->lab;
  Lab other;
  do other = {random.uniform(15, 92), random.uniform(-10, 30), random.uniform(-5, 45)};
  while (difference_ciede2000(other, control) < least_de00);
  if (random.chance(0.5))
    shift(series.spot[frame].lab, control, other);
  else
    series.spot[frame].lab = {other.l + random.normal(), other.a + random.normal(),
                              other.b + random.normal()};
  control = other;
  return frame;
}

CleanFigures clean_courses(CourseKind kind, int courses, std::uint64_t first_seed, std::size_t most_frames) {
  CleanFigures f;
  for (int i = 0; i < courses; ++i) {
    Course course = simulated_course(kind, first_seed + static_cast<std::uint64_t>(i));
    if (most_frames > 0) course = thinned(course, most_frames);
    const ControlStrays found = control_strays(course.series);
    ++f.courses;
    f.photos += static_cast<int>(course.series.seconds.size());
    f.lost += static_cast<int>(found.strays.size());
    f.too_many += found.too_many;
  }
  return f;
}

StrayFigures stray_courses(CourseKind kind, int courses, std::uint64_t first_seed, std::size_t most_frames,
                           double least_de00) {
  StrayFigures f;
  f.name = std::string(course_kind_name(kind));
  for (int i = 0; i < courses; ++i) {
    const std::uint64_t seed = first_seed + static_cast<std::uint64_t>(i);
    Course course = simulated_course(kind, seed);
    if (most_frames > 0) course = thinned(course, most_frames);
    const auto clean = fit_kinetics(course.series);
    const std::size_t stray = spoil_a_frame(course, least_de00, seed);
    const auto spoilt = fit_kinetics(course.series);
    if (!clean || !spoilt) continue;
    ++f.courses;
    f.found += left_out(*spoilt, stray);
    f.reactions += is_reaction(*clean);
    f.still_reactions += is_reaction(*clean) && is_reaction(*spoilt);
    f.false_reactions += !is_reaction(*clean) && is_reaction(*spoilt);
    f.same_kinds += clean->model == spoilt->model;
  }
  return f;
}

StrayFigures pooled(const std::vector<StrayFigures>& figures) {
  StrayFigures all;
  all.name = "pooled";
  for (const StrayFigures& f : figures) {
    all.courses += f.courses;
    all.found += f.found;
    all.reactions += f.reactions;
    all.still_reactions += f.still_reactions;
    all.false_reactions += f.false_reactions;
    all.same_kinds += f.same_kinds;
  }
  return all;
}

std::string stray_table_head() {
  return "| | courses | left out | still a reaction | same kind | a reaction by the stray |\n"
         "| --- | --- | --- | --- | --- | --- |\n";
}

std::string stray_table_row(const StrayFigures& f) {
  return fmt::format("| {} | {} | {} | {} of {} | {} | {} |\n", f.name, f.courses, f.found, f.still_reactions,
                     f.reactions, f.same_kinds, f.false_reactions);
}

}  // namespace colorlib::time_courses
