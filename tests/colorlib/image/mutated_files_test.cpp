#include <random>

#include "photo_checks.hpp"
#include "photo_files.hpp"

namespace colorlib {
namespace {

using namespace photo_files;

constexpr unsigned seed = 20310409;
constexpr int trials = 300;  // a format

/// Flips bits, overwrites bytes with telling values, cuts, repeats: the damage that files meet, and more.
std::string mutated(std::string file, std::mt19937& random) {
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random()) % n; };
  for (std::size_t changes = 1 + below(6); changes > 0 && !file.empty(); --changes) {
    const std::size_t at =
        below(below(2) == 0 ? file.size() : std::min<std::size_t>(file.size(), 300));  // headers more often
    switch (below(5)) {
      case 0:
        file[at] = static_cast<char>(file[at] ^ (1 << below(8)));
        break;
      case 1:
        file[at] = std::array{'\0', '\x7f', '\xff', '\x80', '\1'}[below(5)];
        break;
      case 2:
        file.resize(std::max<std::size_t>(at, 1));
        break;
      case 3:
        file.insert(at, file.substr(at, below(40)));
        break;
      case 4:
        file.erase(at, below(20));
        break;
    }
  }
  return file;
}

/// Every mutated file is decoded or refused in words; it must never crash, and never say nothing.
void replay(const char* format, const std::vector<std::string>& files) {
  DecodeLimits limits;
  limits.pixels = 400'000;
  limits.memory_bytes = 32u << 20;
  std::mt19937 random(seed);
  int refused = 0;
  for (int i = 0; i < trials; ++i) {
    const auto photo =
        decode_photo(mutated(files[static_cast<std::size_t>(i) % files.size()], random), "mutated", limits);
    if (photo) {
      ASSERT_GT(photo->width_px(), 0);
      ASSERT_FALSE(photo->linear({0, 0, 8, 8}).empty());
      (void)photo->linear_grey(all_of(*photo), 4);
    } else {
      ++refused;
      ASSERT_FALSE(photo.error().message.empty());
      ASSERT_FALSE(photo.error().advice.empty());
    }
  }
  std::cout << fmt::format("{}: {} mutated files (seed {}), {} refused, {} decoded\n", format, trials, seed,
                           refused, trials - refused);
  EXPECT_GT(refused, trials / 10) << "the damage is too mild to test anything";
}

TEST(MutatedFiles, Jpeg) {
  JpegOptions progressive;
  progressive.progressive = true;
  progressive.icc = matrix_profile(2.2, adobe_primaries, "wide");
  Exif exif;
  exif.orientation = 6;
  exif.time_original = "2031:04:09 10:12:03";
  exif.subseconds_original = "25";
  progressive.exif = exif_block(exif);
  JpegOptions restarts;
  restarts.restart_rows = 1;
  restarts.icc = table_profile();
  replay("JPEG",
         {jpeg(pattern_8(64, 48)), jpeg(pattern_8(64, 48), progressive), jpeg(pattern_8(64, 48), restarts)});
}

TEST(MutatedFiles, Png) {
  PngOptions interlaced, palette;
  interlaced.interlaced = true;
  interlaced.icc = matrix_profile(2.2, adobe_primaries, "wide");
  palette.kind = PngOptions::Kind::palette_transparent;
  palette.gamma = 0.5;
  palette.chromaticities = {0.3127, 0.3290, 0.64, 0.33, 0.21, 0.71, 0.15, 0.06};
  replay("PNG",
         {png(pattern_16(64, 48)), png(pattern_8(64, 48), interlaced), png(pattern_8(64, 48), palette)});
}

TEST(MutatedFiles, Tiff) {
  TiffOptions lzw, tiles, planes, inside;
  lzw.compression = 5;
  lzw.exif = Exif{};
  lzw.exif->time_original = "2031:04:09 10:12:03";
  tiles.compression = 8;
  tiles.tile = 16;
  planes.separate = true;
  planes.icc = matrix_profile(2.2, adobe_primaries, "wide");
  inside.compression = 7;
  replay("TIFF", {tiff(pattern_8(64, 48), lzw), tiff(pattern_float(64, 48), tiles),
                  tiff(pattern_16(64, 48), planes), tiff(pattern_8(64, 48), inside)});
}

TEST(MutatedFiles, Raw) {
  DngOptions mosaic, linear;
  mosaic.time_original = "2031:04:09 10:12:03";
  linear.mosaic = false;
  replay("camera raw", {dng(pattern_16(64, 48), mosaic), dng(pattern_16(64, 48), linear)});
}

#ifdef TINTFALL_HEIF
TEST(MutatedFiles, Heif) {
  HeifOptions options;
  options.icc = matrix_profile(2.2, adobe_primaries, "wide");
  Exif exif;
  exif.time_original = "2031:04:09 10:12:03";
  options.exif = exif_block(exif);
  options.turned = 6;
  replay("HEIF", {heif(pattern_8(64, 48)), heif(pattern_8(64, 48), options)});
}
#endif

}  // namespace
}  // namespace colorlib
