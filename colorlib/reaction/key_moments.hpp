#pragma once
/// The few frames of a course that tell it.

#include <colorlib/reaction/spot_course.hpp>
#include <cstddef>
#include <vector>

namespace colorlib {

/// Places in `course.points`, ascending, none twice: the last one before zero (or the first of all), those where the change first
/// reaches 10, 50 and 90 % of its largest, the one of the largest, and the last. Empty for an empty course.
std::vector<std::size_t> key_moments(const SpotCourse& course);

}  // namespace colorlib
