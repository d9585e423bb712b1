#include <algorithm>
#include <colorlib/chart/reference_owner_internal.hpp>
#include <colorlib/chart/reference_sheet_internal.hpp>

namespace colorlib {
namespace {

bool belongs_to_a_name(char c) {
  return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
}

/// Whether the name stands in the text as a word of its own, whatever the case.
bool names(std::string_view text, std::string_view name) {
  const std::string in = upper_case(text), word = upper_case(name);
  for (std::size_t at = in.find(word); !word.empty() && at != std::string::npos; at = in.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    if ((at == 0 || !belongs_to_a_name(in[at - 1])) && (end == in.size() || !belongs_to_a_name(in[end])))
      return true;
  }
  return false;
}

}  // namespace

std::optional<std::string> other_chart_named(std::string_view descriptor,
                                             const std::set<std::string_view>& ids,
                                             const ChartDefinition& chart) {
  if (descriptor.empty() || names(descriptor, chart.name)) return std::nullopt;
  const auto shipped = shipped_charts();
  if (!shipped) return std::nullopt;  // without the data folder no name is another chart's
  for (const ChartDefinition& other : *shipped)
    if (other.name != chart.name && other.patches.size() >= chart.patches.size() &&
        names(descriptor, other.name) &&
        std::all_of(other.patches.begin(), other.patches.end(),
                    [&](const Patch& patch) { return ids.contains(patch.id); }))
      return other.name;
  return std::nullopt;
}

}  // namespace colorlib
