#pragma once
/// How many colours there are among many readings: groups whose members cannot be told apart.

#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/comparison/agreement.hpp>
#include <cstddef>
#include <vector>

namespace colorlib {

struct ColorGroup {
  std::vector<std::size_t> members;  ///< places in the list given, ascending
  Lab mean;                          ///< of the members
  double widest_de00 = 0;            ///< between any two members
  /// Some two members can be told apart, and only others between them join them: the group is a chain.
  bool chained = false;
};

/// Readings that are joined by one link, or by a chain of links (single linkage). Two are linked unless a
/// test at `risk` tells them apart: `risk`, in (0, 1), is the probability that two readings of one colour get
/// no link of their own. Groups in the order of their first member. Errors: bad_call for a risk outside (0,
/// 1) or more than `most_grouped` readings; cancelled.
inline constexpr std::size_t most_grouped = 5000;
inline constexpr double default_group_risk = 0.05;
Result<std::vector<ColorGroup>> groups_of(const std::vector<UncertainColor>& readings, double risk,
                                          Progress& progress);

}  // namespace colorlib
