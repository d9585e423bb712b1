#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/exports/photo_tiles.hpp>
#include <vector>

namespace colorlib {
namespace {

/// Encoded native values to sRGB-encoded values, in place.
void develop(ImageF& pixels, const PhotoEncoding& encoding, double bright_end) {
  const bool linear = encoding.kind == EncodingKind::linear_sensor;
  if (!linear && encoding.native_to_srgb == Matrix3::identity()) return;
  for (std::size_t i = 0; i + 2 < pixels.data.size(); i += 3) {
    Vector3 native{};
    for (std::size_t k = 0; k < 3; ++k)
      native[k] = linear ? pixels.data[i + k] / bright_end : linear_from_srgb(pixels.data[i + k]);
    const Vector3 rgb = encoding.native_to_srgb * native;
    for (std::size_t k = 0; k < 3; ++k)
      pixels.data[i + k] = static_cast<float>(srgb_from_linear(std::clamp(rgb[k], 0.0, 1.0)));
  }
}

std::vector<Lab> calibrated(const ImageF& encoded, int left, int top, int level, const Placement& placement,
                            const Calibration& calibration) {
  std::vector<Lab> colors;
  colors.reserve(encoded.data.size() / 3);
  for (int r = 0; r < encoded.rows; ++r)
    for (int c = 0; c < encoded.columns; ++c) {
      const PointPx px{PhotoPyramid::photo_px_from(level, left + c),
                       PhotoPyramid::photo_px_from(level, top + r)};
      const float* value = encoded.at(r, c);
      const Xyz xyz = calibration.xyz_from_pixel({placement.mm_from_px(px), {value[0], value[1], value[2]}});
      colors.push_back(lab_from_xyz(xyz, white_d50));
    }
  return colors;
}

}  // namespace

double bright_end_of(const PhotoPyramid& pyramid) {
  const PhotoEncoding& encoding = pyramid.photo().encoding();
  if (encoding.kind != EncodingKind::linear_sensor) return 1;
  const int level = pyramid.levels() - 1;
  const ImageF pixels = pyramid.encoded(level, {0, 0, pyramid.width_px(level), pyramid.height_px(level)});
  std::vector<double> brightness;
  for (std::size_t i = 0; i + 2 < pixels.data.size(); i += 3) {
    const Vector3 rgb =
        encoding.native_to_srgb * Vector3{pixels.data[i], pixels.data[i + 1], pixels.data[i + 2]};
    brightness.push_back((rgb[0] + rgb[1] + rgb[2]) / 3);
  }
  if (brightness.empty()) return 1;
  const auto end =
      brightness.begin() + static_cast<std::ptrdiff_t>(0.99 * static_cast<double>(brightness.size() - 1));
  std::nth_element(brightness.begin(), end, brightness.end());
  return std::max(1e-6, *end);
}

PhotoTile photo_tile(const PhotoPyramid& pyramid, const Placement* placement, const Calibration* calibration,
                     const TileRequest& request, const DisplayTransform& display) {
  ImageF encoded = pyramid.encoded(request.level, request.rectangle);
  PhotoTile tile;
  tile.pixels = Image8(encoded.rows, encoded.columns, 3);
  const std::size_t count = encoded.data.size() / 3;
  const bool plain =
      request.rendering == PhotoRendering::as_taken || placement == nullptr || calibration == nullptr;
  if (plain) {
    develop(encoded, pyramid.photo().encoding(), request.bright_end);
    display.from_srgb(encoded.data.data(), tile.pixels.data.data(), count);
    return tile;
  }
  const int left = std::max(0, request.rectangle.left), top = std::max(0, request.rectangle.top);
  const auto colors = calibrated(encoded, left, top, request.level, *placement, *calibration);
  if (request.rendering == PhotoRendering::difference) {
    for (std::size_t i = 0; i < count; ++i)
      difference_scale_color(
          difference_ciede2000(colors[i], request.difference_from) / request.difference_full,
          encoded.data.data() + 3 * i);
    display.from_srgb(encoded.data.data(), tile.pixels.data.data(), count);
    return tile;
  }
  tile.clipped = Image8(encoded.rows, encoded.columns, 1);
  display.from_lab(colors.data(), tile.pixels.data.data(), tile.clipped.data.data(), count);
  if (std::none_of(tile.clipped.data.begin(), tile.clipped.data.end(), [](std::uint8_t c) { return c != 0; }))
    tile.clipped = {};
  return tile;
}

void difference_scale_color(double share, float* srgb) {
  // 64 steps, computed once: chroma is largest in the middle, where sRGB has room for it.
  static const auto table = [] {
    std::vector<std::array<float, 3>> steps;
    constexpr int last = 63;
    for (int i = 0; i <= last; ++i) {
      const double t = static_cast<double>(i) / last, hue = (285 - 195 * t) * 3.14159265358979 / 180;
      const double chroma = 10 + 26 * std::sin(3.14159265358979 * t);
      const Lab lab{12 + 84 * t, chroma * std::cos(hue), chroma * std::sin(hue)};
      const LinearRgb rgb = linear_srgb_from_xyz(
          adapted(xyz_from_lab(lab, white_d50), white_d50, white_d65, AdaptationMethod::bradford));
      const auto encoded = [](double v) {
        return static_cast<float>(srgb_from_linear(std::clamp(v, 0.0, 1.0)));
      };
      steps.push_back({encoded(rgb.r), encoded(rgb.g), encoded(rgb.b)});
    }
    return steps;
  }();
  const double held = std::clamp(std::isfinite(share) ? share : 1.0, 0.0, 1.0);
  const auto& color =
      table[static_cast<std::size_t>(std::lround(held * static_cast<double>(table.size() - 1)))];
  std::copy(color.begin(), color.end(), srgb);
}

}  // namespace colorlib
