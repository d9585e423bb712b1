/// tintfall-scene: renders one simulated photograph, its reference file and its truth.

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <colorlib/base/file_access.hpp>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <optional>

#include "tests/scenes/charts.hpp"
#include "tests/scenes/scenario.hpp"
#include "tests/scenes/scenario_reactions.hpp"
#include "tests/scenes/scene.hpp"
#include "tests/scenes/scene_picture.hpp"

namespace {

using namespace colorlib;
using namespace colorlib::scenes;

constexpr std::uint64_t stream_of_smears = 900;  // of random numbers, beside those that a scene uses

std::optional<ChartDefinition> chart_named(const std::string& name) {
  if (name == "scene-grid") return grid_chart();
  if (name == "scene-frame") return small_frame_chart();
  auto chart = find_chart(name);
  if (chart) return *chart;
  fmt::print(stderr, "{} {}\n", chart.error().message, chart.error().advice);
  return std::nullopt;
}

bool write(const std::string& path, const std::string& bytes) {
  if (path.empty()) return true;
  if (const auto done = write_file_atomically(path, bytes); !done) {
    fmt::print(stderr, "{}\n", done.error().message);
    return false;
  }
  return true;
}

/// A whole series into a folder, a photo a frame.
int run_series(const std::string& id, const ChartDefinition& chart, std::uint64_t seed, int width,
               const std::filesystem::path& folder, const std::string& reference_out,
               const std::string& regions_out) {
  const SeriesScene series(scenario_series(scenario_reaction(id), seed, width > 0 ? width : 1600), chart);
  std::error_code problem;
  std::filesystem::create_directories(folder, problem);
  for (std::size_t i = 0; i < series.frames(); ++i) {
    const Scene scene = series.frame(i);
    if (!write((folder / series.file_name(i)).string(), scene.jpeg_bytes)) return 1;
    if (i == 0 && !write(reference_out, reference_text(scene, chart))) return 1;
    for (const SpecimenTruth& t : scene.specimens)
      if (t.id == "A")
        fmt::print("{} {:8.2f} s  Lab {:6.2f} {:6.2f} {:6.2f}\n", series.file_name(i),
                   series.settings().seconds[i], t.as_seen.l, t.as_seen.a, t.as_seen.b);
  }
  return write(regions_out, regions_json(series.regions())) ? 0 : 1;
}

int run(int argc, char** argv) {
  CLI::App app{"Renders a simulated photograph. Everything in it is invented."};
  std::string reaction, folder;
  std::string scenario, condition_text = "daylight-phone", chart_name = "frame-a5", out, reference_out,
                        truth_out, regions_out, substrate;
  std::uint64_t seed = 1;
  int width = 0;
  double soil = 0, smear_mm = 0;
  bool held_out = false, list = false, mosaic = false;
  app.add_option("--scenario", scenario,
                 "a collection of the invented exchange, QH-01 to QH-08; without it a random scene");
  app.add_option("--condition", condition_text, "light and processing; --list names them");
  app.add_option("--chart", chart_name, "a shipped chart, a definition file, scene-grid or scene-frame");
  app.add_option("--seed", seed, "of everything drawn at random");
  app.add_option("--width", width,
                 "of the photograph in px; the height follows as 3/4 (scenario 4000, else 1600)");
  app.add_option("--out", out,
                 "the photograph: .jpg of a phone, .dng of a linear condition, .png for looking at");
  app.add_flag("--mosaic", mosaic, "a .dng with a colour mosaic (RGGB) instead of three values a pixel");
  app.add_option("--reference-out", reference_out, "the sheet's reference values, CGATS text");
  app.add_option("--truth-out", truth_out, "the truth, JSON");
  app.add_option("--regions-out", regions_out, "the true regions, as --regions takes them");
  app.add_option("--soil", soil, "share of each specimen under crumbs of soil")->check(CLI::Range(0.0, 0.3));
  app.add_option("--smear", smear_mm, "width of a streak of another deposit across each specimen, in mm")
      ->check(CLI::Range(0.0, 10.0));
  app.add_flag("--held-out", held_out, "draw from the held-out pool: for accuracy tests only");
  app.add_option("--reaction", reaction,
                 "a reaction of the scenario, R1, R3, R4, B1, B2, N1: a series of photographs");
  app.add_option("--folder", folder, "where the photographs of a series go");
  app.add_flag("--list", list, "name the conditions and collections");
  CLI11_PARSE(app, argc, argv);
  if (list) {
    for (const Condition c : all_conditions()) fmt::print("{}\n", condition_name(c));
    for (const auto& item : scenario_items()) fmt::print("{}  {} ({})\n", item.id, item.taxon, item.word);
    for (const auto& item : scenario_reactions())
      fmt::print("{}     {} {}\n", item.id, item.item, item.reagent.empty() ? "bruise" : item.reagent);
    return 0;
  }
  const auto condition = condition_from(condition_text);
  if (!condition) {
    fmt::print(stderr, "There is no condition '{}'; --list names them.\n", condition_text);
    return 2;
  }
  const auto chart = chart_named(chart_name);
  if (!chart) return 3;
  if (!reaction.empty()) return run_series(reaction, *chart, seed, width, folder, reference_out, regions_out);
  SceneSettings settings = scenario.empty()
                               ? random_scene(*condition, seed, held_out ? Pool::held_out : Pool::tuning)
                               : scenario_scene(scenario_item(scenario), *condition, seed, *chart);
  if (width == 0 && !scenario.empty()) width = 4000;
  if (width > 0) set_picture_width(settings, width);
  Random random(seed, stream_of_smears);
  for (SpecimenSettings& specimen : settings.specimens) {
    specimen.soil_share = soil;
    specimen.smear_mm = smear_mm;
    if (smear_mm > 0) specimen.smear = random_pigment(random, Pool::tuning, false);
  }
  const Scene scene = render(settings, *chart);

  if (settings.linear && out.ends_with(".jpg")) {
    fmt::print(stderr, "The condition '{}' is linear; ask for .dng or .png.\n", condition_text);
    return 2;
  }
  const std::string file = out.ends_with(".dng")   ? dng_of(settings, scene, mosaic)
                           : out.ends_with(".jpg") ? scene.jpeg_bytes
                                                   : png_of(scene);
  bool good = out.empty() || write(out, file);
  good = write(reference_out, reference_text(scene, *chart)) && good;
  good = write(truth_out, truth_text(settings, scene, *chart)) && good;
  if (!regions_out.empty()) good = write(regions_out, regions_json(true_regions(scene))) && good;
  for (const SpecimenTruth& t : scene.specimens)
    fmt::print("{:8} {:8} Lab {:6.2f} {:6.2f} {:6.2f}  {}\n", t.id, region_kind_name(t.kind), t.as_seen.l,
               t.as_seen.a, t.as_seen.b, t.pigment_family);
  return good ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& e) {
    fmt::print(stderr, "{}\n", e.what());
    return 1;
  }
}
