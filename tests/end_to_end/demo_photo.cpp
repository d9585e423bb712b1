#include <algorithm>
#include <stdexcept>
#include <tests/end_to_end/demo_photo.hpp>
#include <tests/scenes/optics.hpp>
#include <tests/support/eight_bit.hpp>

namespace tintfall {

using namespace colorlib;

const DemoPhoto& demo_photo() {
  static const DemoPhoto demo = [] {
    DemoPhoto made;
    auto chart = find_chart("frame-a5");
    if (!chart) throw std::runtime_error(chart.error().message);
    made.chart = std::move(*chart);
    made.scene = scenes::render(
        scenes::random_scene(scenes::Condition::daylight_phone, 21, scenes::Pool::tuning), made.chart);
    made.reference_text = scenes::reference_text(made.scene, made.chart);
    made.regions_text = regions_json(scenes::true_regions(made.scene));
    return made;
  }();
  return demo;
}

std::string changed_photo(const std::function<Image8(const Image8&)>& change) {
  constexpr int quality = 92;
  return scenes::encode_jpeg(change(eight_bit(demo_photo().scene.photo)), quality, true, std::nullopt);
}

Image8 mirrored(const Image8& picture) {
  Image8 result = picture;
  for (int r = 0; r < picture.rows; ++r)
    for (int c = 0; c < picture.columns; ++c)
      std::copy_n(picture.at(r, picture.columns - 1 - c), 3, result.at(r, c));
  return result;
}

Image8 cropped(const Image8& picture, int left, int top, int width, int height) {
  Image8 result(height, width, 3);
  for (int r = 0; r < height; ++r) std::copy_n(picture.at(top + r, left), 3 * width, result.at(r, 0));
  return result;
}

Image8 blurred(const Image8& picture, double sd_px) {
  ImageF soft(picture.rows, picture.columns, 3);
  std::copy(picture.data.begin(), picture.data.end(), soft.data.begin());
  scenes::blur(soft, sd_px);
  Image8 result(picture.rows, picture.columns, 3);
  std::transform(soft.data.begin(), soft.data.end(), result.data.begin(),
                 [](float v) { return static_cast<std::uint8_t>(std::clamp(v + 0.5f, 0.0f, 255.0f)); });
  return result;
}

Image8 brightened(const Image8& picture, double gain) {
  Image8 result = picture;
  for (auto& value : result.data) value = static_cast<std::uint8_t>(std::min(255.0, gain * value));
  return result;
}

std::string with_profile(const std::string& jpeg, const std::string& profile) {
  // APP2 segment, one chunk of one [ICC.1:2022, B.4]; right after the start marker.
  const std::size_t length = 2 + 14 + profile.size();
  if (length > 65535) throw std::invalid_argument("profile too large for one segment");
  std::string segment{'\xFF', '\xE2', static_cast<char>(length >> 8), static_cast<char>(length & 0xFF)};
  segment.append("ICC_PROFILE", 12).append("\x01\x01").append(profile);
  return jpeg.substr(0, 2) + segment + jpeg.substr(2);
}

}  // namespace tintfall
