/// Prints the table, and a hundred times as many clean courses: stray_table [courses a kind] [first seed]
/// [frames a course, 0: all] [least dE00 of the stray]. For development; the test asserts on the same
/// figures.
#include <array>
#include <cstdio>
#include <cstdlib>
#include <vector>

#include "tests/time_courses/stray_photos.hpp"

int main(int argc, char** argv) {
  using namespace colorlib::time_courses;
  const int courses = argc > 1 ? std::atoi(argv[1]) : 60;
  const auto seed = static_cast<std::uint64_t>(argc > 2 ? std::atoi(argv[2]) : 1);
  const auto frames = static_cast<std::size_t>(argc > 3 ? std::atoi(argv[3]) : 0);
  const double least_de00 = argc > 4 ? std::atof(argv[4]) : 15;
  constexpr std::array kinds = {CourseKind::fast, CourseKind::slow, CourseKind::consecutive,
                                CourseKind::fading, CourseKind::none};
  for (const auto kind : kinds) {
    const CleanFigures f = clean_courses(kind, 100 * courses, seed, frames);
    std::printf("%s, clean: %d courses, %d photos, %d left out, %d with too many\n",
                std::string(course_kind_name(kind)).c_str(), f.courses, f.photos, f.lost, f.too_many);
  }
  std::vector<StrayFigures> rows;
  std::printf("%s", stray_table_head().c_str());
  for (const auto kind : kinds) {
    rows.push_back(stray_courses(kind, courses, seed, frames, least_de00));
    std::printf("%s", stray_table_row(rows.back()).c_str());
  }
  std::printf("%s", stray_table_row(pooled(rows)).c_str());
}
