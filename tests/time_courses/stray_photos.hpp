#pragma once
/// Simulated courses with and without a photo in which spot and control both show another specimen.

#include <cstdint>
#include <string>

#include "tests/time_courses/simulated_course.hpp"

namespace colorlib::time_courses {

/// The course with at most so many of its frames, spread over them; the first stays.
Course thinned(const Course& course, std::size_t frames);

/// Puts another specimen's colours, at least `least_de00` from this one's, into one frame of spot and
/// control: by chance one that shares the spot's stage, or one without a spot. Says which frame. Of several
/// frames before the drop one stays.
std::size_t spoil_a_frame(Course& course, double least_de00, std::uint64_t seed);

/// What the check of the controls does to courses without a stray; nothing is fitted.
struct CleanFigures {
  int courses = 0, photos = 0;
  int lost = 0;      ///< photos that would be left out
  int too_many = 0;  ///< courses that are said to have more strays than may be
};
CleanFigures clean_courses(CourseKind kind, int courses, std::uint64_t first_seed, std::size_t most_frames);

struct StrayFigures {
  std::string name;
  int courses = 0;
  int found = 0;            ///< strays that were left out, for whatever reason
  int reactions = 0;        ///< courses that are called a reaction when they are clean
  int still_reactions = 0;  ///< those of them that are one with the stray
  int same_kinds = 0;       ///< models that are the clean course's
  int false_reactions = 0;  ///< with the stray only
};

/// `most_frames` 0: all of them.
StrayFigures stray_courses(CourseKind kind, int courses, std::uint64_t first_seed, std::size_t most_frames,
                           double least_de00);
StrayFigures pooled(const std::vector<StrayFigures>& figures);
std::string stray_table_head();
std::string stray_table_row(const StrayFigures& figures);

}  // namespace colorlib::time_courses
