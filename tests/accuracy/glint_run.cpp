#include "tests/accuracy/glint_run.hpp"

#include <fmt/format.h>

#include <atomic>
#include <cmath>
#include <colorlib/specimen/photo_reading.hpp>
#include <colorlib/specimen/region_pixels.hpp>
#include <mutex>
#include <thread>

namespace colorlib::accuracy {
namespace {

void add_scene(const scenes::Scene& scene, const ChartDefinition& chart, GlintRun& run) {
  const DepositsOfScene read = deposits_of(scene, chart);
  if (!read.photo) return;
  ++run.scenes;
  for (const auto& deposit : read.deposits) {
    const std::vector<bool> found = read.photo->calibration.specular(deposit.pixels);
    for (std::size_t i = 0; i < found.size(); ++i) {
      ++run.pixels;
      run.mirrored += deposit.mirrored[i];
      run.found += found[i];
      run.right += deposit.mirrored[i] && found[i];
    }
  }
}

}  // namespace

DepositsOfScene deposits_of(const scenes::Scene& scene, const ChartDefinition& chart) {
  ReadRequest request;
  request.candidates = {chart};
  request.reference_values = scene.reference;
  Progress quiet;
  auto photo = calibrate_photo(scene.photo, request, quiet);
  DepositsOfScene read;
  if (!photo) return read;
  for (const auto& specimen : scene.specimens) {
    DepositPixels deposit;
    deposit.pixels =
        gather_pixels(scene.photo, photo->sheet.placement, specimen.region, RegionFrame::chart_mm).pixels;
    for (const auto& pixel : deposit.pixels) {
      const PointPx px = photo->sheet.placement.px_from_mm(pixel.place);
      deposit.mirrored.push_back(
          !scene.glint_mask.empty() &&
          *scene.glint_mask.at(static_cast<int>(std::lround(px.y)), static_cast<int>(std::lround(px.x))) > 0);
    }
    read.deposits.push_back(std::move(deposit));
  }
  read.photo = std::move(*photo);
  return read;
}

GlintRun run_glints(scenes::Condition condition, scenes::Pool pool, std::uint64_t first_seed,
                    int scene_count) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  GlintRun run;
  run.condition = scenes::condition_name(condition);
  std::mutex guard;
  std::atomic<int> next{0};
  const auto work = [&] {
    for (int index = next++; index < scene_count; index = next++) {
      auto settings = scenes::random_scene(condition, first_seed + static_cast<std::uint64_t>(index), pool);
      settings.glint_truth = true;
      const auto scene = scenes::render(settings, chart);
      GlintRun one;
      add_scene(scene, chart, one);
      const std::lock_guard lock(guard);
      run.scenes += one.scenes, run.pixels += one.pixels, run.mirrored += one.mirrored,
          run.found += one.found, run.right += one.right;
    }
  };
  std::thread second(work);
  work();
  second.join();
  return run;
}

std::string glint_head() {
  return "| condition | photos | pixels of deposits | mirrored | recall | precision |\n| --- | --- | --- | "
         "--- | --- | --- |\n";
}

std::string glint_row(const GlintRun& run) {
  return fmt::format("| {} | {} | {} | {:.1f} % | {:.1f} % | {:.1f} % |\n", run.condition, run.scenes,
                     run.pixels, 100.0 * static_cast<double>(run.mirrored) / static_cast<double>(run.pixels),
                     100 * run.recall(), 100 * run.precision());
}

}  // namespace colorlib::accuracy
