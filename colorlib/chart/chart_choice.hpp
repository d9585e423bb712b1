#pragma once
/// Which chart the markers in a photo belong to.

#include <colorlib/base/result.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/marker_detection.hpp>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace colorlib {

/// A chart's own markers as seen; `marker[i]` indexes the definition, `sighting[i]` is the same one in the
/// photo.
struct ChartChoice {
  std::size_t chart = 0;  ///< index into the candidates
  std::vector<std::size_t> marker;
  std::vector<MarkerSighting> sighting;
  std::vector<std::string> remarks;  ///< what else was seen, in words
};

/// The candidate with most markers in the photo. Errors: chart_not_found: no marker of any candidate, two
/// charts at once, two copies of one chart; the ids seen are named.
Result<ChartChoice> choose_chart(std::span<const MarkerSighting> seen,
                                 std::span<const ChartDefinition> candidates);

/// "frame-a5", "frame-a5 or strip", "any of the 5 charts".
std::string names_of(std::span<const ChartDefinition> candidates);

/// Corners of a marker's black square on the sheet, in the order of MarkerSighting::corners_px.
std::array<PointMm, 4> corners_of(const Marker& marker);

/// Leaves out a marker that does not lie where at least two others agree that it should. Returns its id, or
/// -1.
int drop_misplaced_marker(const ChartDefinition& chart, ChartChoice& choice);

}  // namespace colorlib
