// Munsell notation and block against an independent oracle, over colours as fungi have them.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <cstdio>
#include <tests/colorlib/naming/fungal_colors.hpp>
#include <tests/colorlib/naming/reference_tables.hpp>
#include <tests/colorlib/naming/renotation_oracle.hpp>

namespace colorlib {
namespace {

constexpr std::uint64_t seed = 20'261'125;
constexpr std::size_t points = 2'400;
// What the two ways may differ by: interpolation between published chips is nobody's truth, a tenth of the
// steps between chips (2.5 of hue, 1 of value, 2 of chroma) is what two careful ways agree to.
constexpr double hue_bound_steps = 0.3, value_bound = 0.03, chroma_bound = 0.15, near_neutral_bound = 0.6;

const RenotationOracle& oracle() {
  static const RenotationOracle made(source_folder() / "reference/munsell_renotation.csv",
                                     source_folder() / "reference/blocks.csv");
  return made;
}

/// `lab` moved along `way` until it is `de00` away.
Lab moved(const Lab& lab, const Vector3& way, double de00) {
  double low = 0, high = 16;
  for (int i = 0; i < 40; ++i) {
    const double middle = (low + high) / 2;
    const Lab there{lab.l + middle * way[0], lab.a + middle * way[1], lab.b + middle * way[2]};
    (difference_ciede2000(lab, there) < de00 ? low : high) = middle;
  }
  return {lab.l + low * way[0], lab.a + low * way[1], lab.b + low * way[2]};
}

/// Whether the oracle gives one block to the colour and to 14 colours dE00 0.5 around it.
bool is_stable(const Lab& lab, int block) {
  for (int l = -1; l <= 1; ++l)
    for (int a = -1; a <= 1; ++a)
      for (int b = -1; b <= 1; ++b) {
        const int axes = std::abs(l) + std::abs(a) + std::abs(b);
        if (axes != 1 && axes != 3) continue;
        const Vector3 way{static_cast<double>(l), static_cast<double>(a), static_cast<double>(b)};
        if (oracle().block_of(oracle().munsell_from_lab(moved(lab, way, 0.5))) != block) return false;
      }
  return true;
}

struct Worst {
  double off = 0;
  Lab at;
  void note(double by, const Lab& lab) {
    if (by > off) *this = {by, lab};
  }
  void print(const char* what, double bound) const {
    std::printf("  %-28s %.4f (bound %.2f) at Lab %.2f %.2f %.2f\n", what, off, bound, at.l, at.a, at.b);
  }
};

struct Differences {
  Worst hue, near_neutral, value, chroma;
  std::size_t inside = 0, beyond_bounds = 0;
};

Differences differences_from(const RenotationOracle& other_way, double least_value) {
  Differences found;
  for (const Lab& lab : fungal_colors(points, seed)) {
    const auto match = namer().renotation().munsell_from_lab(lab);
    if (match.outside || match.munsell.value < least_value) continue;  // outside, the notation is the edge's
    ++found.inside;
    const Munsell other = other_way.munsell_from_lab(lab);
    const double hue_off = std::abs(hue_steps_between(match.munsell.hue_step, other.hue_step));
    const double least_chroma = std::min(match.munsell.chroma, other.chroma);
    if (least_chroma >= 2)
      found.hue.note(hue_off, lab);
    else
      found.near_neutral.note(hue_off * least_chroma, lab);
    if (std::abs(match.munsell.chroma - other.chroma) > chroma_bound ||
        (least_chroma >= 2 && hue_off > hue_bound_steps))
      ++found.beyond_bounds;
    found.value.note(std::abs(match.munsell.value - other.value), lab);
    found.chroma.note(std::abs(match.munsell.chroma - other.chroma), lab);
  }
  std::printf("%zu of %zu colours inside the data, seed %llu; worst differences:\n", found.inside, points,
              static_cast<unsigned long long>(seed));
  found.hue.print("hue steps, chroma >= 2", hue_bound_steps);
  found.near_neutral.print("hue x chroma, below", near_neutral_bound);
  found.value.print("value", value_bound);
  found.chroma.print("chroma", chroma_bound);
  return found;
}

TEST(RenotationOracle, AgreesOnNotation) {
  const auto found = differences_from(oracle(), 0);
  EXPECT_GE(found.inside, 2'000u);
  EXPECT_LE(found.hue.off, hue_bound_steps);
  EXPECT_LE(found.near_neutral.off, near_neutral_bound);
  EXPECT_LE(found.value.off, value_bound);
  EXPECT_LE(found.chroma.off, chroma_bound);
}

// Between value planes every rule is a choice. Straight lines in CIELUV or in x, y instead of CIELAB lie
// close where the planes are near each other in lightness; below value 2 they part (docs/decisions).
TEST(RenotationOracle, AgreesWithOtherRulesBetweenValuePlanes) {
  const auto other = [](RenotationOracle::AlongValue rule) {
    return RenotationOracle(source_folder() / "reference/munsell_renotation.csv",
                            source_folder() / "reference/blocks.csv", rule);
  };
  std::printf("straight in CIELUV, from value 2 on:\n");
  const auto luv = differences_from(other(RenotationOracle::AlongValue::cieluv), 2);
  EXPECT_LE(luv.hue.off, hue_bound_steps);
  EXPECT_LE(luv.chroma.off, chroma_bound);
  // Chromaticities bulge between planes, most between values 2 and 3, and far out they even fold: a few
  // colours differ.
  std::printf("straight in x, y, from value 2 on:\n");
  const auto xy = differences_from(other(RenotationOracle::AlongValue::chromaticity), 2);
  std::printf("  %zu colours beyond the bounds\n", xy.beyond_bounds);
  EXPECT_LE(xy.beyond_bounds, xy.inside / 100);
}

TEST(RenotationOracle, GivesTheSameBlockWhereTheNameIsStable) {
  std::size_t inside = 0, stable = 0, different = 0;
  for (const Lab& lab : fungal_colors(points, seed + 1)) {
    const auto match = namer().renotation().munsell_from_lab(lab);
    if (match.outside) continue;
    ++inside;
    const int block = oracle().block_of(oracle().munsell_from_lab(lab));
    if (!is_stable(lab, block)) continue;
    ++stable;
    const int ours = namer().names().block_of(match.munsell);
    if (ours != block) ++different;
    EXPECT_EQ(ours, block) << "Lab " << lab.l << ' ' << lab.a << ' ' << lab.b << ' '
                           << notation_from(match.munsell);
  }
  std::printf("%zu colours inside the data, %zu with a name stable within dE00 0.5, %zu named differently\n",
              inside, stable, different);
  EXPECT_GE(inside, 2'000u);
  EXPECT_GE(stable, inside / 4);
}

}  // namespace
}  // namespace colorlib
