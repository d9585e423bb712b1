#include <cstddef>
#include <cstdio>

#include <jpeglib.h>

#include <new>
#include <thread>

#include "photo_checks.hpp"
#include "photo_files.hpp"

namespace colorlib {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using namespace photo_files;

/// Quality 95 without thinned chroma: ramps come back within 3 steps, ringing at the edge of the bright
/// corner (160 steps high) reaches 15. A wrong row, turn or channel differs by 100 and more.
constexpr double jpeg_tolerance = 20;

/// The library's own decoding, to whole levels.
Image8 in_levels(const std::string& file) {
  jpeg_decompress_struct decoder{};
  jpeg_error_mgr errors{};
  decoder.err = jpeg_std_error(&errors);
  jpeg_create_decompress(&decoder);
  jpeg_mem_src(&decoder, reinterpret_cast<const unsigned char*>(file.data()), file.size());
  jpeg_read_header(&decoder, TRUE);
  decoder.out_color_space = JCS_RGB;
  jpeg_start_decompress(&decoder);
  Image8 image(static_cast<int>(decoder.output_height), static_cast<int>(decoder.output_width), 3);
  while (decoder.output_scanline < decoder.output_height) {
    JSAMPROW row = image.at(static_cast<int>(decoder.output_scanline), 0);
    jpeg_read_scanlines(&decoder, &row, 1);
  }
  jpeg_destroy_decompress(&decoder);
  return image;
}

/// Differences of a decoded photo from a raster, in levels of 8 bits; huge when the sizes differ.
struct LevelDifference {
  double largest = 1e9, mean = 1e9;
};
LevelDifference level_difference(const Photo& photo, const Image8& expected) {
  const ImageF got = photo.encoded(all_of(photo));
  if (got.rows != expected.rows || got.columns != expected.columns) return {};
  LevelDifference difference{0, 0};
  for (std::size_t i = 0; i < got.data.size(); ++i) {
    const double away = std::abs(255.0 * static_cast<double>(got.data[i]) - expected.data[i]);
    difference.largest = std::max(difference.largest, away);
    difference.mean += away / static_cast<double>(got.data.size());
  }
  return difference;
}
double largest_difference(const Photo& photo, const Image8& expected) {
  return level_difference(photo, expected).largest;
}

TEST(DecodeJpeg, DiffersFromTheLibrarysOwnByItsRoundingAlone) {
  for (const bool full_chroma : {false, true})
    for (const bool progressive : {false, true})
      for (const auto kind : {JpegOptions::Kind::ycc, JpegOptions::Kind::rgb, JpegOptions::Kind::grey}) {
        JpegOptions options;
        options.full_chroma = full_chroma;
        options.progressive = progressive;
        options.kind = kind;
        options.quality = 80;
        const std::string file = jpeg(pattern_8(83, 61), options);
        const LevelDifference difference = level_difference(decoded(file), in_levels(file));
        // Half a level each in luma, chroma (times 1.8 in blue) and result, and as much again of its integer
        // arithmetic.
        EXPECT_LE(difference.largest, 3) << full_chroma << progressive << static_cast<int>(kind);
        EXPECT_LE(difference.mean, 0.6) << full_chroma << progressive << static_cast<int>(kind);
      }
}

TEST(DecodeJpeg, IsFinerThanTheLevelsThatDecodersRoundTo) {
  double worst = 0, worst_in_levels = 0;
  for (int tenths = 1; tenths <= 9; ++tenths) {
    // Grey between two levels, as noise makes it: too fine for the compression to keep, but for its mean.
    Image8 grey(64, 64, 3);
    double mean = 0;
    for (int y = 0; y < 64; ++y)
      for (int x = 0; x < 64; ++x)
        for (int k = 0; k < 3; ++k) {
          const int level = 100 + ((7 * x + 3 * y) % 10 < tenths ? 1 : 0);
          grey.at(y, x)[k] = static_cast<std::uint8_t>(level);
          mean += level / (64.0 * 64 * 3);
        }
    JpegOptions options;
    options.quality = 90;
    const std::string file = jpeg(grey, options);
    double coarse = 0;
    for (const int factor : {1, 2, 4, 8}) {
      const auto reduced = decode_photo_reduced(file, "photo.jpg", factor);
      ASSERT_TRUE(reduced);
      const ImageF pixels = reduced->photo.encoded(all_of(reduced->photo));
      double fine = 0;
      for (const float v : pixels.data)
        fine += 255 * static_cast<double>(v) / static_cast<double>(pixels.data.size());
      worst = std::max(worst, std::abs(fine - mean));
    }
    for (const auto v : in_levels(file).data) coarse += v / (64.0 * 64 * 3);
    worst_in_levels = std::max(worst_in_levels, std::abs(coarse - mean));
  }
  EXPECT_LE(worst, 0.22) << "half a step of the mean at quality 90: 3 / 8 of a level";
  EXPECT_GE(worst_in_levels, 0.35) << "what this decoding is there to avoid";
}

TEST(DecodeJpeg, ComesWithWhatIsKnownOfIt) {
  const Photo photo = decoded(jpeg(pattern_8(83, 61)));
  EXPECT_EQ(photo.name(), "photo.bin");
  EXPECT_EQ(photo.encoding().kind, EncodingKind::display_referred);
  EXPECT_EQ(photo.encoding().profile, "sRGB");
  EXPECT_TRUE(photo.encoding().profile_assumed);
  EXPECT_EQ(photo.encoding().bits_per_channel, 8);
  EXPECT_EQ(photo.encoding().native_to_srgb, Matrix3::identity());
  EXPECT_THAT(photo.encoding().to_srgb_curve[0], IsEmpty());
  EXPECT_THAT(photo.remarks, IsEmpty());
}

TEST(DecodeJpeg, ComesOutSmallerWithTheMeansOfItsPixels) {
  // Blocks of one colour, so that means need no account of what a block's finer frequencies leave out.
  const auto colour = [](int x, int y, int k) {
    return static_cast<std::uint8_t>(40 + 20 * (x / 16) + 15 * (y / 16) + 10 * k);
  };
  Image8 blocks(64, 96, 3);
  for (int y = 0; y < 64; ++y)
    for (int x = 0; x < 96; ++x)
      for (int k = 0; k < 3; ++k) blocks.at(y, x)[k] = colour(x, y, k);
  for (const int factor : {1, 2, 4, 8})
    for (const int orientation : {1, 6}) {
      JpegOptions options;
      Exif exif;
      exif.orientation = orientation;
      options.exif = exif_block(exif);
      const auto reduced = decode_photo_reduced(jpeg(blocks, options), "photo.jpg", factor);
      ASSERT_TRUE(reduced);
      const bool turned = orientation == 6;
      EXPECT_EQ(reduced->reduction.factor, factor);
      EXPECT_EQ(reduced->reduction.file_width_px, turned ? 64 : 96);
      EXPECT_EQ(reduced->reduction.file_height_px, turned ? 96 : 64);
      const Photo& photo = reduced->photo;
      ASSERT_EQ(photo.width_px(), (turned ? 64 : 96) / factor);
      ASSERT_EQ(photo.height_px(), (turned ? 96 : 64) / factor);
      double worst = 0;
      for (int y = 0; y < photo.height_px(); ++y)
        for (int x = 0; x < photo.width_px(); ++x)
          for (int k = 0; k < 3; ++k) {
            // Orientation 6: the file's rows become columns from right to left.
            const int file_x = factor * (turned ? y : x), file_y = turned ? 63 - factor * x : factor * y;
            worst = std::max(worst, std::abs(255 * photo.encoded_at(x, y)[static_cast<std::size_t>(k)] -
                                             colour(file_x, file_y, k)));
          }
      EXPECT_LE(worst, 3) << "factor " << factor << ", orientation " << orientation;  // quality 95
    }
  const auto whole = decode_photo_reduced(png(blocks), "photo.png", 4);
  ASSERT_TRUE(whole);
  EXPECT_EQ(whole->reduction.factor, 1) << "other formats come out whole";
  EXPECT_EQ(whole->photo.width_px(), 96);
}

/// How far the pixels of a photo decoded `factor` times smaller are from means of the whole one's, in levels
/// of 8 bits; huge when the sizes differ. Left out: pixels that the picture fills only in part, and `border`
/// rows and columns.
double away_from_means(const std::string& file, int factor, int border = 0) {
  const auto reduced = decode_photo_reduced(file, "photo.jpg", factor);
  const Photo whole = decoded(file);
  if (!reduced || reduced->photo.width_px() != (whole.width_px() + factor - 1) / factor ||
      reduced->photo.height_px() != (whole.height_px() + factor - 1) / factor)
    return 1e9;
  double worst = 0;
  for (int y = border; y < whole.height_px() / factor - border; ++y)
    for (int x = border; x < whole.width_px() / factor - border; ++x) {
      const ImageF square = whole.encoded({factor * x, factor * y, factor, factor});
      const Vector3 smaller = reduced->photo.encoded_at(x, y);
      for (std::size_t k = 0; k < 3; ++k) {
        double mean = 0;
        for (std::size_t i = k; i < square.data.size(); i += 3)
          mean += static_cast<double>(square.data[i]) / (factor * factor);
        worst = std::max(worst, 255 * std::abs(smaller[k] - mean));
      }
    }
  return worst;
}

TEST(DecodeJpeg, SmallerPixelsAreTheMeansOfTheFineOnes) {
  // Within black and white: what compression pushes beyond them is cut off before or after the mean.
  Image8 colours(61, 83, 3);
  for (int y = 0; y < colours.rows; ++y)
    for (int x = 0; x < colours.columns; ++x)
      for (int k = 0; k < 3; ++k)
        colours.at(y, x)[k] = static_cast<std::uint8_t>(90 + (37 * x + 59 * y + 23 * k * (x + y)) % 60);
  for (const int factor : {2, 4, 8})
    for (const auto kind : {JpegOptions::Kind::ycc, JpegOptions::Kind::rgb, JpegOptions::Kind::grey}) {
      JpegOptions options;
      options.full_chroma = true;
      options.kind = kind;
      // Values of 16 bits, rounded once here and once there, are 1/257 level each.
      EXPECT_LE(away_from_means(jpeg(colours, options), factor), 0.005)
          << "factor " << factor << ", kind " << static_cast<int>(kind);
    }
}

TEST(DecodeJpeg, SmallerPixelsKeepColourThatWasThinned) {
  // Ramps, between whose samples a line leads whether the colour is spread out first or not. It does not
  // beyond the outermost ones.
  Image8 ramps(64, 96, 3);
  for (int y = 0; y < ramps.rows; ++y)
    for (int x = 0; x < ramps.columns; ++x) {
      ramps.at(y, x)[0] = static_cast<std::uint8_t>(60 + x);
      ramps.at(y, x)[1] = static_cast<std::uint8_t>(120 + y / 2);
      ramps.at(y, x)[2] = static_cast<std::uint8_t>(200 - x);
    }
  for (const int factor : {1, 2, 4, 8})
    for (const auto& thinning : {std::array{2, 2}, std::array{2, 1}, std::array{1, 2}, std::array{3, 1},
                                 std::array{4, 1}, std::array{4, 2}}) {
      JpegOptions options;
      options.luma_for_chroma = thinning;
      EXPECT_LE(away_from_means(jpeg(ramps, options), factor, 1), 0.8)
          << "what quality 95 bends the ramps by; factor " << factor << ", thinned by " << thinning[0]
          << " x " << thinning[1];
    }
}

TEST(DecodeJpeg, KnowsEveryOrdinaryVariant) {
  const Image8 pattern = pattern_8(67, 45);
  JpegOptions options;
  options.full_chroma = true;
  EXPECT_LE(largest_difference(decoded(jpeg(pattern, options)), pattern), jpeg_tolerance);
  options.progressive = true;
  EXPECT_LE(largest_difference(decoded(jpeg(pattern, options)), pattern), jpeg_tolerance) << "progressive";
  options.progressive = false;
  options.restart_rows = 1;
  EXPECT_LE(largest_difference(decoded(jpeg(pattern, options)), pattern), jpeg_tolerance)
      << "restart markers";
  options.arithmetic = true;
  EXPECT_LE(largest_difference(decoded(jpeg(pattern, options)), pattern), jpeg_tolerance)
      << "arithmetic coding";
  options = {};
  options.kind = JpegOptions::Kind::rgb;
  EXPECT_LE(largest_difference(decoded(jpeg(pattern, options)), pattern), jpeg_tolerance)
      << "RGB stored as such";
}

TEST(DecodeJpeg, GreyIsRepeatedWithARemark) {
  JpegOptions options;
  options.kind = JpegOptions::Kind::grey;
  const Image8 pattern = pattern_8(40, 30);
  const Photo photo = decoded(jpeg(pattern, options));
  EXPECT_THAT(photo.remarks, ElementsAre(HasSubstr("grey")));
  const ImageF pixels = photo.encoded(all_of(photo));
  for (std::size_t i = 0; i < pixels.data.size(); i += 3) {
    EXPECT_EQ(pixels.data[i], pixels.data[i + 1]);
    EXPECT_EQ(pixels.data[i], pixels.data[i + 2]);
    EXPECT_NEAR(255 * pixels.data[i], pattern.data[i + 1], 4);
  }
}

TEST(DecodeJpeg, InksAreRefusedInWords) {
  for (const auto kind : {JpegOptions::Kind::cmyk, JpegOptions::Kind::ycck}) {
    JpegOptions options;
    options.kind = kind;
    EXPECT_THAT(decode_photo(jpeg(pattern_8(40, 30), options), "inks.jpg"),
                FailsWith(ErrorCode::unsupported_photo, HasSubstr("CMYK")));
  }
}

TEST(DecodeJpeg, EveryOrientationIsLaidUpright) {
  // Taller and wider than the band of rows that is turned at a time, and no multiple of it.
  const Image8 upright = pattern_8(101, 77);
  for (int orientation = 1; orientation <= 8; ++orientation) {
    JpegOptions options;
    options.full_chroma = true;
    Exif exif;
    exif.orientation = orientation;
    options.exif = exif_block(exif);
    const Photo photo = decoded(jpeg(as_in_file(upright, orientation), options));
    EXPECT_LE(largest_difference(photo, upright), jpeg_tolerance) << "orientation " << orientation;
    EXPECT_EQ(photo.capture().orientation, orientation);
  }
}

TEST(DecodeJpeg, CaptureFieldsAreKept) {
  Exif exif;
  exif.model = "Box 1";
  exif.time_original = "2031:04:09 10:12:03";
  exif.subseconds_original = "250";
  exif.zone_original = "+02:00";
  exif.exposure_s = {1, 60};
  JpegOptions options;
  options.exif = exif_block(exif);
  const Photo photo = decoded(jpeg(pattern_8(16, 16), options));
  ASSERT_TRUE(photo.capture().captured);
  EXPECT_EQ(photo.capture().captured->iso8601(), "2031-04-09T10:12:03.250+02:00");
  EXPECT_EQ(photo.capture().camera_model, "Box 1");
  EXPECT_DOUBLE_EQ(photo.capture().exposure_s.value_or(0), 1.0 / 60);
}

TEST(DecodeJpeg, TruncatedAnywhereIsRefusedNotGrey) {
  for (const bool progressive : {false, true})
    for (const int restart_rows : {0, 1}) {
      JpegOptions options;
      options.progressive = progressive;
      options.restart_rows = progressive ? 0 : restart_rows;
      const std::string file = jpeg(pattern_8(160, 120), options);
      for (const double share : {0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.98})
        EXPECT_THAT(
            decode_photo(file.substr(0, static_cast<std::size_t>(share * static_cast<double>(file.size()))),
                         "cut.jpg"),
            FailsWith(ErrorCode::unreadable_photo, HasSubstr("cut.jpg")))
            << share << (progressive ? " progressive" : "");
    }
}

TEST(DecodeJpeg, TruncatedAndClosedWithAnEndMarkerIsRefused) {
  const std::string file = jpeg(pattern_8(160, 120));
  EXPECT_THAT(decode_photo(file.substr(0, file.size() * 6 / 10) + "\xff\xd9", "cut.jpg"),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("end early")));
}

