#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/specimen/cell_mask.hpp>
#include <cstdio>
#include <random>

namespace colorlib {
namespace {

CellMask disc(double x, double y, double radius) {
  CellMask mask({10, 20, 60, 40}, 0.5);
  for (int r = 0; r < mask.rows; ++r)
    for (int c = 0; c < mask.columns; ++c) {
      const PointMm p = mask.centre(r, c);
      mask.set[mask.index(r, c)] = std::hypot(p.x - x, p.y - y) <= radius;
    }
  return mask;
}

double polygon_area(const std::vector<PointMm>& points) {
  double twice = 0;
  for (std::size_t i = 0, j = points.size() - 1; i < points.size(); j = i++)
    twice += points[j].x * points[i].y - points[i].x * points[j].y;
  return std::abs(twice) / 2;
}

TEST(CellMask, AreaOfADisc) { EXPECT_NEAR(disc(40, 40, 10).area_mm2(), M_PI * 100, 4); }

TEST(CellMask, ErodingDrawsTheRimIn) { EXPECT_NEAR(eroded(disc(40, 40, 10), 2).area_mm2(), M_PI * 64, 8); }

TEST(CellMask, MajorityRemovesSpecks) {
  CellMask mask = disc(40, 40, 8);
  mask.set[mask.index(2, 2)] = 1;
  mask.set[mask.index(40, 60)] = 0;
  const CellMask smooth = majority_smoothed(mask);
  EXPECT_FALSE(smooth.at(2, 2));
  EXPECT_TRUE(smooth.at(40, 60));
}

TEST(CellMask, PartsComeLargestFirst) {
  CellMask mask = disc(25, 35, 4);
  const CellMask other = disc(55, 45, 7);
  for (std::size_t i = 0; i < mask.set.size(); ++i) mask.set[i] |= other.set[i];
  const auto parts = connected_parts(mask);
  ASSERT_EQ(parts.size(), 2u);
  EXPECT_EQ(mask_of(parts[0], mask).set, other.set);
  EXPECT_EQ(mask_of(parts[1], mask).set, disc(25, 35, 4).set);
  EXPECT_EQ(mask.area_mm2(parts[0].size()), other.area_mm2());
}

TEST(CellMask, ManyPartsTakeNoMoreThanTheirCells) {
  // A chess board of 500 x 500 cells: one mask for each of its parts would take 31 GB.
  CellMask mask({0, 0, 250, 250}, 0.5);
  for (std::size_t i = 0; i < mask.set.size(); ++i) mask.set[i] = (i / 500 + i % 500) % 2 == 0;
  const auto parts = connected_parts(mask);
  ASSERT_EQ(parts.size(), 125'000u);
  for (const CellPart& part : parts) ASSERT_EQ(part.size(), 1u);
  EXPECT_EQ(parts[0][0], 0u) << "equal ones come by rows";
  EXPECT_EQ(parts[1][0], 2u);
}

TEST(CellMask, SmoothedPartsAreThoseOfTheWholeGrid) {
  std::mt19937 random(20310409);
  std::printf("seed 20310409, 200 masks\n");
  for (int trial = 0; trial < 200; ++trial) {
    CellMask grid({0, 0, 30, 20}, 1);
    // A blot with ragged rims and holes, over the grid's rim in most trials.
    const int row = static_cast<int>(random() % 20), column = static_cast<int>(random() % 30);
    for (int r = 0; r < grid.rows; ++r)
      for (int c = 0; c < grid.columns; ++c)
        grid.set[grid.index(r, c)] = std::hypot(r - row, c - column) < 6 && random() % 4 != 0;
    CellPart cells;
    for (std::size_t i = 0; i < grid.set.size(); ++i)
      if (grid.set[i]) cells.push_back(i);
    ASSERT_EQ(smoothed_parts(cells, grid), connected_parts(majority_smoothed(grid))) << "trial " << trial;
  }
}

TEST(CellMask, OutlineEnclosesTheArea) {
  const CellMask mask = disc(40, 40, 10);
  EXPECT_NEAR(polygon_area(outline(mask, 0)), mask.area_mm2(), 1e-9);
  EXPECT_TRUE(outline(CellMask({0, 0, 5, 5}, 1), 0).empty());
}

TEST(CellMask, OutlineLeavesLargeHolesOut) {
  CellMask ring = disc(40, 40, 10);
  const CellMask hole = disc(40, 40, 3);
  for (std::size_t i = 0; i < ring.set.size(); ++i) ring.set[i] = ring.set[i] && !hole.set[i];
  EXPECT_NEAR(polygon_area(outline(ring, 3)), ring.area_mm2(), 1e-9);
  EXPECT_NEAR(polygon_area(outline(ring, 100)), disc(40, 40, 10).area_mm2(), 1e-9);
}

}  // namespace
}  // namespace colorlib
