#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/reaction/followed_regions.hpp>

namespace colorlib {
namespace {

bool is_followed(const Region& region) {
  return region.kind == RegionKind::spot || region.kind == RegionKind::bruise;
}

/// Whether some point lies in both, looked for on a grid over what their bounds share.
bool share_a_place(const Region& a, const Region& b) {
  const auto [a_left, a_top, a_right, a_bottom] = a.bounds();
  const auto [b_left, b_top, b_right, b_bottom] = b.bounds();
  const double left = std::max(a_left, b_left), right = std::min(a_right, b_right);
  const double top = std::max(a_top, b_top), bottom = std::min(a_bottom, b_bottom);
  if (!(right > left && bottom > top)) return false;
  constexpr int cells = 50;
  for (int row = 0; row < cells; ++row)
    for (int column = 0; column < cells; ++column) {
      const double x = left + (right - left) * (column + 0.5) / cells;
      const double y = top + (bottom - top) * (row + 0.5) / cells;
      if (a.contains(x, y) && b.contains(x, y)) return true;
    }
  return false;
}

}  // namespace

std::vector<std::string> followed_regions(const Regions& regions) {
  std::vector<std::string> ids;
  for (const Region& region : regions.items)
    if (is_followed(region)) ids.push_back(region.id);
  return ids;
}

bool serves_as_control(std::string_view id, RegionKind kind, std::string_view spot_id,
                       const std::vector<std::string>& named) {
  if (id == spot_id) return false;
  if (!named.empty()) return std::find(named.begin(), named.end(), id) != named.end();
  return kind == RegionKind::control || kind == RegionKind::water;
}

Result<std::monostate> check_controls_apart(const Regions& regions) {
  for (const Region& spot : regions.items) {
    if (!is_followed(spot)) continue;
    for (const Region& control : regions.items)
      if (serves_as_control(control.id, control.kind, spot.id, spot.controls) && share_a_place(control, spot))
        return fail(ErrorCode::unreadable_regions,
                    fmt::format("Following {} '{}': its control, {} '{}', lies partly or wholly on the same "
                                "place, so the reaction would be taken out with it; a control has to lie "
                                "beside what it is compared with.",
                                region_kind_name(spot.kind), quotable(spot.id),
                                region_kind_name(control.kind), quotable(control.id)),
                    "Move the control clear of the drop and of where it spreads, or leave it out.");
  }
  return std::monostate{};
}

}  // namespace colorlib