TEST(DecodeJpeg, AMissingEndMarkerAloneIsARemark) {
  const Image8 pattern = pattern_8(160, 120);
  JpegOptions options;
  options.full_chroma = true;
  const std::string file = jpeg(pattern, options);
  const Photo photo = decoded(file.substr(0, file.size() - 2));
  EXPECT_LE(largest_difference(photo, pattern), jpeg_tolerance);
  EXPECT_THAT(photo.remarks, testing::Each(HasSubstr("end marker")));
}

TEST(DecodeJpeg, WrongCodesInsideAreRefused) {
  std::string file = jpeg(pattern_8(160, 120));
  for (std::size_t i = 0; i < 20; ++i)
    file.replace(file.size() / 2 + 2 * i, 2, std::string("\xff\0", 2));  // no Huffman code is all ones
  EXPECT_THAT(decode_photo(file, "bad.jpg"), FailsWith(ErrorCode::unreadable_photo, HasSubstr("damaged")));
}

TEST(DecodeJpeg, RestartMarkersOutOfOrderAreRefused) {
  JpegOptions options;
  options.restart_rows = 1;
  std::string file = jpeg(pattern_8(160, 120), options);
  const auto marker = file.find("\xff\xd2");
  ASSERT_NE(marker, std::string::npos);
  file[marker + 1] = '\xd6';
  EXPECT_THAT(decode_photo(file, "bad.jpg"), FailsWith(ErrorCode::unreadable_photo, HasSubstr("damaged")));
}

