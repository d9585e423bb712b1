#pragma once
/// Which regions a series follows, and whether their controls lie where a control can.

#include <colorlib/base/result.hpp>
#include <colorlib/specimen/regions.hpp>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace colorlib {

/// The ids of the spots and bruises: what a course is made of.
std::vector<std::string> followed_regions(const Regions& regions);

/// Whether a region of this id and kind is one of a spot's controls: those it names (`named`), else every
/// control and water region.
bool serves_as_control(std::string_view id, RegionKind kind, std::string_view spot_id,
                       const std::vector<std::string>& named);

/// Every control has to lie beside what it serves: where both share a place, the reaction itself would be
/// taken out as what light and wetting did. Outlines that touch do not share one. Errors: unreadable_regions,
/// naming both.
Result<std::monostate> check_controls_apart(const Regions& regions);

}  // namespace colorlib
