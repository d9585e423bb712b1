#include <algorithm>
#include <array>
#include <colorlib/base/result.hpp>

namespace colorlib {
namespace {

/// In the order of `ErrorCode`.
constexpr std::array<std::string_view, 13> code_names{
    "bad-call",          "unreadable-photo",     "unsupported-photo",
    "unreadable-chart",  "unreadable-reference", "unreadable-regions",
    "unreadable-record", "unreadable-catalogue", "unreadable-table",
    "chart-not-found",   "untrustworthy",        "cannot-write",
    "cancelled"};

}  // namespace

std::string_view code_name(ErrorCode code) { return code_names[static_cast<std::size_t>(code)]; }

std::optional<ErrorCode> code_from_name(std::string_view name) {
  const auto found = std::find(code_names.begin(), code_names.end(), name);
  if (found == code_names.end()) return std::nullopt;
  return static_cast<ErrorCode>(found - code_names.begin());
}

}  // namespace colorlib
