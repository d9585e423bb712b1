#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/exports/photo_preview.hpp>

namespace colorlib {
namespace {

/// Where target pixel i of `target` begins in a row of `source` pixels.
int source_start(int i, int source, int target) {
  return static_cast<int>(static_cast<std::int64_t>(i) * source / target);
}

/// Means of the blocks of pixels under each target pixel; rows x columns x 3.
ImageF block_means(const Photo& photo, int columns, int rows, bool linear) {
  ImageF result(rows, columns, 3);
  const int width = photo.width_px(), height = photo.height_px();
  for (int r = 0; r < rows; ++r) {
    const int top = source_start(r, height, rows),
              bottom = std::max(top + 1, source_start(r + 1, height, rows));
    const PixelRectangle strip{0, top, width, bottom - top};
    const ImageF pixels = linear ? photo.linear(strip) : photo.encoded(strip);
    for (int c = 0; c < columns; ++c) {
      const int left = source_start(c, width, columns),
                right = std::max(left + 1, source_start(c + 1, width, columns));
      std::array<double, 3> sum{};
      for (int y = 0; y < pixels.rows; ++y)
        for (int x = left; x < right; ++x)
          for (int k = 0; k < 3; ++k) sum[static_cast<std::size_t>(k)] += pixels.at(y, x)[k];
      const double count = static_cast<double>(pixels.rows) * (right - left);
      for (int k = 0; k < 3; ++k)
        result.at(r, c)[k] = static_cast<float>(sum[static_cast<std::size_t>(k)] / count);
    }
  }
  return result;
}

/// Linear camera values -> sRGB-encoded values, in place.
void develop(ImageF& picture, const Matrix3& native_to_srgb) {
  std::vector<float> brightness;
  const std::size_t pixels = picture.data.size() / 3;
  for (std::size_t i = 0; i < pixels; ++i) {
    const float* native = picture.data.data() + 3 * i;
    const Vector3 rgb = native_to_srgb * Vector3{native[0], native[1], native[2]};
    for (std::size_t k = 0; k < 3; ++k) picture.data[3 * i + k] = static_cast<float>(rgb[k]);
    brightness.push_back(static_cast<float>((rgb[0] + rgb[1] + rgb[2]) / 3));
  }
  const auto bright_end =
      brightness.begin() + static_cast<std::ptrdiff_t>(0.99 * static_cast<double>(pixels - 1));
  std::nth_element(brightness.begin(), bright_end, brightness.end());
  const double gain = 1.0 / std::max(1e-6, static_cast<double>(*bright_end));
  for (float& value : picture.data)
    value = static_cast<float>(srgb_from_linear(std::clamp(gain * value, 0.0, 1.0)));
}

}  // namespace

Image8 photo_preview(const Photo& photo, int longest_px) {
  const int width = photo.width_px(), height = photo.height_px(), longest = std::max(width, height);
  if (longest <= 0) return {};
  const double scale = std::min(1.0, static_cast<double>(longest_px) / longest);
  const int columns = std::clamp(static_cast<int>(std::lround(scale * width)), 1, width);
  const int rows = std::clamp(static_cast<int>(std::lround(scale * height)), 1, height);
  const bool linear = photo.encoding().kind == EncodingKind::linear_sensor;
  ImageF means = block_means(photo, columns, rows, linear);
  if (linear) develop(means, photo.encoding().native_to_srgb);
  Image8 picture(rows, columns, 3);
  std::transform(means.data.begin(), means.data.end(), picture.data.begin(), [](float value) {
    return static_cast<std::uint8_t>(std::lround(255.0 * std::clamp(static_cast<double>(value), 0.0, 1.0)));
  });
  return picture;
}

}  // namespace colorlib
