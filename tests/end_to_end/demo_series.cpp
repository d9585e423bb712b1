#include <fstream>
#include <stdexcept>
#include <tests/end_to_end/demo_series.hpp>

namespace tintfall {

using namespace colorlib;

const DemoSeries& demo_series() {
  static const DemoSeries demo = [] {
    const auto chart = find_chart("frame-a5");
    if (!chart) throw std::runtime_error(chart.error().message);
    DemoSeries made;
    auto& s = made.settings;
    s.course = {{70, 7, 24}, {32, 12, 11}, {}, 2, 8, 0};
    s.tissue = {70, 7, 24};
    s.wet_tissue = {66.5, 7.2, 25};
    s.seconds = {-6, -2.5, 3.1, 5.2, 8.4, 12.3, 17.7, 25.1, 40.2, 60.3, 120.2, 240.4};
    s.seed = 5;
    s.width_px = 1000;
    const scenes::SeriesScene series(s, *chart);
    for (std::size_t i = 0; i < series.frames(); ++i) {
      const scenes::Scene scene = series.frame(i);
      made.names.push_back(series.file_name(i));
      made.jpegs.push_back(scene.jpeg_bytes);
      if (i == 0) made.reference_text = scenes::reference_text(scene, *chart);
    }
    made.regions_text = regions_json(series.regions());
    return made;
  }();
  return demo;
}

std::string without_exif(const std::string& jpeg) {
  // Start of image, then segments of marker and length; APP1 is EXIF's.
  std::string without = jpeg.substr(0, 2);
  std::size_t at = 2;
  while (at + 4 <= jpeg.size() && jpeg[at + 1] != '\xda') {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(jpeg[i]); };
    const std::size_t length = 2 + (byte(at + 2) << 8 | byte(at + 3));
    if (jpeg[at + 1] != '\xe1') without += jpeg.substr(at, length);
    at += length;
  }
  return without + jpeg.substr(at);
}

std::string stray_photo() {
  const auto chart = find_chart("frame-a5");
  if (!chart) throw std::runtime_error(chart.error().message);
  auto settings = demo_series().settings;
  settings.course = {{40, -15, 10}, {30, -10, 5}, {}, 2, 8, 0};
  settings.tissue = {55, 20, 30};
  settings.wet_tissue = {52, 20, 31};
  settings.seconds = {-6, -4};
  settings.seed = 6;
  return scenes::SeriesScene(settings, *chart).frame(1).jpeg_bytes;
}

std::string darker_photo() {
  const auto chart = find_chart("frame-a5");
  if (!chart) throw std::runtime_error(chart.error().message);
  auto settings = demo_series().settings;
  settings.course = {{50, 6, 19}, {22, 9, 8}, {}, 2, 8, 0};
  settings.tissue = {50, 6, 19};
  settings.wet_tissue = {47.5, 6, 20};
  settings.seconds = {-6, 20};
  settings.seed = 7;
  return scenes::SeriesScene(settings, *chart).frame(1).jpeg_bytes;
}

void write_demo_series(const std::filesystem::path& folder) {
  const DemoSeries& demo = demo_series();
  std::filesystem::create_directories(folder / "series");
  const auto write = [](const std::filesystem::path& path, const std::string& bytes) {
    std::ofstream(path, std::ios::binary) << bytes;
  };
  for (std::size_t i = 0; i < demo.names.size(); ++i) write(folder / "series" / demo.names[i], demo.jpegs[i]);
  write(folder / "ref.txt", demo.reference_text);
  write(folder / "regions.json", demo.regions_text);
}

}  // namespace tintfall
