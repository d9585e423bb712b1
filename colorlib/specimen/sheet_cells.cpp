#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/clear_places.hpp>
#include <colorlib/specimen/narrow_responses.hpp>
#include <colorlib/specimen/sheet_cells_internal.hpp>

namespace colorlib {

Cells::Cells(const Photo& photo, const Placement& placement, const Calibration& calibration,
             const Region& region, RegionFrame frame, double cell_mm)
    : photo_(photo), placement_(placement), calibration_(calibration), frame_(frame) {
  const auto [left, top, right, bottom] = region.bounds();
  const PointMm centre = mm((left + right) / 2, (top + bottom) / 2);
  scale_ = frame == RegionFrame::chart_mm ? 1 : placement.px_per_mm(centre);
  step_ = cell_mm * scale_;
}

std::optional<Cell> Cells::at(double x, double y) const {
  const PointPx middle = frame_ == RegionFrame::chart_mm ? placement_.px_from_mm({x, y}) : PointPx{x, y};
  const double px_step = frame_ == RegionFrame::chart_mm ? step_ * placement_.px_per_mm({x, y}) : step_;
  const int side = std::clamp(static_cast<int>(px_step), 1, 3);
  Cell cell;
  Vector3 sum{};
  for (int i = 0; i < side; ++i)
    for (int j = 0; j < side; ++j) {
      const double dx = ((i + 0.5) / side - 0.5) * px_step, dy = ((j + 0.5) / side - 0.5) * px_step;
      const double column = std::round(middle.x + dx), row = std::round(middle.y + dy);
      if (!(column >= 0 && row >= 0 && column < photo_.width_px() && row < photo_.height_px()))
        return std::nullopt;
      const SheetPixel pixel{placement_.mm_from_px({column, row}),
                             photo_.encoded_at(static_cast<int>(column), static_cast<int>(row))};
      const Vector3 xyz = vector_from(calibration_.xyz_from_pixel(pixel));
      for (std::size_t k = 0; k < 3; ++k) sum[k] += xyz[k] / (side * side);
      cell.pixels.push_back(pixel);
    }
  cell.lab = lab_from_xyz(xyz_from(sum), white_d50);
  cell.root = narrow_roots(xyz_from(sum));
  return cell;
}

WayFromGround::WayFromGround(const std::vector<Cell>& cells, const Xyz& ground) {
  const Vector3 bare = narrow_roots(ground);
  for (std::size_t k = 0; k < 3; ++k) {
    for (const Cell& cell : cells) way[k] += cell.root[k] / static_cast<double>(cells.size());
    way[k] -= bare[k];
  }
}

double WayFromGround::along(const Cell& cell) const {
  return cell.root[0] * way[0] + cell.root[1] * way[1] + cell.root[2] * way[2];
}

std::vector<Cell> Cells::within(const Region& region, const ClearPlaces* clear, double most) const {
  const auto [left, top, right, bottom] = region.bounds();
  const double stride = std::max(step_, std::sqrt((right - left) * (bottom - top) / most));
  std::vector<Cell> found;
  for (double y = top + stride / 2; y < bottom; y += stride)
    for (double x = left + stride / 2; x < right; x += stride)
      if (region.contains(x, y) && (clear == nullptr || clear->contains(x, y)))
        if (auto cell = at(x, y)) found.push_back(std::move(*cell));
  return found;
}

}  // namespace colorlib
