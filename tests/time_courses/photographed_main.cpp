/// Prints the table: photographed_table [courses a kind] [first seed] [folder that keeps the readings] [page
/// to write]. For development; the test asserts on the same figures and writes the same page.
#include <cstdio>
#include <cstdlib>
#include <fstream>

#include "tests/time_courses/photographed_table.hpp"

int main(int argc, char** argv) {
  using namespace colorlib::time_courses;
  const int courses = argc > 1 ? std::atoi(argv[1]) : 4;
  const auto seed = static_cast<std::uint64_t>(argc > 2 ? std::atoi(argv[2]) : 1);
  const auto rows = photograph_courses(
      {CourseKind::fast, CourseKind::slow, CourseKind::consecutive, CourseKind::fading, CourseKind::none},
      courses, seed, true, argc > 3 ? argv[3] : "");
  std::string table = course_table_head();
  for (const auto& row : rows) table += course_table_row(row);
  table += course_table_row(pooled(rows));
  std::printf("%s", table.c_str());
  if (argc > 4) std::ofstream(argv[4]) << photographed_page(courses, seed, table);
}
