#pragma once
/// The median as a robust middle.

#include <algorithm>
#include <cstddef>
#include <vector>

namespace colorlib {

/// The upper of two middle values for even counts; 0 for nothing. Works on a copy.
template <typename T>
T median(std::vector<T> values) {
  if (values.empty()) return 0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace colorlib
