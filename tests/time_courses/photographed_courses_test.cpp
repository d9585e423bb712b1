/// The promise about times, tested on series that are photographed: rendered, read and fitted.
/// TINTFALL_FULL=1 runs many more and writes docs/results/time_courses.md.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>

#include "tests/support/result_page.hpp"
#include "tests/time_courses/photographed_table.hpp"

namespace colorlib::time_courses {
namespace {

constexpr std::uint64_t first_seed = 301;
const std::vector<CourseKind> kinds = {CourseKind::fast, CourseKind::slow, CourseKind::consecutive,
                                       CourseKind::fading, CourseKind::none};

std::string table_of(const std::vector<CourseFigures>& rows) {
  std::string text = course_table_head();
  for (const CourseFigures& row : rows) text += course_table_row(row);
  return text + course_table_row(pooled(rows));
}

TEST(PhotographedCourses, AFewOfEachKind) {
  if (std::getenv("TINTFALL_FULL")) GTEST_SKIP() << "many of them run instead";
  constexpr int courses = 1;
  const auto rows = photograph_courses(kinds, courses, first_seed, true);
  std::printf("%d course a kind, seed %llu\n%s", courses, static_cast<unsigned long long>(first_seed),
              table_of(rows).c_str());
  // Of four reactions at most one of each may be the tenth that the promise leaves.
  const CourseFigures all = pooled(rows);
  EXPECT_GE(all.onsets_near, all.onsets - 1);
  EXPECT_GE(all.half_times_near, all.half_times - 1);
  // Eight intervals of 95 %, both of a series missed together as a rule: more than three miss in one or two
  // runs of a hundred.
  EXPECT_GE(all.covered, all.intervals - 3);
  EXPECT_GE(all.right_kind, all.tellable - 1);
  EXPECT_EQ(rows.back().called_reaction, 0);
}

TEST(PhotographedCourses, TimesIntervalsAndKinds) {
  if (!std::getenv("TINTFALL_FULL")) GTEST_SKIP() << "runs with ./run tests --full";
  constexpr int courses = 64;
  const auto rows = photograph_courses(kinds, courses, first_seed, true);
  const std::string table = table_of(rows);
  std::printf("%d courses a kind, seeds %llu on\n%s", courses, static_cast<unsigned long long>(first_seed),
              table.c_str());
  const CourseFigures all = pooled(rows);
  EXPECT_GE(all.onsets_near, 0.9 * all.onsets);
  EXPECT_GE(all.half_times_near, 0.9 * all.half_times);
  EXPECT_GE(all.right_kind, 0.9 * all.tellable);
  EXPECT_GE(all.covered, 0.91 * all.intervals);
  // 98 %, and one standard error of some 250 series, whose two intervals are missed together as a rule: on
  // the 120 series that the reach of the bend was chosen on it was 97.4 %, with a narrower budget.
  EXPECT_LE(all.covered, 0.989 * all.intervals);
  EXPECT_LE(rows.back().called_reaction, 0.02 * rows.back().courses);
  write_result_page("time_courses.md", photographed_page(courses, first_seed, table));
}

}  // namespace
}  // namespace colorlib::time_courses
