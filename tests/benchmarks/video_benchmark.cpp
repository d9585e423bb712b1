// What reading a filmed reaction costs, as a ratio to decoding the same video alone.
//
//   video_benchmark [SECONDS] [ROUNDS] [--every-frame]
//
// 180 s of 1920 x 1080 at 30 frames a second by default, encoded here from rendered frames that are blended and shifted by
// fractions of a hand's tremor. Decoding and reading take turns; the median of the rounds' ratios counts. Nothing is asserted.
#include <fmt/format.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/video/video_reading.hpp>
#include <cstdlib>
#include <cstring>
#include <functional>
#include <tests/colorlib/video/video_files.hpp>
#include <tests/scenes/series_scene.hpp>

namespace {

using namespace colorlib;

constexpr int width = 1920, height = 1080, rate = 30;

double seconds_of(const std::function<void()>& work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

/// The middle 1080 rows of a 1920 x 1440 picture, moved by whole pixels.
Image8 part_of(const Image8& picture, int dx, int dy) {
  Image8 part(height, width, 3);
  for (int r = 0; r < height; ++r)
    for (int c = 0; c < width; ++c)
      std::copy_n(picture.at(std::clamp(r + (picture.rows - height) / 2 + dy, 0, picture.rows - 1),
                             std::clamp(c + dx, 0, picture.columns - 1)),
                  3, part.at(r, c));
  return part;
}

void blend(const Image8& a, const Image8& b, double share, Image8& out) {
  const int weight = static_cast<int>(std::lround(256 * share));
  for (std::size_t i = 0; i < out.data.size(); ++i)
    out.data[i] = static_cast<std::uint8_t>((a.data[i] * (256 - weight) + b.data[i] * weight + 128) >> 8);
}

void film(const std::filesystem::path& path, const scenes::SeriesScene& series, double length_s) {
  std::vector<Image8> pictures;
  for (std::size_t i = 0; i < series.frames(); ++i) pictures.push_back(std::get<Image8>(series.frame(i).photo.store()));
  const auto& at = series.settings().seconds;
  VideoFileSettings settings;
  settings.width_px = width;
  settings.height_px = height;
  settings.quality = 23;
  VideoWriter writer(path, settings);
  Image8 mixed(pictures[0].rows, pictures[0].columns, 3);
  for (int i = 0; i < static_cast<int>(length_s * rate); ++i) {
    const double t = at.front() + static_cast<double>(i) / rate;
    std::size_t next = 1;
    while (next + 1 < at.size() && at[next] < t) ++next;
    const double share = std::clamp((t - at[next - 1]) / (at[next] - at[next - 1]), 0.0, 1.0);
    blend(pictures[next - 1], pictures[next], share, mixed);
    const int dx = static_cast<int>(std::lround(2 * std::sin(0.11 * i))), dy = static_cast<int>(std::lround(2 * std::cos(0.07 * i)));
    writer.add(part_of(mixed, dx, dy), std::lround(1000.0 * i / rate));
  }
  writer.finish();
}

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
  film(video, series, length_s);

  ReadRequest request;
  request.candidates = *charts;
  request.regions = series.regions();
  VideoOptions options;
  options.thinning.every_frame = every_frame;
  VideoSummary summary;
  std::vector<double> ratios;
  for (int round = -1; round < rounds; ++round) {
    const double plain = seconds_of([&] {
      auto frames = VideoFrames::open(video);
      if (!frames) std::exit(1);
      for (;;) {
        const auto next = frames->next();
        if (!next || !*next) break;
      }
    });
    const double whole = seconds_of([&] {
      Progress progress;
      const auto done = read_video(video, request, *namer, options,
                                   [](const VideoFrameOutcome&) -> Result<std::monostate> { return std::monostate{}; }, progress);
      if (!done) {
        fmt::print(stderr, "{}\n", done.error().message);
        std::exit(1);
      }
      summary = *done;
    });
    if (round < 0 && rounds > 1) continue;
    fmt::print("decoding {:.2f} s, reading {:.2f} s, ratio {:.2f}\n", plain, whole, whole / plain);
    ratios.push_back(whole / plain);
  }
  std::sort(ratios.begin(), ratios.end());
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  fmt::print("{} x {} px, {:.0f} s, {} frames decoded, {} read{}: median ratio {:.2f}; peak memory {} MiB (making the film included)\n",
             width, height, length_s, summary.frames_decoded, summary.frames_read, every_frame ? " (every frame)" : "",
             ratios[ratios.size() / 2], usage.ru_maxrss / 1024);
  std::filesystem::remove_all(folder);
  return 0;
}
