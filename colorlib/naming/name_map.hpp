#pragma once
/// The names' regions in a plane of equal lightness, for diagrams.

#include <colorlib/naming/namer.hpp>
#include <string>
#include <vector>

namespace colorlib {

/// A square lattice over a* and b* at one L*.
struct NameMap {
  double l = 50;
  double a_low = 0, b_low = 0, step = 1;
  int columns = 0, rows = 0;  ///< a* grows with the column, b* with the row
  std::vector<int> name;      ///< index into names_at(level) of each node, row by row
  struct Label {
    std::string text;
    double a = 0, b = 0;  ///< the node of the name's area that lies deepest inside it
    int nodes = 0;        ///< of the area, for leaving out small ones
  };
  std::vector<Label> labels;  ///< largest area first
};

/// `half_width` on either side of a*, b* = `center`; exact at every node (Namer::blocks_of).
NameMap name_map(const Namer& namer, const Lab& center, double half_width, double step, NameLevel level);

}  // namespace colorlib
