#pragma once
/// A mask of equal cells over a rectangle of the sheet, and the few things done with it.

#include <colorlib/chart/geometry.hpp>
#include <cstdint>
#include <vector>

namespace colorlib {

struct CellMask {
  RectangleMm place;
  double cell_mm = 1;
  int rows = 0, columns = 0;
  std::vector<std::uint8_t> set;

  CellMask() = default;
  CellMask(const RectangleMm& place_, double cell_mm_);
  PointMm centre(int row, int column) const {
    return {place.x + (column + 0.5) * cell_mm, place.y + (row + 0.5) * cell_mm};
  }
  bool at(int row, int column) const {
    return row >= 0 && column >= 0 && row < rows && column < columns && set[index(row, column)];
  }
  std::size_t index(int row, int column) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
           static_cast<std::size_t>(column);
  }
  double area_mm2() const;
};

/// A cell is set when most of its 3 x 3 neighbourhood is: single noisy cells vanish, outlines stay.
CellMask majority_smoothed(const CellMask& mask);
/// Without the cells nearer than `distance_mm` to an unset cell.
CellMask eroded(const CellMask& mask, double distance_mm);
/// The 4-connected parts, largest first.
std::vector<CellMask> connected_parts(const CellMask& mask);
/// The outline of the largest part in mm, corners only; empty for an empty mask. Holes of at least
/// `least_hole_mm2` follow the outer loop, joined to its first corner by a bridge there and back, so that the
/// even-odd rule leaves them out.
std::vector<PointMm> outline(const CellMask& mask, double least_hole_mm2);

}  // namespace colorlib
