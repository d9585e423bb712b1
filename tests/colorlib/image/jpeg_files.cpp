#include <cstddef>
#include <cstdio>
#include <cstdlib>

#include <jpeglib.h>

#include "photo_files.hpp"

namespace colorlib::photo_files {

Image8 pattern_8(int width, int height) {
  Image8 image(height, width, 3);
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      auto* p = image.at(y, x);
      p[0] = static_cast<std::uint8_t>(20 + 200 * x / width);
      p[1] = static_cast<std::uint8_t>(30 + 180 * y / height);
      p[2] = static_cast<std::uint8_t>(x < width / 3 && y < height / 4 ? 220 : 60);
    }
  return image;
}

Image16 pattern_16(int width, int height) {
  Image16 image(height, width, 3);
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      auto* p = image.at(y, x);
      p[0] = static_cast<std::uint16_t>(1000 + 60001 * x / width);
      p[1] = static_cast<std::uint16_t>(2000 + 50003 * y / height);
      p[2] = static_cast<std::uint16_t>(x < width / 3 && y < height / 4 ? 61234 : 12345);
    }
  return image;
}

ImageF pattern_float(int width, int height) {
  const Image16 whole = pattern_16(width, height);
  ImageF image(height, width, 3);
  for (std::size_t i = 0; i < image.data.size(); ++i)
    image.data[i] = static_cast<float>(whole.data[i]) / 50000.f;
  return image;
}

Image8 plain_8(int width, int height, std::array<std::uint8_t, 3> value) {
  Image8 image(height, width, 3);
  for (std::size_t i = 0; i < image.data.size(); ++i) image.data[i] = value[i % 3];
  return image;
}

std::string jpeg(const Image8& rgb, const JpegOptions& options) {
  using Kind = JpegOptions::Kind;
  jpeg_compress_struct encoder{};
  jpeg_error_mgr errors{};
  encoder.err = jpeg_std_error(&errors);
  jpeg_create_compress(&encoder);
  unsigned char* out = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&encoder, &out, &size);
  const bool inks = options.kind == Kind::cmyk || options.kind == Kind::ycck;
  const int channels = options.kind == Kind::grey ? 1 : inks ? 4 : 3;
  encoder.image_width = static_cast<JDIMENSION>(rgb.columns);
  encoder.image_height = static_cast<JDIMENSION>(rgb.rows);
  encoder.input_components = channels;
  encoder.in_color_space = channels == 1 ? JCS_GRAYSCALE : channels == 4 ? JCS_CMYK : JCS_RGB;
  jpeg_set_defaults(&encoder);
  if (options.kind == Kind::rgb) jpeg_set_colorspace(&encoder, JCS_RGB);
  if (options.kind == Kind::ycck) jpeg_set_colorspace(&encoder, JCS_YCCK);
  jpeg_set_quality(&encoder, options.quality, TRUE);
  if (options.kind == Kind::ycc) {
    const auto [across, down] = options.full_chroma ? std::array{1, 1} : options.luma_for_chroma;
    encoder.comp_info[0].h_samp_factor = across;
    encoder.comp_info[0].v_samp_factor = down;
  }
  if (options.progressive) jpeg_simple_progression(&encoder);
  encoder.arith_code = options.arithmetic ? TRUE : FALSE;
  encoder.restart_in_rows = options.restart_rows;
  jpeg_start_compress(&encoder, TRUE);
  if (!options.exif.empty()) {
    const std::string block = std::string("Exif\0\0", 6) + options.exif;
    jpeg_write_marker(&encoder, JPEG_APP0 + 1, reinterpret_cast<const JOCTET*>(block.data()),
                      static_cast<unsigned>(block.size()));
  }
  if (!options.icc.empty())
    jpeg_write_icc_profile(&encoder, reinterpret_cast<const JOCTET*>(options.icc.data()),
                           static_cast<unsigned>(options.icc.size()));
  std::vector<JSAMPLE> row(static_cast<std::size_t>(rgb.columns) * static_cast<std::size_t>(channels));
  for (int y = 0; y < rgb.rows; ++y) {
    for (int x = 0; x < rgb.columns; ++x)
      for (int k = 0; k < channels; ++k)
        row[static_cast<std::size_t>(x * channels + k)] = channels == 1 ? rgb.at(y, x)[1]
                                                          : k == 3      ? 200
                                                                        : rgb.at(y, x)[k];
    JSAMPROW line = row.data();
    jpeg_write_scanlines(&encoder, &line, 1);
  }
  jpeg_finish_compress(&encoder);
  jpeg_destroy_compress(&encoder);
  std::string file(reinterpret_cast<const char*>(out), size);
  std::free(out);
  return file;
}

}  // namespace colorlib::photo_files
