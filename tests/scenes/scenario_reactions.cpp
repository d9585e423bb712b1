#include "tests/scenes/scenario_reactions.hpp"

#include <stdexcept>

namespace colorlib::scenes {

const std::vector<ScenarioReaction>& scenario_reactions() {
  // Invented; Lab values are D65, 2 degree, as the scenario states them. (Its R2, a blue-green, lies outside
  // what the pools of pigments can mix.)
  static const std::vector<ScenarioReaction> reactions = [] {
    const auto d50 = [](double l, double a, double b) { return lab_d50_from_d65({l, a, b}); };
    const auto one_step = [&](Lab from, Lab to, double onset_s, double half_s) {
      return ReactionCourse{from, to, {}, onset_s, half_s, 0};
    };
    return std::vector<ScenarioReaction>{
        {"R1", "QH-01", "FeSO4", "10 %", "stem", one_step(d50(90, 0, 8), d50(76, 15, 22), 10, 40)},
        {"R3", "QH-04", "KOH", "5 %", "cap", one_step(d50(85, 1, 10), d50(80, 2, 58), 1, 3)},
        {"R4", "QH-03", "KOH", "5 %", "cap flesh", one_step(d50(70, 6, 24), d50(30, 12, 10), 2, 8)},
        {"B1", "QH-06", "", "", "cut flesh", {d50(86, -2, 30), d50(48, -8, -16), d50(70, 1, 12), 2, 6, 400}},
        {"B2", "QH-09", "", "", "cut flesh", {d50(90, 0, 9), d50(58, 32, 20), d50(24, 2, 2), 10, 45, 300}},
        {"N1", "QH-02", "KOH", "5 %", "cap", {d50(78, 5, 14), {}, {}, 0, 0, 0}}};
  }();
  return reactions;
}

const ScenarioReaction& scenario_reaction(const std::string& id) {
  for (const ScenarioReaction& reaction : scenario_reactions())
    if (reaction.id == id) return reaction;
  throw std::runtime_error("the scenario has no reaction " + id);
}

SeriesSettings scenario_series(const ScenarioReaction& reaction, std::uint64_t seed, int width_px) {
  SeriesSettings settings;
  settings.course = reaction.course;
  settings.tissue = reaction.course.a;
  settings.bruise = reaction.reagent.empty();
  settings.wet_tissue = reaction.course.a;
  if (!settings.bruise) {
    settings.wet_tissue.l -= reaction.wetting_l;
    settings.wet_tissue.a += 0.2;
    settings.wet_tissue.b += 1;
  }
  settings.seconds = {-4.2, -1.5, 1.1,  2.6,  4.8,   7.3,   10.2,  14.9, 20.4,
                      30.1, 45.2, 60.3, 90.2, 120.5, 180.3, 300.4, 600.2};
  settings.seed = seed;
  settings.width_px = width_px;
  settings.hand_deg = 0.3;
  settings.drift = 0.06;
  return settings;
}

}  // namespace colorlib::scenes