TEST(DecodeJpeg, OdditiesBetweenMarkersAreCounted) {
  std::string file = jpeg(pattern_8(40, 30));
  file.insert(file.find("\xff\xdb"), "\x01\x02\x03", 3);  // stray bytes before a table
  const Photo photo = decoded(file);
  EXPECT_THAT(photo.remarks, ElementsAre(HasSubstr("1 oddities")));
}

TEST(DecodeJpeg, AHugeSizeInTheHeaderIsRefusedBeforeAnyMemoryIsTaken) {
  std::string file = jpeg(pattern_8(40, 30));
  const auto frame = file.find("\xff\xc0");
  ASSERT_NE(frame, std::string::npos);
  for (const std::size_t at : {frame + 5, frame + 7}) file[at] = '\xea', file[at + 1] = '\x60';  // 60000
  EXPECT_THAT(decode_photo(file, "bomb.jpg"),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("60000 x 60000")));
  DecodeLimits narrow;
  narrow.memory_bytes = 3000;
  EXPECT_THAT(decode_photo(jpeg(pattern_8(40, 30)), "a.jpg", narrow),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("needs")));
}

TEST(DecodeJpeg, MemoryThatRunsOutOnAnyThreadIsAnError) {
  // Stripes of the picture ask whether to stop, each on its own thread; libjpeg asks on the caller's.
  struct Exhausted : Progress {
    bool cancelled() const override {
      if (std::this_thread::get_id() != caller) throw std::bad_alloc();
      return false;
    }
    std::thread::id caller = std::this_thread::get_id();
  } exhausted;
  if (std::thread::hardware_concurrency() < 2) GTEST_SKIP() << "one core has one stripe";
  DecodeLimits limits;
  limits.progress = &exhausted;
  EXPECT_THAT(decode_photo(jpeg(pattern_8(256, 256)), "a.jpg", limits),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("not enough memory")));
}

