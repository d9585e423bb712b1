#pragma once
/// The value that `share` of some values lie at or below.

#include <algorithm>
#include <cmath>
#include <vector>

namespace colorlib {

/// Nearest rank; NaN for nothing. `share` from 0 to 1.
inline double quantile(std::vector<double> values, double share) {
  if (values.empty()) return NAN;
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1) + 0.5)];
}

}  // namespace colorlib
