#include "tests/masstone/masstone_run.hpp"
#include "tests/support/quantile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <mutex>
#include <thread>

namespace colorlib::accuracy {
namespace {

FilmOutcome outcome_of(const Reading& reading, const scenes::SpecimenTruth& truth, std::uint64_t seed) {
  FilmOutcome outcome;
  outcome.seed = seed;
  outcome.id = truth.id;
  outcome.true_contrast = truth.contrast_ratio;
  const Lab masstone = truth.masstone.value_or(truth.covered_mean);
  if (reading.refused) {
    outcome.refusal = reading.refused->message;
    return outcome;
  }
  outcome.seen_de00 = difference_ciede2000(reading.lab, masstone);
  if (!reading.layer) {
    outcome.opaque = true;
    return outcome;
  }
  const LayerReading& layer = *reading.layer;
  outcome.method = layer.method;
  outcome.contrast_told = layer.contrast_ratio.has_value();
  outcome.contrast = layer.contrast_ratio.value_or(0);
  outcome.contrast_expanded = layer.contrast_ratio_expanded;
  if (layer.refused) {
    outcome.refusal = layer.refused->message;
    return outcome;
  }
  outcome.answered = true;
  outcome.de00 = difference_ciede2000(layer.lab, masstone);
  outcome.de00_expanded = layer.de00_expanded;
  outcome.error = {layer.lab.l - masstone.l, layer.lab.a - masstone.a, layer.lab.b - masstone.b};
  outcome.expanded = layer.lab_expanded;
  return outcome;
}

}  // namespace

FilmRun run_films(scenes::Condition condition, scenes::Pool pool, std::uint64_t first_seed, int scenes) {
  const Namer namer = Namer::load(data_folder()).value();
  const ChartDefinition chart =
      find_chart(condition == scenes::Condition::thin_two_backings ? "two-backings-a5" : "frame-a5").value();
  FilmRun run;
  run.condition = scenes::condition_name(condition);
  std::mutex guard;
  std::atomic<int> next{0};
  const auto work = [&] {
    for (int index = next++; index < scenes; index = next++) {
      const std::uint64_t seed = first_seed + static_cast<std::uint64_t>(index);
      const scenes::Scene scene = scenes::render(scenes::random_scene(condition, seed, pool), chart);
      ReadRequest request;
      request.candidates = {chart};
      request.reference_values = scene.reference;
      request.regions = scenes::true_regions(scene);
      request.height_mm = 0;
      request.masstone = true;
      Progress quiet;
      const auto reading = read_photo(scene.photo, request, namer, quiet);
      const std::lock_guard lock(guard);
      ++run.scenes;
      if (!reading) {
        ++run.refused_scenes;
        continue;
      }
      for (std::size_t i = 0; i < reading->readings.size(); ++i) {
        // Of a pair both halves say the same: count it once.
        if (scene.specimens[i].id.ends_with("-right")) continue;
        if (scene.specimens[i].kind != RegionKind::deposit) continue;
        run.outcomes.push_back(outcome_of(reading->readings[i], scene.specimens[i], seed));
      }
    }
  };
  std::vector<std::thread> threads;
  for (unsigned i = 1; i < std::clamp(std::thread::hardware_concurrency(), 1u, 4u); ++i)
    threads.emplace_back(work);
  work();
  for (auto& thread : threads) thread.join();
  std::sort(run.outcomes.begin(), run.outcomes.end(), [](const FilmOutcome& a, const FilmOutcome& b) {
    return std::pair(a.seed, a.id) < std::pair(b.seed, b.id);
  });
  return run;
}

FilmFigures figures_of(const FilmRun& run, double least_contrast, double most_contrast) {
  FilmFigures f;
  std::vector<double> errors, stated, seen;
  for (const FilmOutcome& o : run.outcomes) {
    if (o.true_contrast < least_contrast || o.true_contrast > most_contrast) continue;
    ++f.films;
    if (!o.answered) continue;
    ++f.answered;
    f.covered += o.de00 <= o.de00_expanded;
    f.contrast_covered += std::abs(o.contrast - o.true_contrast) <= o.contrast_expanded;
    errors.push_back(o.de00), stated.push_back(o.de00_expanded), seen.push_back(o.seen_de00);
  }
  f.median = quantile(errors, 0.5);
  f.p95 = quantile(errors, 0.95);
  f.median_expanded = quantile(stated, 0.5);
  f.median_seen = quantile(seen, 0.5);
  return f;
}

std::string film_table_head() {
  return "| films | number | answered | within stated | median | p95 | median U | as seen, median | contrast "
         "ratio within "
         "stated |\n"
         "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
}

std::string film_table_row(const std::string& name, const FilmFigures& f) {
  if (f.answered == 0) return fmt::format("| {} | {} | 0 | | | | | | |\n", name, f.films);
  return fmt::format(
      "| {} | {} | {} ({:.1f} %) | {:.1f} % | {:.2f} | {:.2f} | {:.2f} | {:.2f} | {:.1f} % |\n", name,
      f.films, f.answered, 100.0 * f.answered / f.films, 100.0 * f.covered / f.answered, f.median, f.p95,
      f.median_expanded, f.median_seen, 100.0 * f.contrast_covered / f.answered);
}

}  // namespace colorlib::accuracy
