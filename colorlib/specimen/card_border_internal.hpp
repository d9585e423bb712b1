#pragma once
/// Where two cards in one opening meet.

#include <colorlib/specimen/cell_mask.hpp>
#include <optional>
#include <vector>

namespace colorlib {

/// A straight line between two cards, in mm on the sheet.
struct CardBorder {
  PointMm on;      ///< a point of it
  PointMm normal;  ///< unit length, toward the second card

  bool on_second(const PointMm& p) const { return (p.x - on.x) * normal.x + (p.y - on.y) * normal.y > 0; }
};

/// From the places where one card is seen bare right beside the other. None: they are seen so along less than
/// a centimetre, or a straight line does not part them, as where one card lies upon the other.
std::optional<CardBorder> card_border(const CellMask& first, const CellMask& second);

/// The connected pieces on either side of the border, smaller ones than `least_area_mm2` left out.
std::vector<CellPart> parted(const CellPart& part, const CellMask& grid, const CardBorder& border,
                             double least_area_mm2);

/// Whether both cards are seen along a tenth or more of what is seen of cards round the part.
bool lies_across(const CellPart& part, const CellMask& first, const CellMask& second);

}  // namespace colorlib
