#pragma once
/// Time courses whose truth is known: Lab of a spot and its controls, with the errors that readings of
/// hand-held phone photographs have from frame to frame.

#include <colorlib/reaction/kinetics.hpp>
#include <cstdint>
#include <string_view>

namespace colorlib::time_courses {

enum class CourseKind { fast, slow, consecutive, fading, none };
std::string_view course_kind_name(CourseKind kind);

struct Course {
  CourseKind kind = CourseKind::none;
  ReactionSeries series;
  double onset_s = 0, half_time_s = 0;  ///< true ones; the first step's
  double second_half_time_s = 0;        ///< 0 without a second step
  std::vector<Lab> truth;               ///< the spot minus what the controls do, a frame each
  Lab untreated, end;                   ///< where it comes from, where it goes in the end
  KineticModel model = KineticModel::none;
  /// Whether the frames can tell the kind: see docs/results/time_courses.md for the rule.
  bool can_tell = true;
};

Course simulated_course(CourseKind kind, std::uint64_t seed);

/// Fills `model` and `can_tell` of a course with two steps: the same rule that the fit uses for its own
/// curve, applied to the true one.
void tell_second_step(Course& course);

/// The gap between the frames that enclose a moment, in s.
double gap_at(const std::vector<double>& seconds, double moment_s);

}  // namespace colorlib::time_courses
