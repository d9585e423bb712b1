#pragma once
/// Photographed time courses, rendered and read on all cores.

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "tests/time_courses/course_table.hpp"

namespace colorlib::time_courses {

/// `courses` of each kind from `first_seed` on, one row a kind, in the order given. With a folder, readings
/// are kept there.
std::vector<CourseFigures> photograph_courses(const std::vector<CourseKind>& kinds, int courses,
                                              std::uint64_t first_seed, bool print_misses = false,
                                              const std::filesystem::path& keep_in = {});

/// The page of docs/results that holds the table and says what was run.
std::string photographed_page(int courses, std::uint64_t first_seed, const std::string& table);

}  // namespace colorlib::time_courses
