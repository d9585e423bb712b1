#pragma once
/// Reads many simulated photographs through the whole path and holds the readings against the truth.

#include <array>
#include <colorlib/calibration/calibration.hpp>
#include <string>
#include <vector>

#include "tests/scenes/charts.hpp"
#include "tests/scenes/scene.hpp"

namespace colorlib::accuracy {

/// One region of one scene: what was said and how far it was from the truth.
struct Outcome {
  double de00 = 0;  ///< truth against reading
  double de00_expanded = 0;
  double mahalanobis_squared = 0;  ///< under lab_covariance
  std::array<double, 3> error{};   ///< L, a, b: reading minus truth
  std::array<double, 3> expanded{};
  double l = 0;  ///< of the truth
  RegionKind kind = RegionKind::other;
  std::string family;  ///< of the pigment
  std::uint64_t seed = 0;
  std::string light;                           ///< of the scene: names of its lights
  LightKind light_kind = LightKind::unstated;  ///< what a user would call it
  Lab reading;                                 ///< what was said
  double glint_share = 0;
  std::vector<BudgetComponent> budget;
  CalibrationSummary calibration;  ///< of the photo
};

struct ConditionRun {
  std::string condition;
  int scenes = 0, refused_scenes = 0, regions = 0, refused_regions = 0;
  std::vector<std::string> refusals;  ///< the sentences, for the curious
  std::vector<Outcome> outcomes;
  std::vector<double> placement_rms_px;  ///< of every placed scene, over a grid of the sheet
  int flagged_curled = 0;
};

struct RunSettings {
  scenes::Pool pool = scenes::Pool::tuning;
  std::uint64_t first_seed = 1;
  int scenes = 40;
  int specimens = 3;  ///< at least this many a scene
  bool raw = false;   ///< every photo as the sensor's own values
};

/// The same photographs read twice.
struct TwoReadings {
  ConditionRun light_unstated, light_stated;
};
TwoReadings run_condition_twice(scenes::Condition condition, const RunSettings& settings);

/// Without saying what the light was.
ConditionRun run_condition(scenes::Condition condition, const RunSettings& settings);

/// The figures of one table row.
struct Figures {
  std::size_t readings = 0;
  double median = 0, p95 = 0, worst = 0;  ///< dE00
  double covered = 0, covered_joint = 0;  ///< share with dE00 <= de00_expanded; with d^2 <= 7.815
  double covered_standard_error = 0;      ///< by scenes, whose readings share its errors
  std::array<double, 3> covered_axis{};   ///< share within lab_expanded
  double median_expanded = 0;             ///< of de00_expanded
  double refused = 0;                     ///< share of scenes
};
/// Refused scenes beyond 3 % count as misses: each adds its missing readings as uncovered. Not so under a
/// shadow edge, where refusing is right.
Figures figures_of(const std::vector<ConditionRun>& runs);

/// Only outcomes under one kind of light; refusals and scenes are left out.
ConditionRun under_light(const ConditionRun& run, LightKind kind);

std::string table_head();
std::string table_row(const std::string& name, const Figures& figures);

/// The same readings with the light unsaid and said: only what changes by it.
std::string light_said_head();
std::string light_said_row(const std::string& name, const Figures& unsaid, const Figures& said);

}  // namespace colorlib::accuracy
