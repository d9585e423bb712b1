#pragma once
/// Cells of L*, a*, b* by which SQLite finds colours: cubes of one unit, numbered so that cells that follow
/// one another along b* have numbers that do. Colours outside L* 0 to 128 and a*, b* -128 to 128 count to the
/// cells at the edge. For .cpp files only.

#include <colorlib/base/small_matrix.hpp>
#include <string>
#include <vector>

namespace colorlib {

/// SQL for the number of the cell of columns l, a and b. The schema holds it: it never changes.
std::string color_cell_sql();

/// Runs of cells, each from `first` to `first + more`.
struct ColorCells {
  std::vector<long long> first;
  long long more = 0;
};

/// The cells in which a colour between `low` and `high` (L*, a*, b*) may lie.
ColorCells color_cells(const Vector3& low, const Vector3& high);

}  // namespace colorlib
