#include "tests/scenes/scenario.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace colorlib::scenes {

const std::vector<ScenarioItem>& scenario_items() {
  // Invented; Lab values are D65, 2 degree.
  static const std::vector<ScenarioItem> items{
      {"QH-01", "Russula sp.", "Old Ferrule Wood", "cream", {88, 1.5, 17}, Substrate::card_black, 0},
      {"QH-02", "Entoloma sp.", "Low Lantern Meadow", "salmon pink", {64, 13, 16}, Substrate::card_white, 0},
      {"QH-03",
       "Cortinarius sp.",
       "Cindermarsh Heath",
       "rusty brown",
       {42, 19, 29},
       Substrate::card_white,
       0},
      {"QH-04", "Agaricus sp.", "Low Lantern Meadow", "chocolate", {25, 8, 8.5}, Substrate::card_white, 0},
      {"QH-05", "coprinoid sp.", "Tansy Hollow", "black", {16, 1.5, 1.5}, Substrate::card_white, 0},
      {"QH-06", "boletoid sp.", "Old Ferrule Wood", "olive brown", {43, 5, 25}, Substrate::foil, 0},
      {"QH-07",
       "green-spored lepiotoid sp.",
       "Low Lantern Meadow",
       "dull green",
       {66, -8, 17},
       Substrate::card_white,
       0},
      {"QH-08",
       "Mycena sp.",
       "Tansy Hollow",
       "white, thin",
       {93, 0, 4},
       Substrate::half_black_half_white,
       0.5}};
  return items;
}

const ScenarioItem& scenario_item(const std::string& id) {
  for (const ScenarioItem& item : scenario_items())
    if (item.id == id) return item;
  throw std::runtime_error("the scenario has no collection " + id);
}

SceneSettings scenario_scene(const ScenarioItem& item, Condition condition, std::uint64_t seed,
                             const ChartDefinition& chart) {
  SceneSettings s = random_scene(condition, seed, Pool::tuning);
  s.name = item.id;
  s.substrate = item.substrate;
  // A careful person's photograph: the right way up, nearly from above, with a phone's ordinary development.
  s.view.rotation_deg = std::remainder(s.view.rotation_deg, 180.0) * 0.3;
  if (std::abs(s.view.rotation_deg) > 8) s.view.rotation_deg = 4;
  s.view.tilt_deg = 0.5 * s.view.tilt_deg;
  for (double& error : s.development.balance_error) error = std::pow(error, 0.3);
  s.development.balance_strength = std::max(s.development.balance_strength, 0.95);
  s.view.fill = std::max(s.view.fill, 0.86);
  SpecimenSettings deposit;
  deposit.id = "A";
  deposit.kind = RegionKind::deposit;
  deposit.pigment = pigment_matching(lab_d50_from_d65(item.lab_d65), Pool::tuning);
  deposit.thickness = item.thickness;
  deposit.thickness_spread = 0.2;
  deposit.strength_spread = 0.05;
  deposit.grain = 0.02;
  deposit.print_pattern = true;
  deposit.gill_pitch_mm = 1.5;
  deposit.gill_depth = 0.12;
  if (!chart.windows.empty()) {
    const RectangleMm& w = chart.windows[0].place;
    const double radius = 0.30 * std::min(w.width, w.height);
    deposit.place_mm = EllipseShape{w.x + 0.5 * w.width, w.y + 0.5 * w.height, radius, 0.96 * radius};
  }
  s.specimens = {deposit};
  // The days of the invented exchange, one a collection.
  const int day = 3 + static_cast<int>(&item - scenario_items().data());
  ExifNote exif;
  exif.make = "Simulated";
  exif.model = "Scene renderer (invented photograph)";
  exif.software = "tintfall-scene";
  exif.date_time = fmt::format("2031:10:{:02} 11:{:02}:{:02}", day, static_cast<int>(seed * 7 % 60),
                               static_cast<int>(seed * 13 % 60));
  exif.subsecond = fmt::format("{:02}", seed * 37 % 100);
  exif.offset = "+02:00";
  exif.iso_speed = 64;
  exif.exposure_s = 1.0 / 120;
  s.exif = exif;
  return s;
}

}  // namespace colorlib::scenes
