#pragma once
/// Whether measured values can be those of a print of the chart; private to reference_values.cpp.

#include <colorlib/chart/chart_definition.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// Why values cannot be a print's, and what to do.
struct ImplausibleReference {
  std::string found, advice;
};

/// `values` in the order of the chart's patches. Nothing when they may be a print's, however bad: pale,
/// faded, with a cast. What a mistaken file shows: L* no larger than 1.5; a* and b* no larger than 1.5 where
/// the chart asks for chroma of 20 and more; L*, a* and b* that follow the chart's far better when two are
/// exchanged or a sign is turned; half of the patches farther off than any print (dE00 20). All but the first
/// compare with the chart's nominal values, and are passed over where these are too few or too alike to tell.
std::optional<ImplausibleReference> why_no_print_has(const std::vector<Lab>& values,
                                                     const ChartDefinition& chart);

}  // namespace colorlib
