#pragma once
/// Reactions and bruises of the invented scenario. Nobody and nothing real is meant.

#include <string>
#include <vector>

#include "tests/scenes/series_scene.hpp"

namespace colorlib::scenes {

/// One time course of the scenario.
struct ScenarioReaction {
  std::string id, item;                   ///< "R1", "QH-01"
  std::string reagent, strength, tissue;  ///< reagent empty for a bruise
  ReactionCourse course;                  ///< Lab D50
  double wetting_l = 4;                   ///< L* that water takes off the tissue
};

const std::vector<ScenarioReaction>& scenario_reactions();
/// Throws std::runtime_error when the scenario has none of that id.
const ScenarioReaction& scenario_reaction(const std::string& id);
/// A careful person's series of it: phone on a stand, one frame before, then at ever longer steps.
SeriesSettings scenario_series(const ScenarioReaction& reaction, std::uint64_t seed, int width_px);

}  // namespace colorlib::scenes
