#pragma once
/// Reference values as a file that `read_reference` takes.

#include <colorlib/chart/reference_values.hpp>
#include <string>
#include <utility>
#include <vector>

namespace colorlib {

/// CGATS.17 text (ISO 28178): SAMPLE_ID, LAB_*, STDEV_*, each with 4 decimals. `statements` are pairs of
/// KEYWORD and text for the head; quotes and control characters in the texts become apostrophes and blanks.
/// D50 and 2 degree are stated.
std::string reference_text(const ReferenceValues& values,
                           const std::vector<std::pair<std::string, std::string>>& statements);

}  // namespace colorlib
