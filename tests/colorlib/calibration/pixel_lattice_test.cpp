#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/calibration/pixel_lattice_internal.hpp>

namespace colorlib {
namespace {

constexpr int width = 7, height = 5;

/// Row by row, turned by `angle`, rows `stretch` times as far apart as columns; without the pixel `missing`.
std::vector<SheetPixel> lattice(double angle, double stretch, int missing = -1) {
  std::vector<SheetPixel> pixels;
  for (int i = 0; i < width * height; ++i) {
    if (i == missing) continue;
    const double x = 0.2 * (i % width), y = 0.2 * stretch * (i / width);
    pixels.push_back(
        {{50 + x * std::cos(angle) - y * std::sin(angle), 20 + x * std::sin(angle) + y * std::cos(angle)},
         {}});
  }
  return pixels;
}

TEST(PixelLattice, FindsTheEightBesideHoweverTurnedAndStretched) {
  for (const double angle : {0.0, 0.7, 1.5707963, 2.9, -1.2})
    for (const double stretch : {0.85, 1.0, 1.2}) {
      const auto beside = lattice_neighbours(lattice(angle, stretch));
      const std::uint32_t i = 2 * width + 3;
      const Neighbourhood expected{i - width - 1, i - width,     i - width + 1, i - 1,        i,
                                   i + 1,         i + width - 1, i + width,     i + width + 1};
      EXPECT_EQ(beside[i], expected) << angle << " " << stretch;
    }
}

TEST(PixelLattice, AtEdgesAndHolesStandsTheOppositeOneOrThePixelItself) {
  const auto corner = lattice_neighbours(lattice(0, 1))[0];
  EXPECT_EQ(corner, (Neighbourhood{width + 1, width, 0, 1, 0, 1, 0, width, width + 1}));
  constexpr std::uint32_t hole = 2 * width + 3;  // the pixel after it moves up in its place
  const auto beside = lattice_neighbours(lattice(0, 1, hole));
  EXPECT_EQ(beside[hole][3], hole + 1);
  EXPECT_EQ(beside[hole][5], hole + 1);
}

TEST(PixelLattice, PlacesWithoutOrderLeaveEachPixelAlone) {
  EXPECT_TRUE(lattice_neighbours({}).empty());
  std::vector<SheetPixel> same(30), far(30);
  for (std::size_t i = 0; i < far.size(); ++i) far[i].place = {std::pow(3.0, static_cast<double>(i)), 0};
  for (const auto& pixels : {same, far}) {
    const auto beside = lattice_neighbours(pixels);
    for (std::size_t i = 0; i < pixels.size(); ++i)
      for (const auto k : beside[i]) EXPECT_LT(k, pixels.size());
  }
  for (const auto k : lattice_neighbours(same)[12]) EXPECT_EQ(k, 12u);
}

}  // namespace
}  // namespace colorlib
