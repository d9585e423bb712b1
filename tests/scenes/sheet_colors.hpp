#pragma once
/// What every part of one printed sheet reflects, the truth of it, and what an instrument said of it.

#include <vector>

#include "tests/scenes/scene.hpp"

namespace colorlib::scenes {

struct SheetColors {
  std::vector<Spectrum> patches;  ///< in the chart's order
  std::vector<Spectrum> backings;
  Spectrum paper, marker_ink;
  std::vector<Lab> true_patches;  ///< D50, with the brightener as D50 excites it
  Lab true_paper;
  ReferenceValues reference;
};

/// `seed` decides the print's and the instrument's errors.
SheetColors print_sheet(const SheetSettings& sheet, const ChartDefinition& chart, std::uint64_t seed,
                        double reference_sd);
/// The first sheet of a scene; nominal reference values if the settings say so.
SheetColors print_sheet(const SceneSettings& settings, const ChartDefinition& chart);

/// Light that leaves a printed or bare place of the sheet under a light (power at Y = 1): reflected and
/// fluorescent.
Spectrum leaving_light(const Spectrum& reflectance, const Paper& paper, const LightColor& light);

}  // namespace colorlib::scenes
