#pragma once
/// The invented demo scenario: the Quillhaven Fungus Recording Circle and its deposit colour exchange. Nobody
/// real is meant.

#include <string>
#include <vector>

#include "tests/scenes/scene.hpp"

namespace colorlib::scenes {

/// One collection of the scenario.
struct ScenarioItem {
  std::string id, taxon, place, word;
  Lab lab_d65;  ///< true thick-layer colour, D65 / 2 degree, as the scenario states it
  Substrate substrate = Substrate::card_white;
  double thickness = 0;  ///< scattering power of the print; 0: opaque
};
const std::vector<ScenarioItem>& scenario_items();
/// By id, e.g. "QH-03"; throws std::runtime_error when there is none such.
const ScenarioItem& scenario_item(const std::string& id);

/// How the item's demonstration photograph is taken: one print of a cap in the chart's window, a phone in
/// daylight by default. The deposit's masstone is the scenario's Lab adapted to D50 by Bradford, its spectrum
/// mixed from the tuning pool's pigments.
SceneSettings scenario_scene(const ScenarioItem& item, Condition condition, std::uint64_t seed,
                             const ChartDefinition& chart);

}  // namespace colorlib::scenes
