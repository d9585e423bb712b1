#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/calibration/pixel_lattice_internal.hpp>

namespace colorlib {
namespace {

constexpr std::uint32_t nobody = ~std::uint32_t{0};
constexpr double sideways = 0.3;             // of a step: a pixel that far aside begins a row
constexpr std::size_t most_cells_each = 16;  // a lattice emptier than that is none

struct Lattice {
  PointMm along, across;  ///< one step
};

/// A step of length 0 when there is none.
Lattice lattice_of(std::span<const SheetPixel> pixels) {
  Lattice lattice{{0, 0}, {0, 0}};
  if (pixels.size() < 2) return lattice;
  std::vector<double> x, y;
  for (std::size_t i = 1; i < pixels.size(); ++i) {
    x.push_back(pixels[i].place.x - pixels[i - 1].place.x);
    y.push_back(pixels[i].place.y - pixels[i - 1].place.y);
  }
  std::vector<double> sorted_x = x, sorted_y = y;
  lattice.along = {median(sorted_x), median(sorted_y)};
  const double length = std::hypot(lattice.along.x, lattice.along.y);
  if (!(length > 0)) return lattice;
  std::vector<double> rows;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double aside = (lattice.along.x * y[i] - lattice.along.y * x[i]) / length;
    if (std::abs(aside) > sideways * length) rows.push_back(aside);
  }
  const double height = rows.empty() ? length : median(rows);
  lattice.across = {-lattice.along.y / length * height, lattice.along.x / length * height};
  return lattice;
}

}  // namespace

std::vector<Neighbourhood> lattice_neighbours(std::span<const SheetPixel> pixels) {
  std::vector<Neighbourhood> all(pixels.size());
  for (std::size_t i = 0; i < pixels.size(); ++i) all[i].fill(static_cast<std::uint32_t>(i));
  const auto [along, across] = lattice_of(pixels);
  const double along2 = along.x * along.x + along.y * along.y,
               across2 = across.x * across.x + across.y * across.y;
  if (!(along2 > 0 && across2 > 0)) return all;

  struct Cell {
    double column, row;
  };
  std::vector<Cell> cells;
  double left = INFINITY, right = -INFINITY, top = INFINITY, bottom = -INFINITY;
  for (const auto& pixel : pixels) {
    const double dx = pixel.place.x - pixels[0].place.x, dy = pixel.place.y - pixels[0].place.y;
    const Cell cell{std::round((dx * along.x + dy * along.y) / along2),
                    std::round((dx * across.x + dy * across.y) / across2)};
    left = std::min(left, cell.column), right = std::max(right, cell.column);
    top = std::min(top, cell.row), bottom = std::max(bottom, cell.row);
    cells.push_back(cell);
  }
  // A rim of one empty cell saves asking for the edge.
  const double columns = right - left + 3, rows = bottom - top + 3;
  if (!(columns * rows <= static_cast<double>(most_cells_each * (pixels.size() + 64)))) return all;
  const auto width = static_cast<std::size_t>(columns);
  const auto index = [&](const Cell& c) {
    return static_cast<std::size_t>(c.row - top + 1) * width + static_cast<std::size_t>(c.column - left + 1);
  };
  std::vector<std::uint32_t> grid(width * static_cast<std::size_t>(rows), nobody);
  for (std::size_t i = 0; i < pixels.size(); ++i) grid[index(cells[i])] = static_cast<std::uint32_t>(i);

  for (std::size_t i = 0; i < pixels.size(); ++i) {
    const std::size_t middle = index(cells[i]);
    const auto at = [&](std::size_t k) { return grid[middle + (k / 3) * width + k % 3 - width - 1]; };
    for (std::size_t k = 0; k < 9; ++k) {
      if (k == 4) continue;
      const std::uint32_t there = at(k), opposite = at(8 - k);
      if (there != nobody)
        all[i][k] = there;
      else if (opposite != nobody)
        all[i][k] = opposite;
    }
  }
  return all;
}

}  // namespace colorlib
