#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/name_distance.hpp>
#include <cstdio>
#include <map>
#include <tests/colorlib/naming/fungal_colors.hpp>
#include <tests/colorlib/naming/reference_tables.hpp>

namespace colorlib {
namespace {

/// The least difference to each block found on a fine lattice of Munsell colours around `lab`.
std::map<int, double> scanned(const Lab& lab) {
  const Munsell own = namer().renotation().munsell_from_lab(lab).munsell;
  std::map<int, double> least;
  const double hue_reach = std::min(25.0, 45 / std::max(own.chroma, 0.5));
  for (double value = std::max(0.0, own.value - 0.9); value <= std::min(10.0, own.value + 0.9); value += 0.03)
    for (double chroma = std::max(0.02, own.chroma - 2.2); chroma <= own.chroma + 2.2; chroma += 0.05)
      for (double way = -hue_reach; way <= hue_reach; way += hue_reach / 60) {
        const Munsell munsell{wrapped_hue_step(own.hue_step + way), value, chroma};
        const double de00 = difference_ciede2000(lab, namer().renotation().lab_from_munsell(munsell));
        const int block = namer().names().block_of(munsell);
        const auto known = least.try_emplace(block, de00).first;
        known->second = std::min(known->second, de00);
      }
  return least;
}

TEST(NameDistance, MeetsAFineScan) {
  constexpr std::uint64_t seed = 1976;
  constexpr std::size_t colors = 14;
  double worst_above = 0, worst_below = 0;
  for (const Lab& lab : fungal_colors(colors, seed)) {
    const NameDistances distances(lab, namer().renotation(), namer().names());
    const int own = namer().blocks_of({lab}).front();
    double least_other = 1e9;
    for (const auto& [block, de00] : scanned(lab)) {
      if (block == own) continue;
      least_other = std::min(least_other, de00);
      if (de00 > 3) continue;  // the scan does not reach far enough to be sure
      const double ours =
          distances.to_name(namer().names().name_index(block, NameLevel::full), NameLevel::full);
      worst_above = std::max(worst_above, ours - de00);
      worst_below = std::max(worst_below, de00 - ours);
    }
    const auto nearest =
        distances.to_other_than(namer().names().name_index(own, NameLevel::full), NameLevel::full);
    if (least_other < 3) {
      EXPECT_LE(nearest.de00, least_other + 0.05) << lab.l << ' ' << lab.a << ' ' << lab.b;
    }
  }
  std::printf("%zu colours, seed %llu: distance to a name at most %.4f above and %.4f below a scan's\n",
              colors, static_cast<unsigned long long>(seed), worst_above, worst_below);
  EXPECT_LE(worst_above, 0.05);  // the bound the header states
  EXPECT_LE(worst_below, 0.4);   // near a block's corner the lattice misses by up to its diagonal step
}

TEST(NameDistance, IsZeroInsideAndPositiveOutside) {
  for (const Lab& lab : fungal_colors(60, 5)) {
    const NameDistances distances(lab, namer().renotation(), namer().names());
    const auto own = namer().names().name_index(namer().blocks_of({lab}).front(), NameLevel::full);
    EXPECT_EQ(distances.to_name(own, NameLevel::full), 0);
    const auto other = distances.to_other_than(own, NameLevel::full);
    EXPECT_NE(other.name_index, own);
    EXPECT_GE(other.de00, 0);
    EXPECT_EQ(distances.to_name(other.name_index, NameLevel::full), other.de00);
    // Coarser names have larger regions.
    const auto broad = namer().names().name_index(namer().blocks_of({lab}).front(), NameLevel::broad);
    EXPECT_GE(distances.to_other_than(broad, NameLevel::broad).de00, other.de00 - 1e-9);
  }
}

TEST(NameDistance, ListsEveryNameWithinALimit) {
  for (const Lab& lab : fungal_colors(20, 6)) {
    const NameDistances distances(lab, namer().renotation(), namer().names());
    const auto near = distances.within(3, NameLevel::full);
    ASSERT_FALSE(near.empty());
    EXPECT_EQ(near.front().de00, 0);
    for (std::size_t name = 0; name < 267; ++name) {
      const auto listed =
          std::find_if(near.begin(), near.end(), [&](const auto& d) { return d.name_index == name; });
      const double de00 = distances.to_name(name, NameLevel::full);
      if (listed != near.end())
        EXPECT_NEAR(listed->de00, de00, 1e-9);
      else
        EXPECT_GT(de00, 3);
    }
  }
}

}  // namespace
}  // namespace colorlib
