#pragma once
/// A comparison as JSON text (format "tintfall-comparison", version 1; docs/reference/comparison_format.md).

#include <colorlib/comparison/comparison.hpp>
#include <string>

namespace colorlib {

/// What the caller knows of the readings as a whole; empty for readings without a round file.
struct ComparisonTitle {
  std::string title, remark;
};

/// Pretty JSON when `indent` >= 0, one line otherwise; no line end. Lab, its uncertainties, dE00 and scores
/// to 3 decimals, probabilities to 4. Never NaN: figures that do not exist are null or absent.
std::string comparison_json(const Comparison& comparison, const ComparisonTitle& title = {}, int indent = 2);

/// "reference" or "others"; "items", "repeats" or "too-few": as in the JSON.
std::string_view bias_against_word(BiasAgainst against);
std::string_view bias_basis_word(BiasBasis basis);

}  // namespace colorlib
