/// What every chart of charts/ has to satisfy, so that a printed sheet can carry light, tone and colour
/// (charts/README.md gives the reasons).

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <colorlib/chart/chart_definition.hpp>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <cstdio>
#include <map>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

/// Bare paper round the opening and along the edges.
constexpr double paper_strip_mm = 8;
/// Decimals in the definitions are rounded to a thousandth.
constexpr double rounding_mm = 0.002;

const std::vector<ChartDefinition>& charts() {
  static const auto shipped = shipped_charts();
  if (!shipped) ADD_FAILURE() << shipped.error().message;
  static const std::vector<ChartDefinition> none;
  return shipped ? *shipped : none;
}

bool is_frame(const ChartDefinition& chart) { return !chart.windows.empty(); }

RectangleMm square_of(const Marker& m) { return {m.x_mm, m.y_mm, m.side_mm, m.side_mm}; }
/// With the one cell of white paper that the pattern needs round it.
RectangleMm quiet_zone_of(const Marker& m) {
  const double cell = m.side_mm / 8;
  return {m.x_mm - cell, m.y_mm - cell, m.side_mm + 2 * cell, m.side_mm + 2 * cell};
}

/// Everything that is printed, with its name.
std::vector<std::pair<std::string, RectangleMm>> printed(const ChartDefinition& chart) {
  std::vector<std::pair<std::string, RectangleMm>> items;
  for (const auto& p : chart.patches) items.emplace_back(p.id, p.place);
  for (const auto& m : chart.markers) items.emplace_back(fmt::format("marker {}", m.id), square_of(m));
  for (std::size_t i = 0; i < chart.texts.size(); ++i)
    items.emplace_back(fmt::format("text {}", i), chart.texts[i].place);
  return items;
}

/// The gap between two rectangles: the larger of the two axes' gaps, negative when they overlap.
double gap(const RectangleMm& a, const RectangleMm& b) {
  const double dx = std::max(a.x - (b.x + b.width), b.x - (a.x + a.width));
  const double dy = std::max(a.y - (b.y + b.height), b.y - (a.y + a.height));
  return std::max(dx, dy);
}

Vector3 linear_srgb(const Lab& lab_d50) {
  const auto rgb = linear_srgb_from_xyz(
      adapted(xyz_from_lab(lab_d50, white_d50), white_d50, white_d65, AdaptationMethod::bradford));
  return {rgb.r, rgb.g, rgb.b};
}

TEST(ShippedChartsTest, AreTheFiveOfTheContractInOrder) {
  std::vector<std::string> names;
  for (const auto& chart : charts()) names.push_back(chart.name);
  EXPECT_THAT(names,
              testing::ElementsAre("frame-a4", "frame-a5", "frame-letter", "strip", "two-backings-a5"));
}

TEST(ShippedChartsTest, FileNamesEqualChartNames) {
  for (const auto& chart : charts()) {
    const auto found = find_chart(chart.name);
    ASSERT_TRUE(found) << found.error().message;
    EXPECT_EQ(found->name, chart.name);
  }
}

TEST(ShippedChartsTest, SheetsHaveTheirPaperSizes) {
  std::map<std::string, std::pair<double, double>> sizes;
  for (const auto& chart : charts()) sizes[chart.name] = {chart.width_mm, chart.height_mm};
  EXPECT_EQ(sizes["frame-a5"], std::pair(210.0, 148.0));      // ISO 216
  EXPECT_EQ(sizes["frame-a4"], std::pair(297.0, 210.0));      // ISO 216
  EXPECT_EQ(sizes["frame-letter"], std::pair(279.4, 215.9));  // 11 x 8.5 inch
  EXPECT_EQ(sizes["two-backings-a5"], std::pair(210.0, 148.0));
}

