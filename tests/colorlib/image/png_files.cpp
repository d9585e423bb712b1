#include <png.h>
#include <zlib.h>

#include <algorithm>
#include <bit>

#include "photo_files.hpp"

namespace colorlib::photo_files {
namespace {

std::string big_endian(std::uint32_t value) {
  std::string text;
  for (int i = 3; i >= 0; --i) text += static_cast<char>(value >> (8 * i));
  return text;
}

template <class T>
std::string written(const Image<T>& rgb, const PngOptions& options) {
  using Kind = PngOptions::Kind;
  std::string file;
  png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(png);
  png_set_write_fn(
      png, &file,
      [](png_structp p, png_bytep bytes, std::size_t count) {
        static_cast<std::string*>(png_get_io_ptr(p))->append(reinterpret_cast<const char*>(bytes), count);
      },
      [](png_structp) {});
  const bool palette = options.kind == Kind::palette || options.kind == Kind::palette_transparent;
  const int kind = palette                            ? PNG_COLOR_TYPE_PALETTE
                   : options.kind == Kind::rgba       ? PNG_COLOR_TYPE_RGB_ALPHA
                   : options.kind == Kind::grey       ? PNG_COLOR_TYPE_GRAY
                   : options.kind == Kind::grey_alpha ? PNG_COLOR_TYPE_GRAY_ALPHA
                                                      : PNG_COLOR_TYPE_RGB;
  png_set_IHDR(png, info, static_cast<png_uint_32>(rgb.columns), static_cast<png_uint_32>(rgb.rows),
               8 * sizeof(T), kind, options.interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE,
               PNG_COMPRESSION_TYPE_DEFAULT, PNG_FILTER_TYPE_DEFAULT);
  if (!options.icc.empty())
    png_set_iCCP(png, info, "profile", 0, reinterpret_cast<png_const_bytep>(options.icc.data()),
                 static_cast<png_uint_32>(options.icc.size()));
  if (options.srgb_chunk) png_set_sRGB(png, info, PNG_sRGB_INTENT_PERCEPTUAL);
  if (options.gamma > 0) png_set_gAMA(png, info, options.gamma);
  if (options.chromaticities.size() == 8) {
    const auto& c = options.chromaticities;
    png_set_cHRM(png, info, c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7]);
  }
  if (palette) {  // entry i: (i, 255 - i, i / 2); pixels take their red
    std::vector<png_color> entries(256);
    for (int i = 0; i < 256; ++i)
      entries[static_cast<std::size_t>(i)] = {static_cast<png_byte>(i), static_cast<png_byte>(255 - i),
                                              static_cast<png_byte>(i / 2)};
    png_set_PLTE(png, info, entries.data(), 256);
    png_byte opacity[] = {0, 128};
    if (options.kind == Kind::palette_transparent) png_set_tRNS(png, info, opacity, 2, nullptr);
  }
  png_write_info(png, info);
  if (sizeof(T) == 2 && std::endian::native == std::endian::little) png_set_swap(png);
  const int channels = palette || options.kind == Kind::grey ? 1
                       : options.kind == Kind::grey_alpha    ? 2
                       : options.kind == Kind::rgba          ? 4
                                                             : 3;
  Image<T> out(rgb.rows, rgb.columns, channels);
  for (int y = 0; y < rgb.rows; ++y)
    for (int x = 0; x < rgb.columns; ++x) {
      const T* from = rgb.at(y, x);
      T* to = out.at(y, x);
      if (palette)
        to[0] = from[0];
      else if (channels < 3)
        to[0] = from[1];
      else
        std::copy_n(from, 3, to);
      if (channels == 2 || channels == 4) to[channels - 1] = static_cast<T>(x);
    }
  std::vector<png_bytep> rows;
  for (int y = 0; y < rgb.rows; ++y) rows.push_back(reinterpret_cast<png_bytep>(out.at(y, 0)));
  png_write_image(png, rows.data());
  png_write_end(png, nullptr);
  png_destroy_write_struct(&png, &info);
  if (!options.exif.empty())
    file = with_png_chunk(file, "eXIf", options.exif, options.exif_behind_pixels ? "IEND" : "IDAT");
  if (options.code_points) {
    const std::string content = {static_cast<char>(options.code_points->first),
                                 static_cast<char>(options.code_points->second), 0, 1};
    file = with_png_chunk(file, "cICP", content, "IDAT");
  }
  return file;
}

}  // namespace

std::string with_png_chunk(const std::string& file, const std::string& type, const std::string& content,
                           const std::string& before) {
  const std::string covered = type + content;
  const auto checksum = crc32_z(0, reinterpret_cast<const Bytef*>(covered.data()), covered.size());
  const std::string chunk = big_endian(static_cast<std::uint32_t>(content.size())) + covered +
                            big_endian(static_cast<std::uint32_t>(checksum));
  std::string longer = file;
  longer.insert(longer.find(before) - 4, chunk);
  return longer;
}

std::string png(const Image8& rgb, const PngOptions& options) { return written(rgb, options); }
std::string png(const Image16& rgb, const PngOptions& options) { return written(rgb, options); }

}  // namespace colorlib::photo_files