TEST(DecodeJpeg, TwelveBitFilesAreNamedAsARareKind) {
  std::string file = jpeg(pattern_8(40, 30));
  file[file.find("\xff\xc0") + 4] = 12;
  EXPECT_THAT(decode_photo(file, "deep.jpg"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("rare kind")));
}

TEST(DecodeJpeg, ProfilesAreHonoured) {
  JpegOptions options;
  options.icc = matrix_profile(2.2, adobe_primaries, "wide 2.2");
  const Photo wide = decoded(jpeg(plain_8(16, 16, {128, 128, 128}), options));
  EXPECT_EQ(wide.encoding().profile, "wide 2.2");
  EXPECT_FALSE(wide.encoding().profile_assumed);
  EXPECT_NEAR(wide.linear({0, 0, 1, 1}).data[0], std::pow(128 / 255.0, 2.2), 1e-4);
  EXPECT_GT(wide.encoding().native_to_srgb(0, 0), 1.3);
  options.icc = matrix_profile(0, p3_primaries, "P3 like");
  const Photo p3 = decoded(jpeg(plain_8(16, 16, {128, 128, 128}), options));
  EXPECT_THAT(p3.encoding().to_srgb_curve[0], IsEmpty()) << "its curve is sRGB's";
  EXPECT_GT(p3.encoding().native_to_srgb(0, 0), 1.2);
  options.icc = matrix_profile(0, srgb_primaries, "sRGB again");
  const Photo plain = decoded(jpeg(plain_8(16, 16, {128, 128, 128}), options));
  EXPECT_FALSE(plain.encoding().profile_assumed);
  EXPECT_EQ(plain.encoding().native_to_srgb, Matrix3::identity());
  EXPECT_THAT(plain.encoding().to_srgb_curve[0], IsEmpty());
}