TEST(ShippedChartsTest, EachHasMarkerIdsOfItsOwn) {
  std::map<int, std::string> owner;
  std::map<int, std::string> ten;  // each chart keeps to one range of ten
  for (const auto& chart : charts()) {
    EXPECT_GE(chart.markers.size(), 4u) << chart.name;
    for (const auto& marker : chart.markers) {
      EXPECT_TRUE(owner.emplace(marker.id, chart.name).second)
          << marker.id << " in " << chart.name << " and " << owner[marker.id];
      EXPECT_EQ(ten.emplace(marker.id / 10, chart.name).first->second, chart.name) << marker.id;
    }
  }
}

TEST(ShippedChartsTest, EverythingStaysOffTheEdges) {
  for (const auto& chart : charts())
    for (const auto& [name, r] : printed(chart)) {
      const double edge =
          std::min({r.x, r.y, chart.width_mm - r.x - r.width, chart.height_mm - r.y - r.height});
      EXPECT_GE(edge, paper_strip_mm - rounding_mm) << chart.name << " " << name;
    }
}

TEST(ShippedChartsTest, PaperIsBareRoundEveryOpening) {
  for (const auto& chart : charts())
    for (const auto& window : chart.windows) {
      for (const auto& [name, r] : printed(chart))
        EXPECT_GE(gap(r, window.place), paper_strip_mm - rounding_mm) << chart.name << " " << name;
      const RectangleMm& w = window.place;
      EXPECT_NEAR(w.x + w.width / 2, chart.width_mm / 2, 1) << chart.name << ": the opening is in the middle";
      EXPECT_NEAR(w.y + w.height / 2, chart.height_mm / 2, 1) << chart.name;
    }
}

TEST(ShippedChartsTest, OpeningsTakeWhatTheyAreFor) {
  for (const auto& chart : charts()) {
    if (!is_frame(chart)) continue;
    const RectangleMm& w = chart.windows.front().place;
    const bool wide = chart.name == "frame-a4" || chart.name == "frame-letter";
    EXPECT_GE(std::max(w.width, w.height), wide ? 150 : 90) << chart.name;
    EXPECT_GE(std::min(w.width, w.height), wide ? 145 : 70) << chart.name;
  }
}

TEST(ShippedChartsTest, NothingOverlapsAndPaperLiesBetweenPatches) {
  constexpr double least_gap_mm = 1.5;
  for (const auto& chart : charts()) {
    const auto items = printed(chart);
    for (std::size_t i = 0; i < items.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        const bool both_texts = items[i].first.starts_with("text") && items[j].first.starts_with("text");
        EXPECT_GE(gap(items[i].second, items[j].second), (both_texts ? 0 : least_gap_mm) - rounding_mm)
            << chart.name << ": " << items[j].first << " and " << items[i].first;
      }
    for (const auto& marker : chart.markers)
      for (const auto& [name, r] : items)
        if (name != fmt::format("marker {}", marker.id)) {
          EXPECT_GE(gap(quiet_zone_of(marker), r), -rounding_mm)
              << chart.name << ": quiet zone of " << marker.id << " and " << name;
        }
  }
}

TEST(ShippedChartsTest, PatchesAreManyAndLargeEnough) {
  for (const auto& chart : charts()) {
    const auto count = static_cast<double>(chart.patches.size());
    if (is_frame(chart)) {
      EXPECT_NEAR(count, 58, 6) << chart.name;
    } else {
      EXPECT_GE(count, 30) << chart.name;
    }
    for (const auto& patch : chart.patches) {
      EXPECT_GE(patch.place.width, 8) << chart.name << " " << patch.id;
      EXPECT_GE(patch.place.height, 8) << chart.name << " " << patch.id;
    }
  }
}

