#include <gtest/gtest.h>
#include <lcms2.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/naming/renotation_grid.hpp>
#include <cstdio>
#include <limits>
#include <numbers>
#include <random>
#include <tests/colorlib/naming/reference_tables.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

const MunsellRenotation& renotation() { return namer().renotation(); }

/// A Munsell colour as rectangular coordinates, so that hue does not count where there is no chroma.
Vector3 rectangular(const Munsell& m) {
  const double angle = m.hue_step / 50 * std::numbers::pi;
  return {m.value, m.chroma * std::cos(angle), m.chroma * std::sin(angle)};
}

double way_between(const Munsell& a, const Munsell& b) {
  const Vector3 p = rectangular(a), q = rectangular(b);
  return std::hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

// Every published chip, taken to D50 by LittleCMS, must come back as its own notation.
TEST(MunsellRenotation, MeetsEveryPublishedChip) {
  const auto table =
      ReferenceTable::read(source_folder() / "reference/munsell_renotation.csv", "the renotation");
  ASSERT_TRUE(table);
  const auto columns = table->require({"hue", "value", "chroma", "x", "y", "origin"});
  ASSERT_TRUE(columns);
  std::size_t chips = 0;
  double worst = 0;
  for (std::size_t row = 0; row < table->rows(); ++row) {
    if (table->text(row, (*columns)[5]) != "table") continue;
    ++chips;
    const auto hue = hue_step_from(table->text(row, (*columns)[0]));
    ASSERT_TRUE(hue);
    const double value = *table->number(row, (*columns)[1]), chroma = *table->number(row, (*columns)[2]);
    const double x = *table->number(row, (*columns)[3]), y = *table->number(row, (*columns)[4]);
    const double luminance = luminance_from_munsell_value(value);
    const cmsCIEXYZ c{0.98074, 1, 1.18232}, d50{0.96422, 1, 0.82521};
    const cmsCIEXYZ under_c{x / y * luminance, luminance, (1 - x - y) / y * luminance};
    cmsCIEXYZ under_d50;
    cmsAdaptToIlluminant(&under_d50, &c, &d50, &under_c);
    cmsCIELab lab;
    cmsXYZ2Lab(&d50, &lab, &under_d50);
    const auto match = renotation().munsell_from_lab({lab.L, lab.a, lab.b});
    EXPECT_FALSE(match.outside) << notation_from({*hue, value, chroma});
    worst = std::max(worst, way_between(match.munsell, {*hue, value, chroma}));
  }
  std::printf("%zu chips of 1943, worst notation off by %.2g\n", chips, worst);
  EXPECT_EQ(chips, 2734u);
  EXPECT_LE(worst, 1e-4);  // LittleCMS rounds its adaptation to about this
}

TEST(MunsellRenotation, GoesBothWaysOverTheData) {
  constexpr std::uint64_t seed = 1943;
  constexpr int trials = 400'000;
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> unit(0, 1);
  double worst_de00 = 0, worst_way = 0;
  Munsell worst_at;
  for (int i = 0; i < trials; ++i) {
    Munsell munsell{100 * unit(random), 10 * unit(random), 0};
    munsell.chroma = renotation().greatest_chroma(munsell.hue_step, munsell.value) * unit(random);
    const Lab lab = renotation().lab_from_munsell(munsell);
    const auto match = renotation().munsell_from_lab(lab);
    ASSERT_FALSE(match.outside) << notation_from(munsell);
    const double de00 = difference_ciede2000(lab, renotation().lab_from_munsell(match.munsell));
    if (de00 > worst_de00) {
      worst_de00 = de00;
      worst_at = munsell;
    }
    worst_way = std::max(worst_way, way_between(munsell, match.munsell));
  }
  std::printf(
      "%d trials, seed %llu: Lab -> Munsell -> Lab worst dE00 %.2g at %s; Munsell -> Lab -> Munsell worst "
      "%.2g\n",
      trials, static_cast<unsigned long long>(seed), worst_de00, notation_from(worst_at).c_str(), worst_way);
  // The bound the header states. dE00 itself loses digits so close to 0: it is the root of a rounded sum.
  EXPECT_LE(worst_de00, 1e-5);
  EXPECT_LE(worst_way, 1e-5);
}

TEST(MunsellRenotation, IsOneToOneAndBracketedByChips) {
  const auto grid = RenotationGrid::load(source_folder() / "reference/munsell_renotation.csv");
  ASSERT_TRUE(grid);
  // The turn of the map, by small differences in every cell and between planes: positive everywhere inside.
  double least_turn = 1e9;
  std::size_t places = 0, continued = 0, continued_from_2 = 0;
  for (double value = 0.02; value < 10; value += 0.07)
    for (double hue = 0.31; hue < 100; hue += 0.63) {
      const double edge = grid->greatest_chroma(hue, value);
      const auto plane = grid->plane_at(value);
      for (double part = 0.01; part < 1; part += 0.06) {
        const double chroma = part * edge;
        const auto here = grid->color_at({hue, chroma}, plane);
        const auto out = grid->color_at({hue, chroma + 1e-6}, plane);
        const auto on = grid->color_at({hue + 1e-6, chroma}, plane);
        const double turn = ((out.chroma_ab - here.chroma_ab) * (on.hue_angle_rad - here.hue_angle_rad) -
                             (on.chroma_ab - here.chroma_ab) * (out.hue_angle_rad - here.hue_angle_rad)) *
                            1e12;
        least_turn = std::min(least_turn, turn);
        ++places;
        // The four chips around, on both planes (ring 0 is the neutral; value 0 repeats 0.2).
        const auto ring = static_cast<std::size_t>(chroma / 2), h = static_cast<std::size_t>(hue / 2.5);
        bool all_published = true;
        for (const std::size_t p : {std::max<std::size_t>(plane.lower, 1), plane.lower + 1})
          for (const std::size_t r : {std::max<std::size_t>(ring, 1), ring + 1})
            for (const std::size_t k : {h, (h + 1) % 40}) all_published &= grid->published(p, k, r);
        if (!all_published) {
          ++continued;
          if (value >= 2) ++continued_from_2;
        }
      }
    }
  std::printf(
      "%zu places, least turn %.4f C*ab x radian per hue step and chroma; %zu of them bracketed by a chip "
      "that we "
      "continued, %zu from value 2 on\n",
      places, least_turn, continued, continued_from_2);
  EXPECT_GT(least_turn, 0.01);
  // Where the edge widens steeply from one plane to the next, the extrapolated chips of the lower one may end
  // first.
  EXPECT_LE(continued, places / 100);
  EXPECT_LE(continued_from_2, places / 500);
}

TEST(MunsellRenotation, KeepsNeutralsNeutral) {
  for (int i = 0; i <= 1000; ++i) {
    const double lightness = i / 10.0;
    const auto match = renotation().munsell_from_lab({lightness, 0, 0});
    EXPECT_LE(match.munsell.chroma, 1e-9) << lightness;
    EXPECT_FALSE(match.outside) << lightness;
    EXPECT_THAT(renotation().lab_from_munsell(match.munsell), NearInDeltaE(Lab{lightness, 0, 0}, 1e-6));
  }
  EXPECT_EQ(notation_from(renotation().munsell_from_lab({100, 0, 0}).munsell), "N 10.0");
  EXPECT_EQ(notation_from(renotation().munsell_from_lab({0, 0, 0}).munsell), "N 0.0");
}

TEST(MunsellRenotation, BehavesNearBlackAndNearNeutral) {
  // A tint of C*ab 1 is about a fifth of a chroma step at every lightness: 8 to 14 C*ab make chroma 2
  // (table). Where the data narrow (near black, near white) it may be cut at the edge.
  for (double lightness = 0.5; lightness < 99.6; lightness += 0.5)
    for (double angle = 0; angle < 2 * std::numbers::pi; angle += 0.2) {
      const Lab lab{lightness, std::cos(angle), std::sin(angle)};
      const auto match = renotation().munsell_from_lab(lab);
      EXPECT_LT(match.munsell.chroma, 0.45) << lightness << ' ' << angle;
      if (!match.outside) {
        EXPECT_GT(match.munsell.chroma, 0.06) << lightness << ' ' << angle;
      }
    }
}

TEST(MunsellRenotation, SaysWhatIsOutside) {
  for (const Lab& lab :
       {Lab{50, 100, -100}, Lab{50, -160, 0}, Lab{95, 60, 0}, Lab{5, 40, 40}, Lab{101, 0, 0}, Lab{-3, 0, 0},
        Lab{0, 10, 5}, Lab{99, 0, 20}, Lab{50, 1e6, 1e6}, Lab{1e9, -1e9, 1e9}}) {
    const auto match = renotation().munsell_from_lab(lab);
    EXPECT_TRUE(match.outside) << lab.l << ' ' << lab.a << ' ' << lab.b;
    const auto& m = match.munsell;
    EXPECT_TRUE(m.hue_step >= 0 && m.hue_step < 100 && m.value >= 0 && m.value <= 10) << notation_from(m);
    EXPECT_LE(m.chroma, renotation().greatest_chroma(m.hue_step, m.value) + 1e-9) << notation_from(m);
  }
  constexpr double nan = std::numeric_limits<double>::quiet_NaN(),
                   inf = std::numeric_limits<double>::infinity();
  for (const double odd : {nan, inf, -inf})
    for (const Lab& lab : {Lab{odd, 0, 0}, Lab{50, odd, 0}, Lab{50, 0, odd}, Lab{odd, odd, odd}}) {
      const auto match = renotation().munsell_from_lab(lab);
      EXPECT_TRUE(match.outside);
      EXPECT_EQ(match.munsell, Munsell{});
    }
}

TEST(MunsellRenotation, MeetsTheEdgeWithoutAJump) {
  for (double hue = 0; hue < 100; hue += 1.7)
    for (double value = 0.3; value < 9.9; value += 0.3) {
      const double edge = renotation().greatest_chroma(hue, value);
      const auto inside =
          renotation().munsell_from_lab(renotation().lab_from_munsell({hue, value, edge * 0.9999}));
      const auto outside =
          renotation().munsell_from_lab(renotation().lab_from_munsell({hue, value, edge * 1.0001}));
      EXPECT_FALSE(inside.outside) << hue << ' ' << value;
      EXPECT_TRUE(outside.outside) << hue << ' ' << value;
      EXPECT_LE(way_between(inside.munsell, outside.munsell), 0.01) << hue << ' ' << value;
    }
}

Lab any_color() {
  const auto part = [](int least, int most) { return *rc::gen::inRange(least * 100, most * 100) / 100.0; };
  return {part(1, 99), part(-60, 80), part(-70, 90)};
}

// Along any line through the space nothing jumps: a step of 0.02 in Lab moves the notation (as rectangular
// coordinates) by no more than its steepest slope allows: 2 steps a unit of CIELAB (at vivid violets, where a
// degree of hue angle is three hue steps; elsewhere a tenth of that); beyond the data 20, where the edge
// itself climbs by 28 chromas from one hue to the next. A change of branch would show as a jump of any size.
RC_GTEST_PROP(MunsellRenotationProperty, IsContinuousAlongLines, ()) {
  const Lab from = any_color(), to = any_color();
  const double length = difference_cie76(from, to);
  const int steps = std::max(1, static_cast<int>(length / 0.02));
  Munsell before = renotation().munsell_from_lab(from).munsell;
  bool was_outside = renotation().munsell_from_lab(from).outside;
  for (int i = 1; i <= steps; ++i) {
    const double t = static_cast<double>(i) / steps;
    const Lab here{from.l + t * (to.l - from.l), from.a + t * (to.a - from.a), from.b + t * (to.b - from.b)};
    const auto match = renotation().munsell_from_lab(here);
    const double slope = match.outside || was_outside ? 20.0 : 2.0;
    RC_ASSERT(way_between(before, match.munsell) < slope * length / steps + 1e-9);
    before = match.munsell;
    was_outside = match.outside;
  }
}

// From the neutral axis straight outwards (in CIELAB of illuminant C) chroma rises all the way.
RC_GTEST_PROP(MunsellRenotationProperty, ChromaRisesOutwards, ()) {
  const double lightness = *rc::gen::inRange(50, 9950) / 100.0,
               angle = *rc::gen::inRange(0, 62832) / 10'000.0;
  double before = -1;
  for (double chroma_ab = 0; chroma_ab < 120; chroma_ab += 0.25) {
    const Lab under_c{lightness, chroma_ab * std::cos(angle), chroma_ab * std::sin(angle)};
    const auto match =
        renotation().munsell_from_lab(adapted_lab(under_c, white_c, white_d50, AdaptationMethod::bradford));
    if (match.outside) break;
    RC_ASSERT(match.munsell.chroma > before);
    before = match.munsell.chroma;
  }
}

// Around the neutral axis the hue runs once through all its steps, always forwards.
RC_GTEST_PROP(MunsellRenotationProperty, HueRunsForwards, ()) {
  const double lightness = *rc::gen::inRange(2000, 9000) / 100.0,
               chroma_ab = *rc::gen::inRange(1, 1000) / 100.0;
  double before = 0, total = 0;
  constexpr int steps = 720;
  for (int i = 0; i <= steps; ++i) {
    const double angle = 2 * std::numbers::pi * i / steps;
    const Lab under_c{lightness, chroma_ab * std::cos(angle), chroma_ab * std::sin(angle)};
    const auto match =
        renotation().munsell_from_lab(adapted_lab(under_c, white_c, white_d50, AdaptationMethod::bradford));
    if (i > 0) {
      const double step = hue_steps_between(before, match.munsell.hue_step);
      RC_ASSERT(step > 0);
      total += step;
    }
    before = match.munsell.hue_step;
  }
  RC_ASSERT(std::abs(total - 100) < 1e-6);
}

TEST(MunsellRenotation, NamesTheLineThatIsWrong) {
  const auto folder = std::filesystem::temp_directory_path() / "tintfall_renotation_test";
  std::filesystem::create_directories(folder);
  const auto load = [&](const std::string& rows) {
    const auto file = folder / "table.csv";
    std::FILE* out = std::fopen(file.c_str(), "w");
    std::fputs(("hue,value,chroma,x,y,Y,origin\n" + rows).c_str(), out);
    std::fclose(out);
    return MunsellRenotation::load(file);
  };
  using testing::HasSubstr;
  EXPECT_THAT(load("5R,1,2,0.4,0.3,1,table\n5Q,1,2,0.4,0.3,1,table\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("line 3")));
  EXPECT_THAT(load("5R,1,3,0.4,0.3,1,table\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("chroma of 3")));
  EXPECT_THAT(load("5R,1.5,2,0.4,0.3,1,table\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("value of 1.5")));
  EXPECT_THAT(load("5R,1,2,x,0.3,1,table\n"), FailsWith(ErrorCode::unreadable_table, HasSubstr("line 2")));
  EXPECT_THAT(load("5R,1,2,0.4,0.3,1,table\n5R,1,2,0.4,0.3,1,table\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("twice")));
  EXPECT_THAT(load("5R,1,2,0.4,0.3,1,table\n"), FailsWith(ErrorCode::unreadable_table, HasSubstr("no chip")));
  EXPECT_THAT(MunsellRenotation::load(folder / "missing.csv"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("missing.csv")));
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace colorlib
