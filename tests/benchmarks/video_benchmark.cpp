// What reading a filmed reaction costs, as a ratio to decoding the same video alone.
//
//   video_benchmark [SECONDS] [ROUNDS] [--every-frame]
//
// 180 s of 1920 x 1080 at 30 frames a second by default, encoded here from rendered frames that are blended
// and shifted as by a hand's tremor. Decoding and reading take turns; the median of the rounds' ratios
// counts. Nothing is asserted.
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/base/median.hpp>
#include <colorlib/video/video_reading.hpp>
#include <cstdlib>
#include <cstring>
#include <functional>
#include <tests/colorlib/video/filmed_series.hpp>
#include <tests/scenes/series_scene.hpp>

#include "tests/benchmarks/cost.hpp"

namespace {

using namespace colorlib;

constexpr int width = 1920, height = 1080, rate = 30;

}  // namespace

int main(int argc, char** argv) {
  const double length_s = argc > 1 ? std::max(2.0, std::atof(argv[1])) : 180;
  const int rounds = argc > 2 ? std::max(1, std::atoi(argv[2])) : 3;
  const bool every_frame = argc > 3 && std::strcmp(argv[3], "--every-frame") == 0;
  const auto chart = find_chart("frame-a5");
  const auto namer = Namer::load(data_folder());
  const auto charts = shipped_charts();
  if (!chart || !namer || !charts) return 1;
  std::string pattern = (std::filesystem::temp_directory_path() / "tintfall-bench-XXXXXX").string();
  const std::filesystem::path folder = mkdtemp(pattern.data()), video = folder / "film.mp4";

  scenes::SeriesSettings settings;
  settings.course = {{70, 7, 24}, {32, 12, 11}, {}, 2, 8, 0};
  settings.tissue = {70, 7, 24};
  settings.wet_tissue = {66.5, 7.2, 25};
  settings.seconds = {-5, 1.9, 4, 6, 9, 12, 16, 20, 26, 34, 45, 60, 90, 175};
  settings.width_px = width;
  settings.hand_deg = 0;  // blended frames must lie on one another
  settings.drift = 0.02;
  const scenes::SeriesScene series(settings, *chart);
  FilmSettings film;
  film.length_s = length_s;
  film.rate = rate;
  film.height_px = height;
  film_series(video, series, film);

  ReadRequest request;
  request.candidates = *charts;
  request.regions = series.regions();
  VideoOptions options;
  options.thinning.every_frame = every_frame;
  VideoSummary summary;
  std::vector<double> ratios, processor_ratios;
  for (int round = -1; round < rounds; ++round) {
    const Cost plain = cost_of([&] {
      auto frames = VideoFrames::open(video);
      if (!frames) std::exit(1);
      for (;;) {
        const auto next = frames->next();
        if (!next || !*next) break;
      }
    });
    const Cost whole = cost_of([&] {
      Progress progress;
      const auto done = read_video(
          video, request, *namer, options,
          [](const VideoFrameOutcome&) -> Result<std::monostate> { return std::monostate{}; }, progress);
      if (!done) {
        fmt::print(stderr, "{}\n", done.error().message);
        std::exit(1);
      }
      summary = *done;
    });
    if (round < 0 && rounds > 1) continue;
    fmt::print(
        "decoding {:.2f} s (processors {:.2f} s), reading {:.2f} s ({:.2f} s), ratio {:.2f} ({:.2f})\n",
        plain.clock_s, plain.processor_s, whole.clock_s, whole.processor_s, whole.clock_s / plain.clock_s,
        whole.processor_s / plain.processor_s);
    ratios.push_back(whole.clock_s / plain.clock_s);
    processor_ratios.push_back(whole.processor_s / plain.processor_s);
  }
  fmt::print(
      "{} x {} px, {:.0f} s, {} frames decoded, {} read{}: median ratio {:.2f} by the clock, {:.2f} of "
      "processor time; peak memory {} MiB (making the film included)\n",
      width, height, length_s, summary.frames_decoded, summary.frames_read,
      every_frame ? " (every frame)" : "", median(ratios), median(processor_ratios), std::lround(peak_mib()));
  std::filesystem::remove_all(folder);
  return 0;
}
