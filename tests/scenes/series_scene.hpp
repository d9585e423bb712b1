#pragma once
/// A simulated series: one spot, a water drop and untreated tissue, photographed again and again by hand
/// while the light drifts.

#include <cstdint>
#include <string>
#include <vector>

#include "tests/scenes/reaction_course.hpp"
#include "tests/scenes/scene.hpp"

namespace colorlib::scenes {

struct SeriesSettings {
  ReactionCourse course;  ///< of the spot
  Lab tissue;             ///< of what is not treated
  Lab wet_tissue;  ///< what water makes of it, halfway in `wetting_half_s`; equal to `tissue`: no water
                   ///< region
  double wetting_half_s = 30;
  std::vector<double> seconds;  ///< of the frames, from the application
  Condition condition = Condition::daylight_phone;
  Pool pool = Pool::tuning;
  std::uint64_t seed = 1;
  int width_px = 1200;
  double hand_deg = 1.5;  ///< sd of tilt and turn from frame to frame; 0: on a stand
  double drift = 0.1;     ///< how far the light's strength and balance wander, relative sd over the series
  double gloss = 0.004;   ///< share of the wet spot and drop that shines
  bool bruise = false;    ///< the spot is a bruise: no water
};

/// The scene of one frame. Wetting also acts on the spot (not on a bruise): multiplied onto its reflectance
/// as on the water drop's.
class SeriesScene {
 public:
  SeriesScene(SeriesSettings settings, ChartDefinition chart);
  const SeriesSettings& settings() const { return settings_; }
  const ChartDefinition& chart() const { return chart_; }
  std::size_t frames() const { return settings_.seconds.size(); }
  Scene frame(std::size_t index) const;
  /// Regions as `--regions` takes them: A the spot or bruise, W the water drop (if any), C untreated tissue.
  Regions regions() const;
  /// "frame-07.jpg"
  std::string file_name(std::size_t index) const;

 private:
  SeriesSettings settings_;
  ChartDefinition chart_;
  SceneSettings base_;
  ReactionPigments spot_;
  Pigment tissue_;
  Spectrum wetting_;  ///< reflectance factor of full wetting
};

}  // namespace colorlib::scenes
