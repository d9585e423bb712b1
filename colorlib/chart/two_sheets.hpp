#pragma once
/// Two sheets in one photo: one whose colours are known, and one beside it.

#include <colorlib/chart/chart_locator.hpp>
#include <optional>
#include <string_view>

namespace colorlib {

enum class SheetSide { left, right, above, below };
std::string_view sheet_side_name(SheetSide side);
std::optional<SheetSide> sheet_side_from(std::string_view name);

struct TwoSheetsHints {
  /// Where the known sheet lies in the photo. Needed when both sheets bear the same markers.
  std::optional<SheetSide> known_side;
  /// Of a sheet without markers, or one whose markers are hidden.
  std::optional<std::array<PointPx, 4>> known_corners, other_corners;
};

struct TwoSheets {
  LocatedSheet known, other;
};

/// Finds both. Sheets of different kinds are told apart by their markers; two prints of one kind by the side
/// that the known one lies on: a straight line across the photo must part them. Errors: bad_call (the side is
/// needed and not said, or said and another; a chart has neither markers nor corners), chart_not_found (one
/// of them, or only one sheet where two of a kind are wanted), cancelled.
Result<TwoSheets> locate_two_sheets(const Photo& photo, const ChartDefinition& known,
                                    const ChartDefinition& other, const TwoSheetsHints& hints,
                                    Progress& progress);

}  // namespace colorlib
