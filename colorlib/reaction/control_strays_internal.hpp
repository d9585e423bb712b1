#pragma once
/// Photos that show something else than the series: their controls lie far from where the other photos have
/// them.

#include <colorlib/reaction/kinetics.hpp>

namespace colorlib {

struct ControlStray {
  std::size_t frame = 0;
  std::string control;   ///< id of the one that lies farthest away
  double away_de00 = 0;  ///< from its course in the other photos
};
struct ControlStrays {
  std::vector<ControlStray> strays;  ///< by frame
  bool too_many = false;             ///< more than `most_control_strays`: then none of them is a stray
};

/// How many of so many frames may be left out for their controls.
std::size_t most_control_strays(std::size_t frames);

/// A reagent never moves a control beside it, and what does (light, wetting, drying) moves it smoothly or for
/// good. So a reading is a stray's when it lies far from the course on both sides of it, as a multiple of its
/// scatter and in dE00. Bruises change fast by themselves and are not asked; nor is a control with fewer than
/// five readings. A mark in `left_out` changes nothing here, so that a stray keeps its reason.
ControlStrays control_strays(const ReactionSeries& series);

}  // namespace colorlib
