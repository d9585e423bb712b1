#include <limits>

#include "photo_checks.hpp"
#include "photo_files.hpp"

namespace colorlib {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using namespace photo_files;

std::string words_of(const TiffOptions& o) {
  return fmt::format("compression {} predictor {} separate {} tile {} big {} big-endian {}", o.compression,
                     o.predictor, o.separate, o.tile, o.big, o.big_endian);
}

TEST(DecodeTiff, EveryLayoutComesBackExactly) {
  const Image8 bytes = pattern_8(53, 41);
  const Image16 words = pattern_16(53, 41);
  const ImageF floats = pattern_float(53, 41);
  int variants = 0;
  for (const int compression : {1, 5, 8, 32773})
    for (const bool separate : {false, true})
      for (const int tile : {0, 16})
        for (const bool big_endian : {false, true}) {
          TiffOptions options;
          options.compression = compression;
          options.separate = separate;
          options.tile = tile;
          options.big_endian = big_endian;
          options.big = tile == 16 && big_endian;
          EXPECT_EQ(largest_difference(decoded(tiff(bytes, options)), bytes), 0) << words_of(options);
          EXPECT_EQ(largest_difference(decoded(tiff(words, options)), words), 0) << words_of(options);
          EXPECT_EQ(largest_difference(decoded(tiff(floats, options)), floats), 0) << words_of(options);
          ++variants;
        }
  EXPECT_EQ(variants, 32);
}

TEST(DecodeTiff, PredictorsAreUndone) {
  TiffOptions options;
  options.compression = 5;
  options.predictor = 2;
  const Image16 words = pattern_16(53, 41);
  EXPECT_EQ(largest_difference(decoded(tiff(words, options)), words), 0);
  options.compression = 8;
  options.predictor = 3;
  const ImageF floats = pattern_float(53, 41);
  EXPECT_EQ(largest_difference(decoded(tiff(floats, options)), floats), 0);
}

TEST(DecodeTiff, JpegInsideIsDecodedToRgb) {
  TiffOptions options;
  options.compression = 7;
  const Image8 plain = plain_8(64, 48, {180, 120, 60});
  EXPECT_LE(largest_difference(decoded(tiff(plain, options)), plain), 2);
  options.tile = 16;
  EXPECT_LE(largest_difference(decoded(tiff(plain, options)), plain), 2);
}

TEST(DecodeTiff, GreyWhiteIsZeroAlphaAndPalette) {
  const Image8 bytes = pattern_8(53, 41);
  for (const bool tiled : {false, true}) {
    TiffOptions options;
    options.tile = tiled ? 16 : 0;
    options.kind = TiffOptions::Kind::grey;
    Image8 expected = bytes;
    for (std::size_t i = 0; i < bytes.data.size(); ++i) expected.data[i] = bytes.data[i - i % 3 + 1];
    const Photo grey = decoded(tiff(bytes, options));
    EXPECT_EQ(largest_difference(grey, expected), 0);
    EXPECT_THAT(grey.remarks, ElementsAre(HasSubstr("grey")));
    options.kind = TiffOptions::Kind::white_is_zero;
    for (auto& v : expected.data) v = static_cast<std::uint8_t>(255 - v);
    EXPECT_EQ(largest_difference(decoded(tiff(bytes, options)), expected), 0);
    options.kind = TiffOptions::Kind::rgba;
    const Photo alpha = decoded(tiff(bytes, options));
    EXPECT_EQ(largest_difference(alpha, bytes), 0);
    EXPECT_THAT(alpha.remarks, ElementsAre(HasSubstr("transparency")));
    options.kind = TiffOptions::Kind::palette;
    for (std::size_t i = 0; i < bytes.data.size(); i += 3) {
      const int index = bytes.data[i + 1];
      expected.data[i] = static_cast<std::uint8_t>(index);
      expected.data[i + 1] = static_cast<std::uint8_t>(255 - index);
      expected.data[i + 2] = static_cast<std::uint8_t>(index / 2);
    }
    EXPECT_EQ(largest_difference(decoded(tiff(bytes, options)), expected), 0);
  }
}

TEST(DecodeTiff, EveryOrientationIsLaidUpright) {
  const Image16 upright = pattern_16(53, 41);
  for (int orientation = 1; orientation <= 8; ++orientation)
    for (const bool separate : {false, true}) {
      TiffOptions options;
      options.orientation = orientation;
      options.separate = separate;
      const Photo photo = decoded(tiff(as_in_file(upright, orientation), options));
      EXPECT_EQ(largest_difference(photo, upright), 0) << orientation;
      EXPECT_EQ(photo.capture().orientation, orientation);
    }
}

TEST(DecodeTiff, InksAndLabAreRefusedInWords) {
  TiffOptions options;
  options.kind = TiffOptions::Kind::cmyk;
  EXPECT_THAT(decode_photo(tiff(pattern_8(20, 10), options), "a.tif"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("CMYK")));
  options.kind = TiffOptions::Kind::lab;
  EXPECT_THAT(decode_photo(tiff(pattern_8(20, 10), options), "a.tif"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("Lab")));
}

TEST(DecodeTiff, FloatsWithoutProfileAreLinearAndSaySo) {
  const ImageF floats = pattern_float(20, 10);
  const Photo photo = decoded(tiff(floats));
  EXPECT_EQ(photo.encoding().kind, EncodingKind::linear_sensor);
  EXPECT_TRUE(photo.encoding().profile_assumed);
  EXPECT_EQ(photo.encoding().bits_per_channel, 32);
  EXPECT_THAT(photo.remarks, ElementsAre(HasSubstr("linear light")));
  EXPECT_EQ(photo.linear(all_of(photo)).data, floats.data);
  TiffOptions options;
  options.icc = matrix_profile(2.2, srgb_primaries, "2.2");
  const Photo display = decoded(tiff(floats, options));
  EXPECT_EQ(display.encoding().kind, EncodingKind::display_referred);
  EXPECT_NEAR(display.linear({0, 0, 1, 1}).data[0], std::pow(floats.data[0], 2.2), 1e-5);
}

TEST(DecodeTiff, OddFloatsBecomeZeroWithARemark) {
  ImageF floats(2, 2, 3);
  std::fill(floats.data.begin(), floats.data.end(), 0.5f);
  floats.data[1] = std::numeric_limits<float>::quiet_NaN();
  floats.data[4] = std::numeric_limits<float>::infinity();
  floats.data[7] = -0.25f;
  const Photo photo = decoded(tiff(floats));
  const auto& pixels = std::get<ImageF>(photo.store());
  EXPECT_EQ(pixels.data[1], 0);
  EXPECT_EQ(pixels.data[4], 0);
  EXPECT_EQ(pixels.data[7], 0);
  EXPECT_EQ(pixels.data[0], 0.5f);
  EXPECT_THAT(photo.remarks, Contains(HasSubstr("2 values that are no numbers")));
}

TEST(DecodeTiff, ProfilesExifAndPages) {
  TiffOptions options;
  options.icc = matrix_profile(2.2, adobe_primaries, "wide 2.2");
  options.pages = 2;
  const Photo photo = decoded(tiff(plain_8(8, 8, {128, 128, 128}), options));
  EXPECT_EQ(photo.encoding().profile, "wide 2.2");
  EXPECT_THAT(photo.remarks, ElementsAre(HasSubstr("first of several")));
  options.icc = cmyk_profile();
  EXPECT_THAT(decode_photo(tiff(pattern_8(8, 8), options), "a.tif"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("CMYK")));
  options = {};
  options.exif = Exif{};
  options.exif->make = "Example";
  options.exif->time_original = "2031:04:09 10:12:03";
  options.exif->subseconds_original = "25";
  options.exif->zone_original = "+02:00";
  options.exif->exposure_s = {1, 125};
  options.exif->f_number = {28, 10};
  options.exif->focal_length_mm = {50, 1};
  options.exif->iso_speed = 200;
  const Photo dated = decoded(tiff(pattern_8(8, 8), options));
  ASSERT_TRUE(dated.capture().captured);
  EXPECT_EQ(dated.capture().captured->iso8601(), "2031-04-09T10:12:03.25+02:00");
  EXPECT_EQ(dated.capture().camera_make, "Example");
  EXPECT_NEAR(dated.capture().exposure_s.value_or(0), 1.0 / 125, 1e-8);
  EXPECT_NEAR(dated.capture().f_number.value_or(0), 2.8, 1e-6);
  EXPECT_NEAR(dated.capture().focal_length_mm.value_or(0), 50, 1e-6);
  EXPECT_EQ(dated.capture().iso_speed.value_or(0), 200);
  EXPECT_THAT(dated.remarks, IsEmpty());
}

TEST(DecodeTiff, TruncatedAnywhereIsRefused) {
  for (const int compression : {1, 5, 8})
    for (const int tile : {0, 16}) {
      TiffOptions options;
      options.compression = compression;
      options.tile = tile;
      // libtiff writes the directory last; put it first by cutting pixels out of the middle instead of the
      // end as well.
      const std::string file = tiff(pattern_16(120, 90), options);
      for (const double share : {0.01, 0.1, 0.5, 0.9, 0.99})
        EXPECT_THAT(
            decode_photo(file.substr(0, static_cast<std::size_t>(share * static_cast<double>(file.size()))),
                         "cut.tif"),
            FailsWith(ErrorCode::unreadable_photo, HasSubstr("cut.tif")))
            << share;
    }
}

/// One field of the first directory of a little-endian file, overwritten.
void set_tiff_field(std::string& file, int tag, std::uint32_t value) {
  const auto number = [&](std::size_t at, int bytes) {
    std::uint32_t v = 0;
    for (int i = bytes - 1; i >= 0; --i)
      v = (v << 8) | static_cast<unsigned char>(file[at + static_cast<std::size_t>(i)]);
    return v;
  };
  const std::size_t directory = number(4, 4);
  for (std::uint32_t i = 0; i < number(directory, 2); ++i) {
    const std::size_t at = directory + 2 + 12 * i;
    if (static_cast<int>(number(at, 2)) != tag) continue;
    file[at + 2] = 4, file[at + 3] = 0;  // LONG
    for (std::size_t k = 0; k < 4; ++k) file[at + 8 + k] = static_cast<char>(value >> (8 * k));
    return;
  }
  FAIL() << "no such tag";
}

TEST(DecodeTiff, AbsurdHeadersAreRefused) {
  const std::string plain = tiff(pattern_8(20, 10));
  std::string bomb = plain;
  set_tiff_field(bomb, 256, 60000);
  set_tiff_field(bomb, 257, 60000);
  EXPECT_THAT(decode_photo(bomb, "bomb.tif"),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("60000 x 60000")));
  std::string longer = plain;
  set_tiff_field(longer, 257, 5000);
  EXPECT_THAT(decode_photo(longer, "long.tif"),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("long.tif")));
  std::string method = plain;
  set_tiff_field(method, 259, 50001);
  EXPECT_THAT(decode_photo(method, "a.tif"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("compressed by method")));
  TiffOptions options;
  options.tile = 16;
  std::string tiles = tiff(pattern_8(20, 10), options);
  set_tiff_field(tiles, 322, 1u << 30);
  set_tiff_field(tiles, 323, 1u << 30);
  EXPECT_THAT(decode_photo(tiles, "tiles.tif"),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("tiles.tif")));
}

}  // namespace
}  // namespace colorlib
