#include "tests/scenes/scene_picture.hpp"

#include <png.h>

#include <algorithm>
#include <cstring>
#include <stdexcept>

#include "tests/colorlib/image/photo_files.hpp"
#include "tests/scenes/exposure.hpp"
#include "tests/scenes/published_spectra.hpp"
#include "tests/scenes/tone_curves.hpp"
#include "tests/support/eight_bit.hpp"

namespace colorlib::scenes {

std::string png_of(const Image8& image) {
  png_image header{};
  header.version = PNG_IMAGE_VERSION;
  header.width = static_cast<png_uint_32>(image.columns);
  header.height = static_cast<png_uint_32>(image.rows);
  header.format = image.channels == 1 ? PNG_FORMAT_GRAY : PNG_FORMAT_RGB;
  png_alloc_size_t size = PNG_IMAGE_PNG_SIZE_MAX(header);
  std::string bytes(size, '\0');
  if (!png_image_write_to_memory(&header, bytes.data(), &size, 0, image.data.data(), 0, nullptr))
    throw std::runtime_error(std::string("libpng: ") + header.message);
  bytes.resize(size);
  return bytes;
}

std::string png_of(const Scene& scene) {
  if (scene.photo.encoding().kind == EncodingKind::display_referred) return png_of(eight_bit(scene.photo));
  const auto& sensor = std::get<Image16>(scene.photo.store());
  const Matrix3& m = scene.photo.encoding().native_to_srgb;
  Image8 image(sensor.rows, sensor.columns, 3);
  for (std::size_t i = 0; i < image.data.size(); i += 3) {
    const Vector3 c =
        m * Vector3{sensor.data[i] / 65535.0, sensor.data[i + 1] / 65535.0, sensor.data[i + 2] / 65535.0};
    for (std::size_t k = 0; k < 3; ++k)
      image.data[i + k] = static_cast<std::uint8_t>(255 * srgb_encoded(std::clamp(c[k], 0.0, 1.0)) + 0.5);
  }
  return png_of(image);
}

std::string dng_of(const SceneSettings& settings, const Scene& scene, bool mosaic) {
  const auto* sensor = std::get_if<Image16>(&scene.photo.store());
  if (sensor == nullptr) throw std::runtime_error("only linear scenes can be written as DNG");
  const Vector3 white = inverse(scene.photo.encoding().native_to_srgb) * Vector3{1, 1, 1};  // as shot
  const double brightest = std::max({white[0], white[1], white[2]});
  const Matrix3 srgb_from_xyz =
      inverse(Matrix3{{0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505}});
  const Vector3 daylight = daylight_white_of(settings);
  const Matrix3 native_from_xyz = Matrix3::diagonal(daylight[0], daylight[1], daylight[2]) *
                                  inverse(maker_matrix(settings.camera, illuminant("D65"))) * srgb_from_xyz;
  photo_files::DngOptions options;
  options.mosaic = mosaic;
  for (std::size_t i = 0; i < 9; ++i) options.xyz_to_camera[i] = static_cast<float>(native_from_xyz.m[i]);
  for (std::size_t k = 0; k < 3; ++k) options.as_shot_neutral[k] = static_cast<float>(white[k] / brightest);
  if (settings.exif) {
    options.time_original = settings.exif->date_time;
    options.subseconds_original = settings.exif->subsecond;
    options.zone_original = settings.exif->offset;
  }
  return photo_files::dng(*sensor, options);
}

void set_picture_width(SceneSettings& settings, int width_px) {
  const double ratio = double(width_px) / settings.view.width_px;
  settings.view.width_px = width_px;
  settings.view.height_px = width_px * 3 / 4;
  settings.view.decentring_px *= ratio;
}

}  // namespace colorlib::scenes
