#pragma once
/// A mask of equal cells over a rectangle of the sheet, and the few things done with it.

#include <colorlib/chart/geometry.hpp>
#include <cstddef>
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
  double area_mm2(std::size_t cells) const { return static_cast<double>(cells) * cell_mm * cell_mm; }
};

/// A cell is set when most of its 3 x 3 neighbourhood is: single noisy cells vanish, outlines stay.
CellMask majority_smoothed(const CellMask& mask);
/// Without the cells nearer than `distance_mm` to an unset cell.
CellMask eroded(const CellMask& mask, double distance_mm);
/// One connected part of a mask: the indices of its cells, rising. However many parts there are, together
/// they hold each set cell once.
using CellPart = std::vector<std::size_t>;
/// The 4-connected parts, largest first.
std::vector<CellPart> connected_parts(const CellMask& mask);
/// The parts of what smoothing (`majority_smoothed`) leaves of some cells of `grid`, largest first; worked
/// out in the rectangle about them alone.
std::vector<CellPart> smoothed_parts(const CellPart& cells, const CellMask& grid);
/// These cells alone, over the place of `grid`.
CellMask mask_of(const CellPart& cells, const CellMask& grid);
/// The outline of the largest part in mm, corners only; empty for an empty mask. Holes of at least
/// `least_hole_mm2` follow the outer loop, joined to its first corner by a bridge there and back, so that the
/// even-odd rule leaves them out.
std::vector<PointMm> outline(const CellMask& mask, double least_hole_mm2);

}  // namespace colorlib
