#pragma once
/// Ours beside the best of the general methods, as a table.

#include <string>

#include "tests/accuracy/baselines.hpp"

namespace colorlib::accuracy {

struct Comparison {
  std::string condition;
  double our_median = 0, our_p95 = 0;
  double best_median = 0, best_p95 = 0;  ///< of the baselines as they come, each the best on its own
  double flat_median = 0, flat_p95 = 0;  ///< after a flat field by the true paper
  std::string best_method, flat_method;  ///< by the median
};

Comparison compare_with_baselines(scenes::Condition condition, const RunSettings& settings);
std::string comparison_head();
std::string comparison_row(const Comparison& comparison);

}  // namespace colorlib::accuracy