TEST(ShippedChartsTest, TwoNeutralsOrMoreStandOnEachSide) {
  for (const auto& chart : charts()) {
    int left = 0, right = 0, top = 0, bottom = 0;
    const RectangleMm middle = is_frame(chart) ? chart.windows.front().place
                                               : RectangleMm{chart.width_mm / 2, chart.height_mm / 2, 0, 0};
    for (const auto& patch : chart.patches) {
      if (patch.role != PatchRole::neutral) continue;
      const PointMm c = patch.place.centre();
      // On a frame the bands above and below go from edge to edge; on a strip the halves count.
      const bool above = c.y<middle.y, below = c.y> middle.y + middle.height;
      top += above;
      bottom += below;
      if (!is_frame(chart) || (!above && !below)) {
        left += c.x < middle.x;
        right += c.x > middle.x + middle.width;
      }
    }
    EXPECT_GE(std::min({left, right, top, bottom}), 2)
        << fmt::format("{}: left {}, right {}, top {}, bottom {}", chart.name, left, right, top, bottom);
  }
}

TEST(ShippedChartsTest, NeutralsAreNeutralAndSpanTheRange) {
  for (const auto& chart : charts()) {
    int near_white = 0, near_black = 0, count = 0;
    for (const auto& patch : chart.patches) {
      const bool is_neutral = std::hypot(patch.nominal_lab.a, patch.nominal_lab.b) < 0.5;
      EXPECT_EQ(is_neutral, patch.role == PatchRole::neutral) << chart.name << " " << patch.id;
      if (!is_neutral) continue;
      ++count;
      near_white += patch.nominal_lab.l >= 80;
      near_black += patch.nominal_lab.l >= 12 && patch.nominal_lab.l <= 16;
    }
    EXPECT_GE(count, 6) << chart.name;
    EXPECT_GE(near_white, 3) << chart.name;
    EXPECT_EQ(near_black, 1) << chart.name;
  }
}

TEST(ShippedChartsTest, NominalColoursStayInsideSrgb) {
  // Below 0.015 of linear light the lowest channel drowns in the first steps of 8 bits; at white it clips.
  constexpr double least = 0.015, most = 0.97;
  for (const auto& chart : charts())
    for (const auto& patch : chart.patches) {
      const Vector3 rgb = linear_srgb(patch.nominal_lab);
      EXPECT_GE(*std::min_element(rgb.begin(), rgb.end()), least) << chart.name << " " << patch.id;
      EXPECT_LE(*std::max_element(rgb.begin(), rgb.end()), most) << chart.name << " " << patch.id;
    }
}

TEST(ShippedChartsTest, FramesHoldTheColoursOfFungiAndAVividRing) {
  for (const auto& chart : charts()) {
    if (!is_frame(chart)) continue;
    // Each a colour of the trade, and a patch no further than what a neighbour in the row of words would be.
    const std::vector<std::pair<std::string, Lab>> wanted = {
        {"cream", {86, 3, 20}},           {"yellow", {80, 4, 44}},        {"ochre", {65, 12, 36}},
        {"rust", {50, 26, 33}},           {"brown", {44, 12, 20}},        {"dark brown", {27, 9, 10}},
        {"purple-brown", {32, 10, 2}},    {"olive", {46, 2, 27}},         {"pink", {76, 15, 11}},
        {"bruising blue", {46, -6, -17}}, {"bruising red", {50, 32, 19}}, {"near-black brown", {16, 4, 3}}};
    for (const auto& [word, wanted_lab] : wanted) {
      const Lab lab = wanted_lab;  // structured bindings cannot be captured
      const auto nearest =
          std::min_element(chart.patches.begin(), chart.patches.end(), [&](const Patch& a, const Patch& b) {
            return difference_ciede2000(a.nominal_lab, lab) < difference_ciede2000(b.nominal_lab, lab);
          });
      EXPECT_LT(difference_ciede2000(nearest->nominal_lab, lab), 6) << chart.name << " has no " << word;
    }
    // A ring: no gap of hue wider than 60 degree among colours of chroma above 32.
    std::vector<double> hues;
    for (const auto& p : chart.patches)
      if (std::hypot(p.nominal_lab.a, p.nominal_lab.b) > 32)
        hues.push_back(std::atan2(p.nominal_lab.b, p.nominal_lab.a) * 180 / std::acos(-1.0));
    std::sort(hues.begin(), hues.end());
    ASSERT_GE(hues.size(), 12u) << chart.name;
    double widest = hues.front() + 360 - hues.back();
    for (std::size_t i = 1; i < hues.size(); ++i) widest = std::max(widest, hues[i] - hues[i - 1]);
    EXPECT_LT(widest, 60) << chart.name;
  }
}

