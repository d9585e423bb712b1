#pragma once
/// Small cells of the photo about places of a region's frame: pixels averaged against noise.

#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/regions.hpp>
#include <optional>
#include <vector>

namespace colorlib {

struct ClearPlaces;

/// A cell of the photo on the sheet: its pixels and their mean colour.
struct Cell {
  std::vector<SheetPixel> pixels;
  Lab lab;
  Vector3 root{};  ///< cube roots of the responses
};

/// From the ground's cube roots to the mean of the cells': how little a cell looks like the ground.
struct WayFromGround {
  WayFromGround(const std::vector<Cell>& cells, const Xyz& ground);
  double along(const Cell& cell) const;  ///< larger: less like the ground
  Vector3 way{};
};

/// Everything needed to turn a place in the region's frame into pixels.
class Cells {
 public:
  /// Cells of `cell_mm` for places in and round `region`.
  Cells(const Photo& photo, const Placement& placement, const Calibration& calibration, const Region& region,
        RegionFrame frame, double cell_mm);

  double scale() const { return scale_; }  ///< units of the frame a millimetre, at the region
  double step() const { return step_; }    ///< units of the frame a cell
  PointMm mm(double x, double y) const {
    return frame_ == RegionFrame::chart_mm ? PointMm{x, y} : placement_.mm_from_px({x, y});
  }
  /// The cell about (x, y); none when it leaves the photo.
  std::optional<Cell> at(double x, double y) const;
  /// Those in `region`, in `clear` when that is not null; about `most` at most, evenly spread.
  std::vector<Cell> within(const Region& region, const ClearPlaces* clear, double most) const;

 private:
  const Photo& photo_;
  const Placement& placement_;
  const Calibration& calibration_;
  RegionFrame frame_;
  double scale_, step_;
};

}  // namespace colorlib
