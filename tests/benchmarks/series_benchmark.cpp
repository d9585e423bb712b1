// What reading a series costs, as a ratio to decoding the same photos with a plain libjpeg-turbo on as many
// threads.
//
//   series_benchmark [PHOTOS] [ROUNDS]
//
// 120 photos of 12 MP by default (a few different ones, written again and again). Decoding and reading take
// turns; the median of the rounds' ratios counts. Nothing is asserted.
#include <fmt/format.h>
#include <jpeglib.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/median.hpp>
#include <colorlib/reaction/stills_reading.hpp>
#include <colorlib/records/series_record.hpp>
#include <cstdlib>
#include <tests/scenes/series_scene.hpp>
#include <thread>

#include "tests/benchmarks/cost.hpp"

namespace {

using namespace colorlib;

void plain_decode(const std::filesystem::path& path, std::vector<unsigned char>& pixels) {
  const auto bytes = read_file(path, "the photo", ErrorCode::unreadable_photo, 600u << 20);
  if (!bytes) std::exit(1);
  jpeg_decompress_struct decoder{};
  jpeg_error_mgr errors{};
  decoder.err = jpeg_std_error(&errors);
  jpeg_create_decompress(&decoder);
  jpeg_mem_src(&decoder, reinterpret_cast<const unsigned char*>(bytes->data()), bytes->size());
  jpeg_read_header(&decoder, TRUE);
  decoder.out_color_space = JCS_RGB;
  jpeg_start_decompress(&decoder);
  const std::size_t stride = static_cast<std::size_t>(decoder.output_width) * 3;
  pixels.resize(stride * decoder.output_height);
  while (decoder.output_scanline < decoder.output_height) {
    JSAMPROW row = pixels.data() + stride * decoder.output_scanline;
    jpeg_read_scanlines(&decoder, &row, 1);
  }
  jpeg_finish_decompress(&decoder);
  jpeg_destroy_decompress(&decoder);
}

void decode_all(const std::vector<std::filesystem::path>& photos) {
  std::atomic<std::size_t> next{0};
  std::vector<std::thread> threads;
  const unsigned cores = std::clamp(std::thread::hardware_concurrency(), 1u, StillsTask::most_threads);
  for (unsigned i = 0; i < cores; ++i)
    threads.emplace_back([&] {
      std::vector<unsigned char> pixels;
      for (std::size_t k = next++; k < photos.size(); k = next++) plain_decode(photos[k], pixels);
    });
  for (auto& thread : threads) thread.join();
}

}  // namespace

int main(int argc, char** argv) {
  const std::size_t count = argc > 1 ? std::max(2, std::atoi(argv[1])) : 120;
  const int rounds = argc > 2 ? std::max(1, std::atoi(argv[2])) : 3;
  const auto chart = find_chart("frame-a5");
  const auto namer = Namer::load(data_folder());
  const auto charts = shipped_charts();
  if (!chart || !namer || !charts) return 1;

  std::string pattern = (std::filesystem::temp_directory_path() / "tintfall-bench-XXXXXX").string();
  const std::filesystem::path folder = mkdtemp(pattern.data());
  scenes::SeriesSettings settings;
  settings.course = {{70, 7, 24}, {32, 12, 11}, {}, 2, 8, 0};
  settings.tissue = {70, 7, 24};
  settings.wet_tissue = {66.5, 7.2, 25};
  settings.seconds = {-2, 5, 12, 60};
  settings.width_px = 4000;
  const scenes::SeriesScene series(settings, *chart);
  std::vector<std::string> jpegs;
  for (std::size_t i = 0; i < series.frames(); ++i) jpegs.push_back(series.frame(i).jpeg_bytes);
  std::vector<std::filesystem::path> photos;
  for (std::size_t i = 0; i < count; ++i) {
    photos.push_back(folder / fmt::format("photo-{:03}.jpg", i));
    if (!write_file_atomically(photos.back(), jpegs[i % jpegs.size()])) return 1;
  }
  ReadRequest request;
  request.candidates = *charts;
  request.regions = series.regions();
  const auto read_all = [&] {
    StillsTask task;
    task.photos = photos;
    Progress progress;
    std::size_t kept = 0;
    const auto sink = [&](const StillOutcome& outcome) -> Result<std::monostate> {
      if (outcome.reading) {
        FrameRecord frame;
        frame.record = record_of_still(outcome, {});
        kept += frame_json(frame).size();
      }
      return std::monostate{};
    };
    if (!read_stills(task, request, *namer, sink, progress)) std::exit(1);
  };
  std::vector<double> ratios, processor_ratios;
  for (int round = -1; round < rounds; ++round) {
    const Cost plain = cost_of([&] { decode_all(photos); });
    const Cost whole = cost_of(read_all);
    if (round < 0) continue;
    fmt::print(
        "decoding {:.2f} s (processors {:.2f} s), reading the series {:.2f} s ({:.2f} s), ratio {:.2f} "
        "({:.2f})\n",
        plain.clock_s, plain.processor_s, whole.clock_s, whole.processor_s, whole.clock_s / plain.clock_s,
        whole.processor_s / plain.processor_s);
    ratios.push_back(whole.clock_s / plain.clock_s);
    processor_ratios.push_back(whole.processor_s / plain.processor_s);
  }
  fmt::print(
      "{} photos of 4000 x 3000 px, {:.1f} MB each: median ratio {:.2f} by the clock, {:.2f} of processor "
      "time; peak memory {} MiB\n",
      count, static_cast<double>(jpegs[0].size()) / 1e6, median(ratios), median(processor_ratios),
      std::lround(peak_mib()));
  std::filesystem::remove_all(folder);
  return 0;
}