TEST(DecodeJpeg, LongProfilesInSeveralMarkersAreJoined) {
  JpegOptions options;
  options.icc = table_profile();
  ASSERT_GT(options.icc.size(), 20000u);
  options.icc.resize(100'000, '\0');  // unused bytes behind the tags
  options.icc[0] = 0, options.icc[1] = 1, options.icc[2] = '\x86',
  options.icc[3] = '\xa0';  // the size in its header
  EXPECT_EQ(decoded(jpeg(pattern_8(16, 16), options)).encoding().profile, "tables of sRGB");
}

TEST(DecodeJpeg, TableProfilesAreAppliedAtOnce) {
  JpegOptions options;
  options.full_chroma = true;
  const Image8 pattern = pattern_8(64, 48);
  options.icc = table_profile();
  const Photo photo = decoded(jpeg(pattern, options));
  options.icc.clear();
  const Photo plain = decoded(jpeg(pattern, options));
  ASSERT_TRUE(std::holds_alternative<Image16>(photo.store()));
  const Matrix3 to_srgb = photo.encoding().native_to_srgb;
  const ImageF wide = photo.linear(all_of(photo)), expected = plain.linear(all_of(plain));
  double worst = 0;
  for (std::size_t i = 0; i < wide.data.size(); i += 3) {
    const Vector3 back = to_srgb * Vector3{wide.data[i], wide.data[i + 1], wide.data[i + 2]};
    for (std::size_t k = 0; k < 3; ++k) worst = std::max(worst, std::abs(back[k] - expected.data[i + k]));
  }
  EXPECT_LT(worst, 0.006) << "a table of 17 nodes an axis";
  EXPECT_THAT(photo.remarks, ElementsAre(HasSubstr("lookup tables")));
}

TEST(DecodeJpeg, DamagedProfilesCountAsAbsentAndWrongOnesAreRefused) {
  JpegOptions options;
  options.icc = "this is no profile at all, but it is long enough to be tried: " + std::string(200, 'x');
  const Photo photo = decoded(jpeg(pattern_8(16, 16), options));
  EXPECT_TRUE(photo.encoding().profile_assumed);
  EXPECT_THAT(photo.remarks, ElementsAre(HasSubstr("profile is damaged")));
  options.icc = cmyk_profile();
  EXPECT_THAT(decode_photo(jpeg(pattern_8(16, 16), options), "a.jpg"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("CMYK")));
  options.icc = grey_profile(2.2);
  EXPECT_THAT(decode_photo(jpeg(pattern_8(16, 16), options), "a.jpg"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("grey")));
  options.kind = JpegOptions::Kind::grey;
  const Photo grey = decoded(jpeg(plain_8(16, 16, {128, 128, 128}), options));
  EXPECT_NEAR(grey.linear({0, 0, 1, 1}).data[0], std::pow(128 / 255.0, 2.2), 1e-4);
}

}  // namespace
}  // namespace colorlib
