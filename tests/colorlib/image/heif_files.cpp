#ifdef TINTFALL_HEIF
#include <libheif/heif.h>

#include <stdexcept>

#include "photo_files.hpp"

// x265, the encoder behind libheif, leaves 2 KB behind at the end of the program; the decoder does not use
// it.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() { return "leak:libx265.so"; }

namespace colorlib::photo_files {
namespace {

void must(const heif_error& error) {
  if (error.code != heif_error_Ok) throw std::runtime_error(error.message);
}

template <class T>
std::string written(const Image<T>& rgb, const HeifOptions& options) {
  const bool deep = sizeof(T) == 2;
  heif_image* image = nullptr;
  must(heif_image_create(rgb.columns, rgb.rows, heif_colorspace_RGB,
                         deep            ? heif_chroma_interleaved_RRGGBB_LE
                         : options.alpha ? heif_chroma_interleaved_RGBA
                                         : heif_chroma_interleaved_RGB,
                         &image));
  must(heif_image_add_plane(image, heif_channel_interleaved, rgb.columns, rgb.rows, options.bits));
  int stride = 0;
  std::uint8_t* plane = heif_image_get_plane(image, heif_channel_interleaved, &stride);
  for (int y = 0; y < rgb.rows; ++y)
    for (int i = 0; i < 3 * rgb.columns; ++i) {
      const unsigned value = rgb.at(y, 0)[i];
      const int place = options.alpha ? i / 3 * 4 + i % 3 : i * static_cast<int>(sizeof(T));
      std::uint8_t* to = plane + static_cast<std::ptrdiff_t>(y) * stride + place;
      to[0] = static_cast<std::uint8_t>(value);
      if (options.alpha && i % 3 == 2) to[1] = static_cast<std::uint8_t>(y);
      if (deep) to[1] = static_cast<std::uint8_t>(value >> 8);
    }
  if (!options.icc.empty())
    must(heif_image_set_raw_color_profile(image, "prof", options.icc.data(), options.icc.size()));
  heif_color_profile_nclx* nclx = heif_nclx_color_profile_alloc();
  if (options.code_points) {
    must(heif_nclx_color_profile_set_color_primaries(nclx,
                                                     static_cast<std::uint16_t>(options.code_points->first)));
    must(heif_nclx_color_profile_set_transfer_characteristics(
        nclx, static_cast<std::uint16_t>(options.code_points->second)));
    nclx->full_range_flag = 1;
    must(heif_nclx_color_profile_set_matrix_coefficients(nclx, heif_matrix_coefficients_ITU_R_BT_601_6));
    must(heif_image_set_nclx_color_profile(image, nclx));
  }
  heif_context* context = heif_context_alloc();
  heif_encoder* encoder = nullptr;
  must(heif_context_get_encoder_for_format(context, heif_compression_HEVC, &encoder));
  must(heif_encoder_set_lossy_quality(encoder, options.quality));
  heif_encoder_set_parameter(encoder, "chroma", "444");
  heif_encoding_options* how = heif_encoding_options_alloc();
  how->image_orientation = static_cast<heif_orientation>(options.turned);
  how->macOS_compatibility_workaround_no_nclx_profile = 0;
  if (options.code_points) how->output_nclx_profile = nclx;
  heif_image_handle* handle = nullptr;
  must(heif_context_encode_image(context, image, encoder, how, &handle));
  if (!options.exif.empty()) {
    const std::string block = std::string("Exif\0\0", 6) + options.exif;
    must(heif_context_add_exif_metadata(context, handle, block.data(), static_cast<int>(block.size())));
  }
  std::string file;
  heif_writer writer{};
  writer.writer_api_version = 1;
  writer.write = [](heif_context*, const void* bytes, std::size_t size, void* to) {
    static_cast<std::string*>(to)->assign(static_cast<const char*>(bytes), size);
    return heif_error{heif_error_Ok, heif_suberror_Unspecified, "done"};
  };
  must(heif_context_write(context, &writer, &file));
  heif_image_handle_release(handle);
  heif_encoding_options_free(how);
  heif_nclx_color_profile_free(nclx);
  heif_encoder_release(encoder);
  heif_context_free(context);
  heif_image_release(image);
  return file;
}

}  // namespace

std::string heif(const Image8& rgb, const HeifOptions& options) { return written(rgb, options); }
std::string heif(const Image16& rgb, const HeifOptions& options) { return written(rgb, options); }

}  // namespace colorlib::photo_files
#endif
