#pragma once
/// The spot's way through colour, minus what the controls did meanwhile.

#include <colorlib/reaction/kinetics.hpp>

namespace colorlib {

struct CorrectedPath {
  std::vector<double> seconds;
  std::vector<ColorState> frames;  ///< Lab of the spot as if the controls had stayed as they were before
  /// What the subtracted controls did, in Lab, smoothed; zero without controls. A spot shares it to some
  /// degree only.
  std::vector<Vector3> control_change;
  double subtracted_change_de00 = 0;  ///< of the subtracted controls over the series
  double control_change_de00 = 0;     ///< of the kind of control that changed most
  RegionKind most_changed_control = RegionKind::control;
  double control_scatter_de00 = 0;  ///< rms of a control's frame, from differences of successive frames
  bool has_water = false, has_untreated = false, has_bruise_control = false;
  std::vector<std::string> remarks;
};

/// Which controls are subtracted: untreated bruises if there are any, else water, else untreated tissue, the
/// mean of each kind: they underwent most of what the spot did, but the reagent. A gap is filled along a
/// straight line in time; so is a control's frame that was left out (`left_out` empty: none, else one a
/// frame).
CorrectedPath corrected_path(const ReactionSeries& series, std::vector<bool> left_out = {});

/// What is added to every variance: no reading is better than this, and an exact one must not rule the fit.
inline constexpr double least_reading_sd = 0.05;

}  // namespace colorlib
