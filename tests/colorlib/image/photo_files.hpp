#pragma once
/// Photographs made in memory with the formats' own encoders, so that the tests need no sample files.

#include <array>
#include <colorlib/base/image.hpp>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace colorlib::photo_files {

/// A raster that looks different under every turn and mirror: smooth ramps with a bright corner.
Image8 pattern_8(int width, int height);
Image16 pattern_16(int width, int height);
ImageF pattern_float(int width, int height);
/// The same value everywhere.
Image8 plain_8(int width, int height, std::array<std::uint8_t, 3> value);

/// What an EXIF block shall say. Empty texts are left out.
struct Exif {
  int orientation = 0;  ///< 0 leaves it out
  std::string make, model;
  std::string time_original, subseconds_original, zone_original;
  std::string time_digitized;
  std::optional<std::pair<std::uint32_t, std::uint32_t>> exposure_s, f_number, focal_length_mm;
  int iso_speed = 0;
  bool big_endian = false;
};
/// TIFF bytes, without "Exif\0\0".
std::string exif_block(const Exif& exif);

struct JpegOptions {
  int quality = 95;
  bool progressive = false;
  bool full_chroma = false;                  ///< 4:4:4 instead of 4:2:0
  std::array<int, 2> luma_for_chroma{2, 2};  ///< samples of luma for one of chroma, across and down
  bool arithmetic = false;
  int restart_rows = 0;
  enum class Kind { ycc, rgb, grey, cmyk, ycck } kind = Kind::ycc;
  std::string icc;
  std::string exif;  ///< from exif_block
};
std::string jpeg(const Image8& rgb, const JpegOptions& options = {});

struct PngOptions {
  enum class Kind { rgb, rgba, grey, grey_alpha, palette, palette_transparent } kind = Kind::rgb;
  bool interlaced = false;
  std::string icc;
  bool srgb_chunk = false;
  double gamma = 0;                    ///< 0 leaves gAMA out
  std::vector<double> chromaticities;  ///< white x y, red x y, green x y, blue x y
  std::string exif;
  bool exif_behind_pixels = false;
  std::optional<std::pair<int, int>> code_points;  ///< cICP: primaries, transfer
};
std::string png(const Image8& rgb, const PngOptions& options = {});
std::string png(const Image16& rgb, const PngOptions& options = {});
/// `type` and `content` as a chunk with its checksum, put before the first `before` chunk.
std::string with_png_chunk(const std::string& file, const std::string& type, const std::string& content,
                           const std::string& before);

struct TiffOptions {
  enum class Kind { rgb, rgba, grey, white_is_zero, palette, cmyk, lab } kind = Kind::rgb;
  int compression = 1;  ///< 1 none, 5 LZW, 8 deflate, 7 JPEG, 32773 PackBits
  int predictor = 1;
  bool separate = false;
  int tile = 0;  ///< side of the tiles, 0 for strips
  int rows_per_strip = 3;
  int orientation = 0;
  bool big = false;  ///< BigTIFF
  bool big_endian = false;
  int pages = 1;
  std::string icc;
  std::optional<Exif> exif;
};
std::string tiff(const Image8& rgb, const TiffOptions& options = {});
std::string tiff(const Image16& rgb, const TiffOptions& options = {});
std::string tiff(const ImageF& rgb, const TiffOptions& options = {});

struct DngOptions {
  bool mosaic = true;  ///< RGGB; else three values a pixel
  int black = 0, white = 65535;
  int orientation = 0;
  std::array<float, 3> as_shot_neutral = {0.5f, 1.f, 0.625f};
  int matrix_light = 21;  ///< of `xyz_to_camera`, as EXIF's LightSource: D65
  std::array<float, 9> xyz_to_camera = {0.9f, -0.3f, -0.1f, -0.4f, 1.2f, 0.2f, -0.05f, 0.15f, 0.6f};
  std::string time_original, subseconds_original, zone_original;
};
/// Raw values as given, one plane for mosaics (taken from the channel that the filter passes), three
/// otherwise.
std::string dng(const Image16& raw, const DngOptions& options = {});

#ifdef TINTFALL_HEIF
struct HeifOptions {
  int quality = 90;
  int bits = 8;        ///< 8, 10 or 12
  bool alpha = false;  ///< 8 bit only
  int turned = 1;      ///< EXIF-like turn that the file's own boxes ask for
  std::string icc;
  std::optional<std::pair<int, int>> code_points;  ///< nclx: primaries, transfer
  std::string exif;
};
/// Values of 16-bit rasters are those of `bits` bits.
std::string heif(const Image8& rgb, const HeifOptions& options = {});
std::string heif(const Image16& rgb, const HeifOptions& options = {});
#endif

/// A profile made by LittleCMS: powers or, with exponent 0, sRGB's curve; primaries and white as
/// chromaticities.
std::string matrix_profile(double exponent, std::array<double, 6> primaries, const std::string& name);
inline constexpr std::array<double, 6> srgb_primaries = {0.64, 0.33, 0.30, 0.60, 0.15, 0.06};
inline constexpr std::array<double, 6> adobe_primaries = {0.64, 0.33, 0.21, 0.71, 0.15, 0.06};
inline constexpr std::array<double, 6> p3_primaries = {0.680, 0.320, 0.265, 0.690, 0.150, 0.060};
/// A grey profile with a power curve.
std::string grey_profile(double exponent);
/// A CMYK profile of a trivial ink model.
std::string cmyk_profile();
/// An RGB profile made of lookup tables that says the same as sRGB.
std::string table_profile();

}  // namespace colorlib::photo_files
