#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/chart/two_sheets.hpp>
#include <set>

namespace colorlib {
namespace {

constexpr std::size_t least_of_each = 2;  // markers that place a sheet
constexpr double most_turned_deg = 40,
                 turn_step_deg = 4;  // of the line between the sheets against the photo's edges

std::set<int> ids_of(const ChartDefinition& chart) {
  std::set<int> ids;
  for (const Marker& marker : chart.markers) ids.insert(marker.id);
  return ids;
}

bool share_markers(const ChartDefinition& a, const ChartDefinition& b) {
  const auto of_a = ids_of(a), of_b = ids_of(b);
  return std::any_of(of_a.begin(), of_a.end(), [&](int id) { return of_b.contains(id); });
}

PointPx centre_of(const MarkerSighting& marker) {
  PointPx centre;
  for (const PointPx& corner : marker.corners_px) centre = {centre.x + corner.x / 4, centre.y + corner.y / 4};
  return centre;
}

/// Whether these markers can be one sheet's.
bool one_sheet(std::span<const MarkerSighting> markers) {
  std::set<int> ids;
  for (const MarkerSighting& marker : markers)
    if (!ids.insert(marker.id).second) return false;
  return ids.size() >= least_of_each;
}

using Parts = std::array<std::vector<MarkerSighting>, 2>;

/// The widest gap along any direction near `axis_deg` (0: to the right, 90: down) that leaves no marker twice
/// on either side. First what lies at its beginning.
std::optional<Parts> parted_along(std::vector<MarkerSighting> markers, double axis_deg) {
  std::optional<Parts> parts;
  double widest = 0;
  for (double turn = -most_turned_deg; turn <= most_turned_deg; turn += turn_step_deg) {
    const double angle = (axis_deg + turn) * 0.017453292519943295;
    const auto place = [&](const MarkerSighting& marker) {
      const PointPx centre = centre_of(marker);
      return std::cos(angle) * centre.x + std::sin(angle) * centre.y;
    };
    std::sort(markers.begin(), markers.end(),
              [&](const MarkerSighting& a, const MarkerSighting& b) { return place(a) < place(b); });
    for (std::size_t cut = 1; cut < markers.size(); ++cut) {
      const double gap = place(markers[cut]) - place(markers[cut - 1]);
      const std::span all(markers);
      if (gap <= widest || !one_sheet(all.first(cut)) || !one_sheet(all.subspan(cut))) continue;
      widest = gap;
      const auto middle = markers.begin() + static_cast<std::ptrdiff_t>(cut);
      parts = Parts{std::vector(markers.begin(), middle), std::vector(middle, markers.end())};
    }
  }
  return parts;
}

/// The markers of the known and of the other sheet.
Result<std::array<MarkerSearch, 2>> parted(const Photo& photo, const ChartDefinition& known,
                                           const ChartDefinition& other, SheetSide side, Progress& progress) {
  std::vector<int> wanted;
  for (const ChartDefinition* chart : {&known, &other})
    for (const Marker& marker : chart->markers) wanted.push_back(marker.id);
  MarkerDetector detector;
  MarkerSearch search = search_markers(photo, detector, wanted, progress);
  const bool sideways = side == SheetSide::left || side == SheetSide::right;
  const auto of_these = [&](std::vector<MarkerSighting> markers) {
    std::erase_if(markers, [&](const MarkerSighting& m) {
      return std::find(wanted.begin(), wanted.end(), m.id) == wanted.end();
    });
    return markers;
  };
  // A search ends with two markers, which may be of one sheet; finer pictures show more.
  auto markers = of_these(search.markers);
  auto parts = parted_along(markers, sideways ? 0 : 90);
  for (int block = search.block; markers.size() < wanted.size(); block /= 2) {
    if (progress.cancelled())
      return fail(ErrorCode::cancelled, "Looking for the sheets was stopped.", "Start again when ready.");
    auto more = of_these(
        detector.detect(detection_grey(photo, {0, 0, photo.width_px(), photo.height_px()}, block), 1));
    for (MarkerSighting& marker : more)
      for (PointPx& corner : marker.corners_px)
        corner = {(corner.x + 0.5) * block - 0.5, (corner.y + 0.5) * block - 0.5};
    if (more.size() > markers.size()) {
      markers = std::move(more);
      search.block = block;
      if (auto better = parted_along(markers, sideways ? 0 : 90)) parts = std::move(better);
    }
    if (block == 1) break;
  }
  if (!parts)
    return fail(
        ErrorCode::chart_not_found,
        fmt::format("Looking for two sheets in '{}': of the {} markers seen, no line parts two sheets, one "
                    "of them {}.",
                    photo.name(), markers.size(), sheet_side_name(side)),
        "Lay both sheets wholly into the frame, side by side, and say on which side the known one lies.");
  std::array<MarkerSearch, 2> found;
  const bool known_first = side == SheetSide::left || side == SheetSide::above;
  for (std::size_t i = 0; i < 2; ++i) {
    found[i].markers = std::move((*parts)[known_first ? i : 1 - i]);
    found[i].block = search.block;
  }
  return found;
}

Result<LocatedSheet> located(const Photo& photo, const ChartDefinition& chart,
                             const std::optional<std::array<PointPx, 4>>& corners,
                             std::optional<MarkerSearch> seen, Progress& progress) {
  if (corners) return locate_sheet_by_corners(photo, chart, *corners, {}, progress);
  LocateOptions options;
  options.seen = std::move(seen);
  return locate_sheet(photo, std::span(&chart, 1), options, progress);
}

/// Sheets side by side share at most a margin that one lays over the other; a sheet taken for two shares all
/// but what its two placements differ by.
constexpr double most_shared = 0.25;

/// Share of the other sheet's area that lies on the known one.
double shared_area(const TwoSheets& sheets, const ChartDefinition& known, const ChartDefinition& other) {
  constexpr int steps = 20;  // cells of 1 cm on an A5 sheet: much finer than a quarter of the sheet
  int inside = 0;
  for (int i = 0; i < steps; ++i)
    for (int j = 0; j < steps; ++j) {
      const PointMm on_other{(i + 0.5) * other.width_mm / steps, (j + 0.5) * other.height_mm / steps};
      const PointMm on_known = sheets.known.placement.mm_from_px(sheets.other.placement.px_from_mm(on_other));
      inside +=
          on_known.x >= 0 && on_known.y >= 0 && on_known.x <= known.width_mm && on_known.y <= known.height_mm;
    }
  return static_cast<double>(inside) / (steps * steps);
}

/// Where the known sheet lies beside the other in the photo, when that is surely not `said`.
std::optional<SheetSide> contradicting_side(const TwoSheets& sheets, const ChartDefinition& known,
                                            const ChartDefinition& other, SheetSide said) {
  const PointPx to = sheets.known.placement.px_from_mm({known.width_mm / 2, known.height_mm / 2}),
                from = sheets.other.placement.px_from_mm({other.width_mm / 2, other.height_mm / 2});
  const double dx = to.x - from.x, dy = to.y - from.y;
  // How far it lies to the side that was said, and across.
  const bool sideways = said == SheetSide::left || said == SheetSide::right;
  const double along = said == SheetSide::right   ? dx
                       : said == SheetSide::left  ? -dx
                       : said == SheetSide::below ? dy
                                                  : -dy;
  constexpr double steepest = 2;  // sheets may lie a little staggered, and the camera be turned
  if (along > 0 && std::abs(sideways ? dy : dx) <= steepest * along) return std::nullopt;
  if (std::abs(dx) > std::abs(dy)) return dx > 0 ? SheetSide::right : SheetSide::left;
  return dy > 0 ? SheetSide::below : SheetSide::above;
}

}  // namespace

std::string_view sheet_side_name(SheetSide side) {
  switch (side) {
    case SheetSide::left:
      return "left";
    case SheetSide::right:
      return "right";
    case SheetSide::above:
      return "above";
    case SheetSide::below:
      break;
  }
  return "below";
}

std::optional<SheetSide> sheet_side_from(std::string_view name) {
  for (const SheetSide side : {SheetSide::left, SheetSide::right, SheetSide::above, SheetSide::below})
    if (sheet_side_name(side) == name) return side;
  return std::nullopt;
}

Result<TwoSheets> locate_two_sheets(const Photo& photo, const ChartDefinition& known,
                                    const ChartDefinition& other, const TwoSheetsHints& hints,
                                    Progress& progress) {
  for (const auto& [chart, corners] :
       {std::pair(&known, &hints.known_corners), std::pair(&other, &hints.other_corners)})
    if (chart->markers.empty() && !*corners)
      return fail(ErrorCode::bad_call,
                  fmt::format("Looking for two sheets in '{}': chart {} has no markers to be found by.",
                              photo.name(), chart->name),
                  "Give this sheet's four corners in each photo.");
  const bool one_kind = share_markers(known, other);
  std::optional<MarkerSearch> known_part, other_part;
  if (one_kind && !(hints.known_corners && hints.other_corners)) {
    if (!hints.known_side)
      return fail(
          ErrorCode::bad_call,
          fmt::format(
              "Looking for two sheets in '{}': {} and {} bear the same markers, so nothing says which sheet "
              "is the known one.",
              photo.name(), known.name, other.name),
          "Say on which side of the photos the known sheet lies: left, right, above or below.");
    auto parts = parted(photo, known, other, *hints.known_side, progress);
    if (!parts) return fail(parts.error());
    known_part = std::move((*parts)[0]);
    other_part = std::move((*parts)[1]);
  }
  auto first = located(photo, known, hints.known_corners, std::move(known_part), progress);
  if (!first) return fail(first.error());
  auto second = located(photo, other, hints.other_corners, std::move(other_part), progress);
  if (!second) return fail(second.error());
  TwoSheets sheets{std::move(*first), std::move(*second)};
  // The markers of one sheet, parted in two, place it twice.
  if (one_kind && shared_area(sheets, known, other) > most_shared)
    return fail(
        ErrorCode::chart_not_found,
        fmt::format("Looking for two sheets in '{}': only one sheet was found; both places lie on it.",
                    photo.name()),
        "Lay the known and the other sheet wholly into the frame, side by side, and take the photo "
        "again.");
  if (hints.known_side)
    if (const auto lies = contradicting_side(sheets, known, other, *hints.known_side))
      return fail(
          ErrorCode::bad_call,
          fmt::format("Looking for two sheets in '{}': the known sheet is said to lie {}, and it lies {}.",
                      photo.name(), sheet_side_name(*hints.known_side), sheet_side_name(*lies)),
          "Say where it lies in each photo; sheets of different kinds are told apart without it.");
  return sheets;
}

}  // namespace colorlib
