#pragma once
/// Finding tag36h11 markers in a grey picture. The only header and source that know the apriltag library.

#include <array>
#include <colorlib/base/image.hpp>
#include <colorlib/chart/geometry.hpp>
#include <memory>
#include <vector>

namespace colorlib {

/// One marker seen. Corners of the outer edge of its black square, in pixels of the picture searched ((0, 0)
/// is the centre of the first pixel), in the order top-left, top-right, bottom-right, bottom-left of the
/// upright marker.
struct MarkerSighting {
  int id = 0;
  std::array<PointPx, 4> corners_px{};
};

/// The mean of the four sides' lengths.
double side_px(const MarkerSighting& marker);

/// Holds the library's detector and tables (about 0.6 ms to build). One thread at a time.
class MarkerDetector {
 public:
  MarkerDetector();
  ~MarkerDetector();
  MarkerDetector(const MarkerDetector&) = delete;
  MarkerDetector& operator=(const MarkerDetector&) = delete;

  /// Markers in `grey` (1 channel). `decimate` 2 looks for squares at half resolution (four times faster),
  /// corners are then good to about 0.2 px, else 1. A mirrored marker is not found. At most one wrong bit is
  /// corrected.
  std::vector<MarkerSighting> detect(const Image8& grey, double decimate);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// How tag36h11 marker `id` is drawn: 8 x 8 cells, black border included, upright, row by row; true is white.
/// Empty when there is no such id.
std::vector<bool> marker_cells(int id);

}  // namespace colorlib
