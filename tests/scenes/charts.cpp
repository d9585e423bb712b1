#include "tests/scenes/charts.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

namespace colorlib::scenes {
namespace {

/// A plain spread of colours: neutrals, then a ring of hues at three lightnesses and two chromas.
std::vector<Lab> spread_of_colors(int neutrals, int colors) {
  std::vector<Lab> set;
  for (int i = 0; i < neutrals; ++i) set.push_back({94 - 78.0 * i / std::max(1, neutrals - 1), 0, 0});
  for (int i = 0; i < colors; ++i) {
    const double hue = 6.283185307 * i * 0.38196601;  // golden angle
    const double l = 30 + 14 * (i % 5), c = (i % 2 == 0 ? 22 : 44) * (l > 75 || l < 35 ? 0.7 : 1.0);
    set.push_back({l, c * std::cos(hue), c * std::sin(hue)});
  }
  return set;
}

}  // namespace

ChartDefinition grid_chart() {
  ChartDefinition chart;
  chart.name = "scene-grid";
  chart.title = "Grid of 48 without markers";
  chart.width_mm = 200;
  chart.height_mm = 130;
  const auto colors = spread_of_colors(10, 38);
  for (int row = 0; row < 6; ++row)
    for (int column = 0; column < 8; ++column) {
      const int i = row * 8 + column;
      const bool neutral = i < 10;
      // Neutrals spread over the grid rather than in a row.
      const int place = (i * 19) % 48;
      chart.patches.push_back({fmt::format("{}{:02}", neutral ? 'N' : 'C', i + 1),
                               neutral ? PatchRole::neutral : PatchRole::colour,
                               {10 + 14.0 * (place % 8), 22 + 15.0 * (place / 8), 11, 11},
                               colors[static_cast<std::size_t>(i)]});
    }
  chart.windows.push_back({"W1", {128, 20, 62, 90}});
  chart.paper_lab = Lab{95, 0, -2};
  return chart;
}

ChartDefinition small_frame_chart() {
  ChartDefinition chart;
  chart.name = "scene-frame";
  chart.title = "Frame of 38";
  chart.width_mm = 180;
  chart.height_mm = 140;
  chart.markers = {{0, 6, 6, 16}, {1, 158, 6, 16}, {2, 158, 118, 16}, {3, 6, 118, 16}};
  chart.windows.push_back({"W1", {50, 40, 80, 60}});
  const auto colors = spread_of_colors(12, 26);
  int i = 0;
  const auto add = [&](double x, double y) {
    if (i >= 38) return;
    const int k = (i * 7) % 38;
    const bool neutral = k < 12;
    chart.patches.push_back({fmt::format("{}{:02}", neutral ? 'N' : 'C', k + 1),
                             neutral ? PatchRole::neutral : PatchRole::colour,
                             {x, y, 10, 10},
                             colors[static_cast<std::size_t>(k)]});
    ++i;
  };
  for (int k = 0; k < 9; ++k) add(29 + 13.5 * k, 7), add(29 + 13.5 * k, 123);
  for (int k = 0; k < 5; ++k)
    add(7, 34 + 15.5 * k), add(163, 34 + 15.5 * k), add(22, 34 + 15.5 * k), add(148, 34 + 15.5 * k);
  chart.paper_lab = Lab{95, 0, -2};
  return chart;
}

}  // namespace colorlib::scenes
