#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/specimen/card_border_internal.hpp>

namespace colorlib {
namespace {

constexpr double widest_seam_mm = 2;      // shadow and blur between the cards, like neither
constexpr double least_length_mm = 10;    // of border that is seen bare
constexpr double most_off_line_mm = 1;    // of a place of a straight border
constexpr double least_on_line = 0.8;     // of the places where the cards meet
constexpr double most_wrong_side = 0.02;  // of a card's cells
constexpr double round_mm = 3;            // about a part, where its cards are looked for
constexpr double least_share = 0.1;       // of what is seen of cards there

/// Middles between a cell of one card and the next one of the other, along rows and columns.
std::vector<PointMm> meeting_places(const CellMask& first, const CellMask& second) {
  const int widest = static_cast<int>(widest_seam_mm / first.cell_mm);
  std::vector<PointMm> places;
  const auto along = [&](int lines, int cells, const auto& row, const auto& column) {
    for (int line = 0; line < lines; ++line) {
      int last = -1;
      bool last_first = false;
      for (int i = 0; i < cells; ++i) {
        const int r = row(line, i), c = column(line, i);
        const bool is_first = first.at(r, c);
        if (is_first == second.at(r, c)) continue;
        if (last >= 0 && is_first != last_first && i - last <= widest) {
          const PointMm here = first.centre(r, c), there = first.centre(row(line, last), column(line, last));
          places.push_back({(here.x + there.x) / 2, (here.y + there.y) / 2});
        }
        last = i, last_first = is_first;
      }
    }
  };
  const auto line_of = [](int line, int) { return line; };
  const auto cell_of = [](int, int i) { return i; };
  along(first.rows, first.columns, line_of, cell_of);
  along(first.columns, first.rows, cell_of, line_of);
  return places;
}

/// The straight line nearest to the places.
CardBorder line_through(const std::vector<PointMm>& places) {
  const auto count = static_cast<double>(places.size());
  CardBorder line;
  for (const PointMm& p : places) line.on.x += p.x / count, line.on.y += p.y / count;
  double xx = 0, xy = 0, yy = 0;
  for (const PointMm& p : places) {
    const double x = p.x - line.on.x, y = p.y - line.on.y;
    xx += x * x, xy += x * y, yy += y * y;
  }
  const double direction = 0.5 * std::atan2(2 * xy, xx - yy);
  line.normal = {-std::sin(direction), std::cos(direction)};
  return line;
}

double off_line_mm(const PointMm& p, const CardBorder& line) {
  return std::abs((p.x - line.on.x) * line.normal.x + (p.y - line.on.y) * line.normal.y);
}

/// Of the mask's cells, the share beyond the border, and not just beside it.
double share_on(bool second_side, const CellMask& mask, const CardBorder& border) {
  double all = 0, there = 0;
  for (int r = 0; r < mask.rows; ++r)
    for (int c = 0; c < mask.columns; ++c) {
      if (!mask.at(r, c)) continue;
      const PointMm p = mask.centre(r, c);
      ++all;
      there += border.on_second(p) == second_side && off_line_mm(p, border) > most_off_line_mm;
    }
  return all > 0 ? there / all : 0;
}

}  // namespace

std::optional<CardBorder> card_border(const CellMask& first, const CellMask& second) {
  const std::vector<PointMm> places = meeting_places(first, second);
  std::vector<PointMm> on_line = places;
  CardBorder border;
  constexpr int rounds = 5;
  for (int round = 0; round < rounds; ++round) {
    if (static_cast<double>(on_line.size()) * first.cell_mm < least_length_mm) return std::nullopt;
    border = line_through(on_line);
    std::vector<double> off;
    for (const PointMm& p : on_line) off.push_back(off_line_mm(p, border));
    const double limit = std::max(most_off_line_mm, 3 * median(std::move(off)));
    std::erase_if(on_line, [&](const PointMm& p) { return off_line_mm(p, border) > limit; });
  }
  const auto near = std::count_if(places.begin(), places.end(), [&](const PointMm& p) {
    return off_line_mm(p, border) <= most_off_line_mm;
  });
  if (static_cast<double>(near) < least_on_line * static_cast<double>(places.size())) return std::nullopt;
  if (share_on(true, first, border) > 0.5) border.normal = {-border.normal.x, -border.normal.y};
  if (share_on(true, first, border) > most_wrong_side || share_on(false, second, border) > most_wrong_side)
    return std::nullopt;
  return border;
}

std::vector<CellPart> parted(const CellPart& part, const CellMask& grid, const CardBorder& border,
                             double least_area_mm2) {
  const auto columns = static_cast<std::size_t>(grid.columns);
  std::vector<CellPart> pieces;
  for (const bool second : {false, true}) {
    CellPart side;
    for (const std::size_t i : part)
      if (border.on_second(grid.centre(static_cast<int>(i / columns), static_cast<int>(i % columns))) ==
          second)
        side.push_back(i);
    for (CellPart& piece : connected_parts(mask_of(side, grid)))
      if (grid.area_mm2(piece.size()) >= least_area_mm2) pieces.push_back(std::move(piece));
  }
  return pieces;
}

bool lies_across(const CellPart& part, const CellMask& first, const CellMask& second) {
  const int reach = static_cast<int>(round_mm / first.cell_mm);
  CellMask ring = mask_of({}, first);
  const auto columns = static_cast<std::size_t>(first.columns);
  for (const std::size_t i : part) {
    const int row = static_cast<int>(i / columns), column = static_cast<int>(i % columns);
    for (int r = std::max(0, row - reach); r <= std::min(first.rows - 1, row + reach); ++r)
      for (int c = std::max(0, column - reach); c <= std::min(first.columns - 1, column + reach); ++c)
        ring.set[ring.index(r, c)] = 1;
  }
  double on_first = 0, on_second = 0;
  for (std::size_t i = 0; i < ring.set.size(); ++i)
    if (ring.set[i]) on_first += first.set[i], on_second += second.set[i];
  return std::min(on_first, on_second) > least_share * (on_first + on_second);
}

}  // namespace colorlib
