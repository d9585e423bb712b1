#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <colorlib/chart/chart_choice.hpp>
#include <colorlib/chart/placement_fit.hpp>
#include <limits>
#include <set>

namespace colorlib {
namespace {

constexpr const char* one_sheet_advice = "Photograph one sheet at a time, or say which chart is meant.";

std::string ids_text(const std::set<int>& ids) {
  std::vector<int> shown(ids.begin(), ids.end());
  const bool more = shown.size() > 8;
  if (more) shown.resize(8);
  return fmt::format("{}{}", fmt::join(shown, ", "), more ? ", ..." : "");
}

std::optional<std::size_t> marker_index(const ChartDefinition& chart, int id) {
  for (std::size_t i = 0; i < chart.markers.size(); ++i)
    if (chart.markers[i].id == id) return i;
  return std::nullopt;
}

/// Largest distance, in the marker's own sides, between a marker's corners and where `homography` has them.
double misfit(const Marker& marker, const MarkerSighting& sighting, const Matrix3& homography) {
  Placement placement;
  placement.homography = homography;
  const auto sheet = corners_of(marker);
  double worst = 0;
  for (std::size_t k = 0; k < 4; ++k) {
    const PointPx p = placement.px_from_mm(sheet[k]);
    worst = std::max(worst, std::hypot(p.x - sighting.corners_px[k].x, p.y - sighting.corners_px[k].y));
  }
  return worst / std::max(1.0, side_px(sighting));
}

/// Worst misfit of all markers but `left_out` (-1: of all) about their own homography.
double misfit_without(const ChartDefinition& chart, const ChartChoice& choice, int left_out) {
  std::vector<PointPair> pairs;
  for (std::size_t i = 0; i < choice.marker.size(); ++i) {
    if (static_cast<int>(i) == left_out) continue;
    const auto sheet = corners_of(chart.markers[choice.marker[i]]);
    for (std::size_t k = 0; k < 4; ++k) pairs.push_back({sheet[k], choice.sighting[i].corners_px[k]});
  }
  const auto homography = homography_from_pairs(pairs);
  if (!homography) return std::numeric_limits<double>::infinity();
  double worst = 0;
  for (std::size_t i = 0; i < choice.marker.size(); ++i)
    if (static_cast<int>(i) != left_out)
      worst = std::max(worst, misfit(chart.markers[choice.marker[i]], choice.sighting[i], *homography));
  return worst;
}

/// The charts shipped that have a marker of each of these ids.
std::vector<std::string> shipped_charts_with(const std::set<int>& ids) {
  std::vector<std::string> names;
  if (const auto charts = shipped_charts())
    for (const ChartDefinition& chart : *charts)
      if (std::all_of(ids.begin(), ids.end(), [&](int id) { return marker_index(chart, id).has_value(); }))
        names.push_back(chart.name);
  return names;
}

tl::unexpected<Error> another_chart(std::span<const ChartDefinition> candidates, const std::set<int>& ids) {
  const auto known = shipped_charts_with(ids);
  const std::string seen =
      fmt::format("Looking for {}: the photo shows markers (id {}) of another chart only",
                  names_of(candidates), ids_text(ids));
  if (known.size() != 1)
    return fail(ErrorCode::chart_not_found, seen + ".",
                "Say which chart is in the photo, or give its definition file.");
  return fail(ErrorCode::chart_not_found, fmt::format("{}: they are those of {}.", seen, known.front()),
              fmt::format("Name {} as the chart, or photograph the one that was named.", known.front()));
}

}  // namespace

std::string names_of(std::span<const ChartDefinition> candidates) {
  if (candidates.size() == 1) return fmt::format("chart {}", candidates[0].name);
  if (candidates.size() == 2) return fmt::format("chart {} or {}", candidates[0].name, candidates[1].name);
  return fmt::format("any of {} charts", candidates.size());
}

std::array<PointMm, 4> corners_of(const Marker& m) {
  return {{{m.x_mm, m.y_mm},
           {m.x_mm + m.side_mm, m.y_mm},
           {m.x_mm + m.side_mm, m.y_mm + m.side_mm},
           {m.x_mm, m.y_mm + m.side_mm}}};
}

Result<ChartChoice> choose_chart(std::span<const MarkerSighting> seen,
                                 std::span<const ChartDefinition> candidates) {
  std::set<int> all_ids, foreign_ids;
  for (const MarkerSighting& s : seen) all_ids.insert(s.id);
  foreign_ids = all_ids;
  std::vector<std::set<int>> own(candidates.size());
  for (std::size_t c = 0; c < candidates.size(); ++c)
    for (const int id : all_ids)
      if (marker_index(candidates[c], id)) {
        own[c].insert(id);
        foreign_ids.erase(id);
      }
  std::size_t best = 0;
  for (std::size_t c = 1; c < candidates.size(); ++c)
    if (own[c].size() > own[best].size()) best = c;
  if (own[best].empty()) return another_chart(candidates, all_ids);
  for (std::size_t c = 0; c < candidates.size(); ++c)
    if (c != best && own[c].size() >= 2 && own[c] != own[best])
      return fail(
          ErrorCode::chart_not_found,
          fmt::format("Looking for {}: the photo shows two charts, {} (markers {}) and {} (markers {}).",
                      names_of(candidates), candidates[best].name, ids_text(own[best]), candidates[c].name,
                      ids_text(own[c])),
          one_sheet_advice);
    else if (c != best && own[c] == own[best] && candidates[c].name != candidates[best].name)
      return fail(
          ErrorCode::chart_not_found,
          fmt::format("Looking for {}: the markers seen ({}) belong to both {} and {}.", names_of(candidates),
                      ids_text(own[best]), candidates[best].name, candidates[c].name),
          "Say which of the two is in the photo.");

  ChartChoice choice;
  choice.chart = best;
  std::set<int> twice;
  for (const MarkerSighting& s : seen) {
    const auto index = marker_index(candidates[best], s.id);
    if (!index) continue;
    if (std::find(choice.marker.begin(), choice.marker.end(), *index) != choice.marker.end()) {
      twice.insert(s.id);
      continue;
    }
    choice.marker.push_back(*index);
    choice.sighting.push_back(s);
  }
  if (!twice.empty())
    return fail(
        ErrorCode::chart_not_found,
        fmt::format(
            "Looking for {}: marker {} appears more than once, so two copies of the sheet are in the photo.",
            names_of(candidates), ids_text(twice)),
        "Photograph one sheet at a time.");
  if (!foreign_ids.empty())
    choice.remarks.push_back(
        fmt::format("Markers of another chart are in the photo too (id {}).", ids_text(foreign_ids)));
  return choice;
}

int drop_misplaced_marker(const ChartDefinition& chart, ChartChoice& choice) {
  if (choice.marker.size() < 3) return -1;
  // Lens distortion of 3 % moves corners by up to about 0.06 of a marker's side.
  constexpr double wrong = 0.15, right = 0.08;
  const double together = misfit_without(chart, choice, -1);
  if (together < wrong) return -1;
  int culprit = -1;
  double best = std::min(right, 0.4 * together);
  for (std::size_t i = 0; i < choice.marker.size(); ++i) {
    const double rest = misfit_without(chart, choice, static_cast<int>(i));
    if (rest < best) {
      best = rest;
      culprit = static_cast<int>(i);
    }
  }
  if (culprit < 0) return -1;
  const int id = choice.sighting[static_cast<std::size_t>(culprit)].id;
  choice.marker.erase(choice.marker.begin() + culprit);
  choice.sighting.erase(choice.sighting.begin() + culprit);
  return id;
}

}  // namespace colorlib
