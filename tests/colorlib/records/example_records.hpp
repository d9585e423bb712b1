#pragma once
/// Records with something in every field.

#include <colorlib/records/record.hpp>
#include <cstdint>

namespace colorlib {

/// Three readings (an ellipse in mm, a polygon in px, a refused one), flags, scales, a budget, every optional
/// figure.
Record full_record();
/// As empty as a record may be: nothing said, no reading.
Record bare_record();
/// Figures drawn at random over wide ranges, from `seed`.
Record random_record(std::uint64_t seed);

}  // namespace colorlib
