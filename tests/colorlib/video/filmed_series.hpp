#pragma once
/// A simulated series as a film: its few rendered frames, blended and shifted as by a hand's tremor.

#include <filesystem>
#include <optional>

#include "tests/scenes/series_scene.hpp"

namespace colorlib {

struct FilmSettings {
  double length_s = 10;
  int rate = 30;      ///< frames a second; every tenth comes a little late, as phones do
  int height_px = 0;  ///< of the middle rows that are kept; 0: all
  double tremor_px = 2;
  int quality = 23;  ///< constant rate factor of H.264
  /// From when to when (s of the film) something lies on the left third of the sheet.
  std::optional<std::pair<double, double>> covered_s;
};

/// Begins at the series' first moment. The series should be one on a stand: what is blended must lie on one
/// another. Throws std::runtime_error on every failure.
void film_series(const std::filesystem::path& path, const scenes::SeriesScene& series,
                 const FilmSettings& settings);

}  // namespace colorlib
