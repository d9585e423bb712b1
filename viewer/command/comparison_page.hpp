#pragma once
/// What of a comparison stands on a printed page.

#include <colorlib/exports/round_page.hpp>
#include <viewer/command/comparison_summary.hpp>

namespace tintfall {

/// Biases, each item's colours and distances, remarks. Titles and names as in the summary.
colorlib::RoundPage page_from(const colorlib::Comparison& comparison, const ComparisonWords& words);

}  // namespace tintfall
