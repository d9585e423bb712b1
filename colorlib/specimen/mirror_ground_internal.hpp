#pragma once
/// Foil under a deposit: its wrinkles and glints stand out from it as a deposit does, and are none.

#include <colorlib/specimen/cell_mask.hpp>
#include <optional>
#include <vector>

#include <colorlib/colorimetry/color_types.hpp>

namespace colorlib {

/// Colours of the cells of one search place; cells outside the photo have none.
struct CellColors {
  CellMask grid;
  std::vector<std::optional<Lab>> lab;
};

/// What a search place shows where nothing lies.
struct Ground {
  Lab lab;
  double spread = 0;  ///< median Lab distance of its cells from `lab`
  double darkest_l =
      0;  ///< L* of the darkest hundredth of the rim's cells that have the ground's hue and chroma

  /// A mirror shows the room: dark and bright places side by side. Matt card scatters by 0.3 to 1 and foil by
  /// 4 to 5.4 on simulated scenes.
  bool is_mirror() const { return spread > 2.5; }
};

/// Whether a cell cannot be told from what a mirror with this ground shows: the same hue and chroma, or
/// lighter than any deposit.
bool mirror_like(const Lab& lab, const Ground& ground);

/// What is a deposit of the parts that stand out from a mirror, largest first.
///
/// A mirror's places differ from one another in lightness alone, and where a lamp is seen in them they are
/// lighter than any matt surface. So such cells are left out, unless their whole part is as even as a deposit
/// is and too large for a wrinkle: a white or grey deposit.
std::vector<CellPart> deposits_on_mirror(const std::vector<CellPart>& parts, const CellColors& cells,
                                         const Ground& ground);

}  // namespace colorlib
