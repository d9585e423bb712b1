#pragma once
/// Series with something in every field.

#include <colorlib/records/series_record.hpp>
#include <tests/colorlib/reaction/invented_courses.hpp>
#include <tests/colorlib/records/example_records.hpp>
#include <vector>

namespace colorlib {

/// A series of an invented course with something in every field: a frame that was dropped, a piece that
/// moved, maps, a protocol, and a second spot that is refused.
SeriesRecord series_record(const InventedCourse& course, const std::vector<double>& seconds);

}  // namespace colorlib
