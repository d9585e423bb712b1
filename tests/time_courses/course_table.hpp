#pragma once
/// Many simulated time courses fitted, and held against their truth.

#include <cstdint>
#include <string>

#include "tests/time_courses/simulated_course.hpp"

namespace colorlib::time_courses {

struct CourseFigures {
  std::string name;
  int courses = 0;
  int onsets = 0, onsets_near = 0;  ///< courses with a reaction; within 10 % or one frame interval
  int half_times = 0, half_times_near = 0;
  int intervals = 0, covered = 0;  ///< of onset and half time, bounds included
  int onset_covered = 0, half_time_covered = 0;
  int bounds = 0;                            ///< of the intervals: censored
  int end_times = 0, end_times_covered = 0;  ///< to 90 and 95 %
  int plateaus = 0, plateaus_covered = 0;    ///< change_de00 within its k = 2
  int tellable = 0, right_kind = 0;
  int called_reaction = 0;
  std::vector<double> onset_widths_s, half_time_widths;  ///< half widths; of the half time as a share of it
};

/// One more course, as it was fitted.
void add_course(const Course& course, const Result<Kinetics>& fit, std::uint64_t seed, bool print_misses,
                CourseFigures& figures);
/// `courses` of a kind from `first_seed` on.
CourseFigures run_courses(CourseKind kind, int courses, std::uint64_t first_seed, bool print_misses = false);
CourseFigures pooled(const std::vector<CourseFigures>& figures);
std::string course_table_head();
std::string course_table_row(const CourseFigures& figures);

}  // namespace colorlib::time_courses
