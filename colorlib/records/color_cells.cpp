#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <colorlib/records/color_cells_internal.hpp>

namespace colorlib {
namespace {

struct Axis {
  std::string_view column;
  double below;  ///< added to a coordinate, so that the first cell begins at 0
  int cells;     ///< of one unit
};
constexpr std::array axes{Axis{"l", 0, 128}, Axis{"a", 128, 256}, Axis{"b", 128, 256}};

/// The same arithmetic as color_cell_sql: rounding cannot part a colour from its cell.
long long cell_along(const Axis& axis, double value) {
  return static_cast<long long>(std::clamp(value + axis.below, 0.0, axis.cells - 1.0));
}

}  // namespace

std::string color_cell_sql() {
  std::string sql;
  for (const Axis& axis : axes) {
    const std::string along =
        fmt::format("min(max(cast({} + {:.1f} AS integer), 0), {})", axis.column, axis.below, axis.cells - 1);
    sql = sql.empty() ? along : fmt::format("({}) * {} + {}", sql, axis.cells, along);
  }
  return sql;
}

ColorCells color_cells(const Vector3& low, const Vector3& high) {
  std::array<long long, 3> from{}, to{};
  for (std::size_t i = 0; i < axes.size(); ++i) {
    from[i] = cell_along(axes[i], low[i]);
    to[i] = cell_along(axes[i], high[i]);
  }
  ColorCells cells;
  cells.more = to[2] - from[2];
  for (long long l = from[0]; l <= to[0]; ++l)
    for (long long a = from[1]; a <= to[1]; ++a)
      cells.first.push_back((l * axes[1].cells + a) * axes[2].cells + from[2]);
  return cells;
}

}  // namespace colorlib
