#pragma once
/// Which chart a file of reference values says it belongs to; private to reference_values.cpp.

#include <colorlib/chart/chart_definition.hpp>
#include <optional>
#include <set>
#include <string>
#include <string_view>

namespace colorlib {

/// The name of another shipped chart that `descriptor` names and whose every patch is among `ids`, or none.
/// Charts share patch ids, so the ids alone do not tell. None when this chart is named as well, or when the
/// other has fewer patches than this one: "strip" is a word of everyday use, and a file of all this chart's
/// patches is more than the smaller chart's.
std::optional<std::string> other_chart_named(std::string_view descriptor,
                                             const std::set<std::string_view>& ids,
                                             const ChartDefinition& chart);

}  // namespace colorlib
