// What reading a photograph costs, as a ratio to a plain libjpeg-turbo decode of the same file in the same
// run.
//
//   read_photo_benchmark [ROUNDS] [PHOTO.jpg]
//
// Plain decode and our stages take turns, so that a busy machine slows both alike; the median of the rounds'
// ratios is what counts. Nothing is asserted. Without a photo, a 12 MP phone JPEG of a simulated sheet is
// rendered first.
#include <fmt/format.h>
#include <jpeglib.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/median.hpp>
#include <colorlib/image/decode.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <cstdlib>
#include <functional>
#include <string>
#include <tests/scenes/scene.hpp>
#include <tests/support/quantile.hpp>
#include <vector>

namespace {

using namespace colorlib;

template <class T>
T value_or_exit(Result<T> result, std::string_view doing) {
  if (result) return std::move(*result);
  fmt::print(stderr, "{}: {} {}\n", doing, result.error().message, result.error().advice);
  std::exit(1);
}

/// The whole picture to 8-bit RGB into a buffer that is used again: the floor that ratios refer to.
class PlainDecode {
 public:
  void run(const std::string& bytes) {
    jpeg_decompress_struct decoder{};
    jpeg_error_mgr errors{};
    decoder.err = jpeg_std_error(&errors);  // ends the program on damage: the file was read before
    jpeg_create_decompress(&decoder);
    jpeg_mem_src(&decoder, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    jpeg_read_header(&decoder, TRUE);
    decoder.out_color_space = JCS_RGB;
    jpeg_start_decompress(&decoder);
    const std::size_t stride = static_cast<std::size_t>(decoder.output_width) * 3;
    pixels_.resize(stride * decoder.output_height);
    while (decoder.output_scanline < decoder.output_height) {
      JSAMPROW row = pixels_.data() + stride * decoder.output_scanline;
      jpeg_read_scanlines(&decoder, &row, 1);
    }
    width_ = static_cast<int>(decoder.output_width);
    height_ = static_cast<int>(decoder.output_height);
    jpeg_finish_decompress(&decoder);
    jpeg_destroy_decompress(&decoder);
  }
  int width() const { return width_; }
  int height() const { return height_; }

 private:
  std::vector<unsigned char> pixels_;
  int width_ = 0, height_ = 0;
};

/// 4000 x 3000, the sheet filling four fifths of it, daylight, opaque deposits. Sensor noise and quality are
/// those of an ordinary phone photo of this size, some 4 MB: a cleaner picture would decode faster and
/// flatter nobody but the floor.
std::string simulated_photo(const ChartDefinition& chart) {
  auto settings = scenes::random_scene(scenes::Condition::daylight_phone, 1);
  settings.view.width_px = 4000;
  settings.view.height_px = 3000;
  settings.sensor.full_well = 3500;
  settings.development.jpeg_quality = 95;
  settings.specimens.resize(1);
  return scenes::render(settings, chart).jpeg_bytes;
}

struct Stage {
  std::string name;
  std::function<void()> work;
  std::vector<double> seconds;
};

void print_table(const std::vector<Stage>& stages) {
  const auto& plain = stages.front().seconds;
  fmt::print("{:<34} {:>9} {:>9} {:>15}\n", "stage", "median ms", "ratio", "middle half");
  for (const auto& stage : stages) {
    std::vector<double> ratios;
    for (std::size_t i = 0; i < plain.size(); ++i) ratios.push_back(stage.seconds[i] / plain[i]);
    fmt::print("{:<34} {:>9.1f} {:>9.2f} {:>7.2f} - {:.2f}\n", stage.name, 1e3 * median(stage.seconds),
               median(ratios), quantile(ratios, 0.25), quantile(ratios, 0.75));
  }
}

}  // namespace

int main(int argc, char** argv) {
  const int rounds = argc > 1 ? std::max(1, std::atoi(argv[1])) : 21;
  const auto charts = value_or_exit(shipped_charts(), "Charts");
  const auto namer = value_or_exit(Namer::load(data_folder()), "Names");
  const auto bytes =
      argc > 2
          ? value_or_exit(read_file(argv[2], "the photo", ErrorCode::unreadable_photo, 600u << 20), "Photo")
          : simulated_photo(value_or_exit(find_chart("frame-a5"), "Chart"));
  Progress progress;

  // What each stage hands to the next, so that a stage can be timed alone.
  ReadRequest request;
  request.candidates = charts;
  auto photo = value_or_exit(decode_photo(bytes, "photo.jpg"), "Decoding");
  const auto sheet = value_or_exit(locate_sheet(photo, charts, {}, progress), "Locating");
  const auto& chart = charts[sheet.chart];
  const auto samples = sample_sheet(photo, chart, sheet.placement, {});
  const auto reference = nominal_reference(chart);
  CalibrationOptions options;
  options.encoding = photo.encoding().kind;

  PlainDecode plain;
  std::vector<Stage> stages{
      {"plain decode (libjpeg-turbo)", [&] { plain.run(bytes); }, {}},
      {"  the same into fresh memory", [&] { PlainDecode().run(bytes); }, {}},
      {"decode_photo", [&] { photo = value_or_exit(decode_photo(bytes, "photo.jpg"), "Decoding"); }, {}},
      {"locate_sheet", [&] { value_or_exit(locate_sheet(photo, charts, {}, progress), "Locating"); }, {}},
      {"sample_sheet", [&] { sample_sheet(photo, chart, sheet.placement, {}); }, {}},
      {"calibrate", [&] { value_or_exit(calibrate(chart, reference, samples, options), "Calibrating"); }, {}},
      {"read_photo (these three, regions)",
       [&] { value_or_exit(read_photo(photo, request, namer, progress), "Reading"); },
       {}},
      {"whole reading: file to record",
       [&] {
         const auto fresh = value_or_exit(decode_photo(bytes, "photo.jpg"), "Decoding");
         const auto reading = value_or_exit(read_photo(fresh, request, namer, progress), "Reading");
         record_json(record_from(fresh, reading, {}));
       },
       {}},
  };
  for (int round = -1; round < rounds; ++round)  // the first warms caches and is not counted
    for (auto& stage : stages) {
      const auto begin = std::chrono::steady_clock::now();
      stage.work();
      const std::chrono::duration<double> elapsed = std::chrono::steady_clock::now() - begin;
      if (round >= 0) stage.seconds.push_back(elapsed.count());
    }
  fmt::print("{} x {} px, {:.1f} MB, {} rounds, sheet {}\n", plain.width(), plain.height(),
             static_cast<double>(bytes.size()) / 1e6, rounds, chart.name);
  print_table(stages);
  return 0;
}
