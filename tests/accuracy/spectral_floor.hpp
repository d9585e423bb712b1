#pragma once
/// What no correction through a printed chart can do better: errors of one regression from camera values to
/// colour, without noise, optics or uneven light, with the exact lamp and camera. What is left is the
/// difference between printed and grown spectra.

#include <string>
#include <vector>

#include "tests/scenes/scene.hpp"

namespace colorlib::accuracy {

/// The spectra that the regression is fitted to; specimens are read with it, or print.
enum class Learnt {
  inks_for_print,  ///< the chart's patches as printed, to read another press's print: what `chart transfer`
                   ///< does
  inks,            ///< the chart's patches as printed: what a photograph offers
  own_pigments,   ///< other specimens of the very families to be read, under the same lamp and camera: nobody
                  ///< has these
  other_pigments  ///< specimens of families unlike those to be read, under the same lamp and camera: nobody
                  ///< has these either
};

struct FloorRow {
  std::string light;
  Learnt learnt = Learnt::inks;
  double median = 0, p95 = 0;  ///< ΔE00 of the specimens of the scenes
};

/// One row for each `Learnt`, over the scenes that `random_scene` draws for these arguments.
std::vector<FloorRow> spectral_floor(scenes::Condition condition, scenes::Pool pool, std::uint64_t first_seed,
                                     int scene_count);

std::string floor_head();
std::string floor_row(const std::string& pool, const std::vector<FloorRow>& rows);

}  // namespace colorlib::accuracy
