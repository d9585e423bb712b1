/// Prints the table: course_table [courses a kind] [first seed]. For development; the test asserts on the
/// same figures.
#include <cstdio>
#include <cstdlib>

#include "tests/time_courses/course_table.hpp"

int main(int argc, char** argv) {
  using namespace colorlib::time_courses;
  const int courses = argc > 1 ? std::atoi(argv[1]) : 60;
  const auto seed = static_cast<std::uint64_t>(argc > 2 ? std::atoi(argv[2]) : 1);
  std::vector<CourseFigures> rows;
  for (const auto kind :
       {CourseKind::fast, CourseKind::slow, CourseKind::consecutive, CourseKind::fading, CourseKind::none})
    rows.push_back(run_courses(kind, courses, seed, true));
  std::printf("%s", course_table_head().c_str());
  for (const auto& row : rows) std::printf("%s", course_table_row(row).c_str());
  std::printf("%s", course_table_row(pooled(rows)).c_str());
}
