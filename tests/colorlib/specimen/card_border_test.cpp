/// Where two cards meet, from the places where they are seen.
#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/specimen/card_border_internal.hpp>

namespace colorlib {
namespace {

const RectangleMm opening{60, 39, 90, 70};

template <class Holds>
CellMask mask_where(const Holds& holds) {
  CellMask mask(opening, 0.5);
  for (int r = 0; r < mask.rows; ++r)
    for (int c = 0; c < mask.columns; ++c) mask.set[mask.index(r, c)] = holds(mask.centre(r, c));
  return mask;
}

bool under_film(const PointMm& p) { return std::hypot(p.x - 105, p.y - 74) < 15; }

/// Of a border 20 degrees off upright through the middle.
double beyond(const PointMm& p) { return (p.x - 105) * std::cos(0.35) + (p.y - 74) * std::sin(0.35); }

TEST(CardBorder, IsFoundOnEitherSideOfAFilm) {
  const CellMask first = mask_where([](const PointMm& p) { return !under_film(p) && beyond(p) < -0.4; });
  const CellMask second = mask_where([](const PointMm& p) { return !under_film(p) && beyond(p) > 0.4; });
  const auto border = card_border(first, second);
  ASSERT_TRUE(border);
  EXPECT_NEAR(beyond(border->on), 0, 0.3);
  EXPECT_NEAR(border->normal.x, std::cos(0.35), 0.01);
  EXPECT_NEAR(border->normal.y, std::sin(0.35), 0.01);

  const auto film = connected_parts(mask_where(under_film));
  ASSERT_THAT(film, testing::SizeIs(1));
  const auto pieces = parted(film[0], first, *border, 12);
  ASSERT_THAT(pieces, testing::SizeIs(2));
  for (const CellPart& piece : pieces) EXPECT_NEAR(first.area_mm2(piece.size()), 353, 15);
}

TEST(CardBorder, OfACardUponAnotherIsNoStraightLine) {
  const auto on_card = [](const PointMm& p) { return p.x > 80 && p.x < 130 && p.y > 55; };
  const CellMask first = mask_where([&](const PointMm& p) { return !under_film(p) && !on_card(p); });
  const CellMask second = mask_where([&](const PointMm& p) { return !under_film(p) && on_card(p); });
  EXPECT_FALSE(card_border(first, second));
  const auto film = connected_parts(mask_where(under_film));
  EXPECT_FALSE(lies_across(film[0], first, second));  // wholly on the upper card
  const auto wide =
      connected_parts(mask_where([](const PointMm& p) { return std::hypot(p.x - 80, p.y - 74) < 9; }));
  EXPECT_TRUE(lies_across(wide[0], first, second));
}

TEST(CardBorder, IsNotKnownWhereAFilmCoversIt) {
  const auto film = [](const PointMm& p) { return std::fabs(p.x - 105) < 10; };
  const CellMask first = mask_where([&](const PointMm& p) { return !film(p) && p.x < 105; });
  const CellMask second = mask_where([&](const PointMm& p) { return !film(p) && p.x > 105; });
  EXPECT_FALSE(card_border(first, second));
  EXPECT_TRUE(lies_across(connected_parts(mask_where(film))[0], first, second));
}

}  // namespace
}  // namespace colorlib