double correlation(const std::vector<double>& x, const std::vector<double>& y) {
  const auto mean = [](const std::vector<double>& v) {
    double sum = 0;
    for (const double t : v) sum += t;
    return sum / static_cast<double>(v.size());
  };
  const double mx = mean(x), my = mean(y);
  double xy = 0, xx = 0, yy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xy += (x[i] - mx) * (y[i] - my);
    xx += (x[i] - mx) * (x[i] - mx);
    yy += (y[i] - my) * (y[i] - my);
  }
  return xy / std::sqrt(xx * yy);
}

TEST(ShippedChartsTest, ColourDoesNotGoWithPlace) {
  double worst = 0;
  std::string where;
  for (const auto& chart : charts()) {
    std::vector<std::vector<double>> colours(3), places(5);
    for (const auto& patch : chart.patches) {
      const PointMm c = patch.place.centre();
      const double x = (c.x - chart.width_mm / 2) / chart.width_mm,
                   y = (c.y - chart.height_mm / 2) / chart.height_mm;
      for (const auto& [i, v] : {std::pair(0, patch.nominal_lab.l), std::pair(1, patch.nominal_lab.a),
                                 std::pair(2, patch.nominal_lab.b)})
        colours[static_cast<std::size_t>(i)].push_back(v);
      const double basis[] = {x, y, x * x, y * y, x * y};
      for (std::size_t i = 0; i < 5; ++i) places[i].push_back(basis[i]);
    }
    for (std::size_t c = 0; c < 3; ++c)
      for (std::size_t p = 0; p < 5; ++p)
        if (const double r = std::abs(correlation(colours[c], places[p])); r > worst) {
          worst = r;
          where = fmt::format("{}, axis {}, basis {}", chart.name, c, p);
        }
  }
  std::printf("worst correlation of colour and place: %.3f (%s)\n", worst, where.c_str());
  // A random arrangement of 58 patches has a standard deviation of 0.13; the arrangement was chosen to stay
  // far below.
  EXPECT_LT(worst, 0.06) << where;
}

TEST(ShippedChartsTest, SheetsCarryRulerFieldsInstructionsAndCautions) {
  for (const auto& chart : charts()) {
    std::vector<PrintedTextKind> kinds;
    for (const auto& text : chart.texts) {
      kinds.push_back(text.kind);
      if (text.kind == PrintedTextKind::ruler) {
        EXPECT_GE(text.place.width, 50 - rounding_mm) << chart.name;
      }
    }
    EXPECT_THAT(kinds,
                testing::UnorderedElementsAre(PrintedTextKind::ruler, PrintedTextKind::fields,
                                              PrintedTextKind::instructions, PrintedTextKind::cautions))
        << chart.name;
  }
}

TEST(ShippedChartsTest, TwoBackingsFillTheOpening) {
  const auto chart = find_chart("two-backings-a5");
  ASSERT_TRUE(chart);
  ASSERT_EQ(chart->backings.size(), 2u);
  const RectangleMm &black = chart->backings[0].place, &white = chart->backings[1].place,
                    &w = chart->windows[0].place;
  EXPECT_EQ(chart->backings[0].id, "black");
  EXPECT_LT(chart->backings[0].nominal_lab.l, 25);
  EXPECT_EQ(chart->backings[1].nominal_lab, *chart->paper_lab);
  EXPECT_EQ(black, (RectangleMm{w.x, w.y, w.width / 2, w.height}));
  EXPECT_EQ(white, (RectangleMm{w.x + w.width / 2, w.y, w.width / 2, w.height}));
}

}  // namespace
}  // namespace colorlib
