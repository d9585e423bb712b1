#pragma once
/// Finding a sheet's markers in a whole photo, from coarse to fine.

#include <colorlib/base/progress.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/marker_detection.hpp>
#include <colorlib/image/photo.hpp>
#include <span>
#include <vector>

namespace colorlib {

/// A grey picture of part of a photo for detection, a pixel for each `block` x `block`, stretched from its 1
/// % to its 99.5 % quantile: in the file's own encoding where that is for viewing, square-rooted where it is
/// linear, so that dark and faint photos keep enough steps. Only four pixels of a block are looked at, which
/// takes a quarter of the time of averaging all. Edges are not to be measured on it.
Image8 detection_grey(const Photo& photo, const PixelRectangle& rectangle, int block);

struct MarkerSearch {
  std::vector<MarkerSighting> markers;  ///< px of the photo; every id seen, wanted or not
  int block = 1;          ///< photo pixels a pixel of the picture in which the markers were seen
  bool mirrored = false;  ///< none seen, but some in the mirrored picture
  bool cancelled = false;
};

/// Looks in a picture of about 1000 px first; when fewer than two wanted ids appear there, in finer ones of
/// up to about 5000 px; when none appears at all, in a mirrored one. `wanted(id)` says which ids count.
/// Corners are good to about one block.
MarkerSearch search_markers(const Photo& photo, MarkerDetector& detector, std::span<const int> wanted,
                            Progress& progress);

/// Looks for the markers of `chart` that `search` has not, where the ones it has say they lie; adds what it
/// finds.
void search_missing_markers(const Photo& photo, MarkerDetector& detector, const ChartDefinition& chart,
                            std::vector<MarkerSighting>& markers);

}  // namespace colorlib
