#include "photo_checks.hpp"
#include "photo_files.hpp"

namespace colorlib {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using namespace photo_files;

TEST(DecodePng, EightAndSixteenBitsComeBackExactly) {
  for (const bool interlaced : {false, true}) {
    PngOptions options;
    options.interlaced = interlaced;
    const Image8 bytes = pattern_8(53, 41);
    EXPECT_EQ(largest_difference(decoded(png(bytes, options)), bytes), 0);
    const Image16 words = pattern_16(53, 41);
    const Photo photo = decoded(png(words, options));
    EXPECT_EQ(largest_difference(photo, words), 0);
    EXPECT_EQ(photo.encoding().bits_per_channel, 16);
    EXPECT_THAT(photo.remarks, IsEmpty());
    EXPECT_TRUE(photo.encoding().profile_assumed);
  }
}

TEST(DecodePng, TransparencyIsIgnoredWithARemark) {
  PngOptions options;
  options.kind = PngOptions::Kind::rgba;
  const Image8 bytes = pattern_8(53, 41);
  const Photo photo = decoded(png(bytes, options));
  EXPECT_EQ(largest_difference(photo, bytes), 0);
  EXPECT_THAT(photo.remarks, ElementsAre(HasSubstr("transparency")));
  const Image16 words = pattern_16(53, 41);
  EXPECT_EQ(largest_difference(decoded(png(words, options)), words), 0);
}

TEST(DecodePng, GreyIsRepeatedWithARemark) {
  for (const auto kind : {PngOptions::Kind::grey, PngOptions::Kind::grey_alpha}) {
    PngOptions options;
    options.kind = kind;
    const Image16 words = pattern_16(20, 10);
    Image16 expected = words;
    for (std::size_t i = 0; i < words.data.size(); ++i) expected.data[i] = words.data[i - i % 3 + 1];
    const Photo photo = decoded(png(words, options));
    EXPECT_EQ(largest_difference(photo, expected), 0);
    EXPECT_THAT(photo.remarks, testing::Contains(HasSubstr("grey")));
  }
}

TEST(DecodePng, PalettesAreLookedUp) {
  for (const auto kind : {PngOptions::Kind::palette, PngOptions::Kind::palette_transparent}) {
    PngOptions options;
    options.kind = kind;
    const Image8 bytes = pattern_8(53, 41);
    Image8 expected = bytes;
    for (std::size_t i = 0; i < bytes.data.size(); i += 3) {
      expected.data[i + 1] = static_cast<std::uint8_t>(255 - bytes.data[i]);
      expected.data[i + 2] = static_cast<std::uint8_t>(bytes.data[i] / 2);
    }
    const Photo photo = decoded(png(bytes, options));
    EXPECT_EQ(largest_difference(photo, expected), 0);
    EXPECT_EQ(photo.remarks.size(), kind == PngOptions::Kind::palette ? 0u : 1u);
  }
}

TEST(DecodePng, OrientationIsTakenFromExifBeforeOrBehindThePixels) {
  const Image8 upright = pattern_8(53, 41);
  for (int orientation = 1; orientation <= 8; ++orientation)
    for (const bool behind : {false, true})
      for (const bool interlaced : {false, true}) {
        PngOptions options;
        Exif exif;
        exif.orientation = orientation;
        exif.time_original = "2031:04:09 10:12:03";
        options.exif = exif_block(exif);
        options.exif_behind_pixels = behind;
        options.interlaced = interlaced;
        const Photo photo = decoded(png(as_in_file(upright, orientation), options));
        EXPECT_EQ(largest_difference(photo, upright), 0) << orientation;
        EXPECT_TRUE(photo.capture().captured);
      }
}

TEST(DecodePng, AnExifChunkWithAWrongChecksumIsLeftOut) {
  PngOptions options;
  Exif exif;
  exif.orientation = 6;
  options.exif = exif_block(exif);
  std::string file = png(pattern_8(20, 10), options);
  file[file.find("eXIf") + 4 + 18] = 3;
  EXPECT_EQ(decoded(file).capture().orientation, 1);
}

TEST(DecodePng, ColourStatements) {
  const Image8 mid = plain_8(8, 8, {128, 128, 128});
  PngOptions options;
  options.srgb_chunk = true;
  EXPECT_FALSE(decoded(png(mid, options)).encoding().profile_assumed);
  EXPECT_EQ(decoded(png(mid, options)).encoding().profile, "sRGB");
  options = {};
  options.gamma = 1 / 2.2;
  EXPECT_FALSE(decoded(png(mid, options)).encoding().profile_assumed);
  EXPECT_THAT(decoded(png(mid, options)).encoding().to_srgb_curve[0], IsEmpty()) << "writers mean sRGB by it";
  options.gamma = 1 / 1.8;
  EXPECT_NEAR(decoded(png(mid, options)).linear({0, 0, 1, 1}).data[0], std::pow(128 / 255.0, 1.8), 1e-4);
  options.gamma = 1;
  EXPECT_NEAR(decoded(png(mid, options)).linear({0, 0, 1, 1}).data[0], 128 / 255.0, 1e-4) << "linear light";
  options.gamma = 1 / 2.2;
  options.chromaticities = {0.3127, 0.3290, 0.64, 0.33, 0.21, 0.71, 0.15, 0.06};
  const Photo wide = decoded(png(mid, options));
  EXPECT_GT(wide.encoding().native_to_srgb(0, 0), 1.3);
  EXPECT_NEAR(wide.linear({0, 0, 1, 1}).data[0], std::pow(128 / 255.0, 2.2), 1e-4);
  options = {};
  options.icc = matrix_profile(2.2, adobe_primaries, "wide 2.2");
  options.gamma = 1;  // the profile is the stronger statement
  const Photo profiled = decoded(png(mid, options));
  EXPECT_EQ(profiled.encoding().profile, "wide 2.2");
  EXPECT_NEAR(profiled.linear({0, 0, 1, 1}).data[0], std::pow(128 / 255.0, 2.2), 1e-4);
  for (std::size_t i = 0; i < 9; ++i)
    EXPECT_NEAR(profiled.encoding().native_to_srgb.m[i], wide.encoding().native_to_srgb.m[i], 2e-3)
        << "the same primaries said in two ways";
}

TEST(DecodePng, CodePointsAreHonouredAndHdrIsRefused) {
  const Image8 mid = plain_8(8, 8, {128, 128, 128});
  PngOptions options;
  options.code_points = {12, 13};
  const Photo p3 = decoded(png(mid, options));
  EXPECT_EQ(p3.encoding().profile, "Display P3");
  EXPECT_GT(p3.encoding().native_to_srgb(0, 0), 1.2);
  options.code_points = {9, 16};
  EXPECT_THAT(decode_photo(png(mid, options), "a.png"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("HDR picture (PQ")));
  options.code_points = {9, 18};
  EXPECT_THAT(decode_photo(png(mid, options), "a.png"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("HLG")));
  options.code_points = {77, 13};
  EXPECT_THAT(decode_photo(png(mid, options), "a.png"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("primaries 77")));
}

TEST(DecodePng, DamagedProfilesCountAsAbsent) {
  const std::string plain = png(pattern_8(20, 10));
  const Photo photo = decoded(with_png_chunk(plain, "iCCP", std::string("name\0\0rubbish", 13), "IDAT"));
  EXPECT_TRUE(photo.encoding().profile_assumed);
  EXPECT_THAT(photo.remarks, ElementsAre(HasSubstr("profile is damaged")));
}

TEST(DecodePng, TruncatedAnywhereIsRefused) {
  for (const bool interlaced : {false, true}) {
    PngOptions options;
    options.interlaced = interlaced;
    const std::string file = png(pattern_16(120, 90), options);
    for (const double share : {0.01, 0.1, 0.5, 0.9, 0.99})
      EXPECT_THAT(
          decode_photo(file.substr(0, static_cast<std::size_t>(share * static_cast<double>(file.size()))),
                       "cut.png"),
          FailsWith(ErrorCode::unreadable_photo, HasSubstr("cut.png")))
          << share;
  }
}

TEST(DecodePng, DamageInsideIsRefused) {
  std::string file = png(pattern_8(120, 90));
  file[file.size() / 2] = static_cast<char>(file[file.size() / 2] ^ 0x10);
  EXPECT_THAT(decode_photo(file, "bad.png"), FailsWith(ErrorCode::unreadable_photo, HasSubstr("damaged")));
}

TEST(DecodePng, AHugeSizeInTheHeaderIsRefused) {
  const std::string plain = png(pattern_8(20, 10));
  // The same file with another header chunk, checksum included.
  const std::string rest = plain.substr(8 + 25);
  for (const std::uint32_t side : {60000u, 900'000u, 0x7fffffffu}) {
    std::string content;
    for (int twice = 0; twice < 2; ++twice)
      for (int i = 3; i >= 0; --i) content += static_cast<char>(side >> (8 * i));
    content += std::string("\x08\x02\0\0\0", 5);
    const std::string bomb = with_png_chunk(plain.substr(0, 8) + rest, "IHDR", content, rest.substr(4, 4));
    EXPECT_THAT(decode_photo(bomb, "bomb.png"), FailsWith(ErrorCode::unreadable_photo, HasSubstr("bomb.png")))
        << side;
  }
}

}  // namespace
}  // namespace colorlib
