#pragma once
/// Masstones of many simulated thin deposits, through the whole path, against the truth.

#include <string>
#include <vector>

#include "tests/scenes/scene.hpp"

namespace colorlib::accuracy {

/// One film of one scene.
struct FilmOutcome {
  std::uint64_t seed = 0;
  std::string id;
  std::string method;
  double true_contrast = 1;
  bool answered = false;  ///< a masstone was given
  bool opaque = false;    ///< nothing was said, because the layer was found to hide its ground
  bool contrast_told = false;
  double contrast = 0, contrast_expanded = 0;
  double de00 = 0, de00_expanded = 0;  ///< masstone against truth
  double seen_de00 = 0;                ///< the colour as seen against the true masstone
  std::array<double, 3> error{}, expanded{};
  std::string refusal;
};

struct FilmRun {
  std::string condition;
  int scenes = 0, refused_scenes = 0;
  std::vector<FilmOutcome> outcomes;
};

FilmRun run_films(scenes::Condition condition, scenes::Pool pool, std::uint64_t first_seed, int scenes);

/// What is promised of masstones, over films of a range of true contrast ratios.
struct FilmFigures {
  int films = 0, answered = 0, covered = 0;
  int contrast_covered = 0;  ///< of the answered: true contrast ratio within what is stated
  double median = 0, p95 = 0, median_expanded = 0, median_seen = 0;
};
FilmFigures figures_of(const FilmRun& run, double least_contrast, double most_contrast);
std::string film_table_head();
std::string film_table_row(const std::string& name, const FilmFigures& figures);

}  // namespace colorlib::accuracy
