#ifdef TINTFALL_HEIF
#include "photo_checks.hpp"
#include "photo_files.hpp"

namespace colorlib {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using namespace photo_files;

TEST(DecodeHeif, PlainColoursComeBack) {
  const Image8 plain = plain_8(64, 48, {180, 120, 60});
  const Photo photo = decoded(heif(plain), "phone.heic");
  EXPECT_LE(largest_difference(photo, plain), 3) << "lossy, quality 90";
  EXPECT_EQ(photo.encoding().kind, EncodingKind::display_referred);
  EXPECT_EQ(photo.encoding().native_to_srgb, Matrix3::identity());
  EXPECT_THAT(photo.remarks, IsEmpty());
}

TEST(DecodeHeif, TenBitsAreSpreadToSixteen) {
  Image16 plain(48, 64, 3);
  for (std::size_t i = 0; i < plain.data.size(); ++i)
    plain.data[i] = static_cast<std::uint16_t>(std::array{720, 480, 240}[i % 3]);
  HeifOptions options;
  options.bits = 10;
  const Photo photo = decoded(heif(plain, options));
  EXPECT_EQ(photo.encoding().bits_per_channel, 10);
  const ImageF encoded = photo.encoded({20, 20, 1, 1});
  EXPECT_NEAR(encoded.data[0], 720 / 1023.0, 3 / 1023.0);
  EXPECT_NEAR(encoded.data[1], 480 / 1023.0, 3 / 1023.0);
  EXPECT_NEAR(encoded.data[2], 240 / 1023.0, 3 / 1023.0);
}

TEST(DecodeHeif, TheFilesOwnTurnIsAppliedOnce) {
  // libheif asks for rotation in the file's boxes; EXIF says the same, as phones do.
  const Image8 upright = pattern_8(96, 64);
  for (const int turned : {1, 3, 6, 8}) {
    HeifOptions options;
    options.turned = turned;
    Exif exif;
    exif.orientation = turned;
    exif.time_original = "2031:04:09 10:12:03";
    exif.zone_original = "+02:00";
    options.exif = exif_block(exif);
    const Photo photo = decoded(heif(as_in_file(upright, turned), options));
    ASSERT_EQ(photo.width_px(), 96) << turned;
    ASSERT_EQ(photo.height_px(), 64) << turned;
    const auto& pixels = std::get<Image8>(photo.store());
    for (const auto& [x, y] : {std::pair{8, 6}, std::pair{88, 6}, std::pair{8, 58}, std::pair{88, 58}})
      for (int k = 0; k < 3; ++k)
        EXPECT_NEAR(pixels.at(y, x)[k], upright.at(y, x)[k], 8) << turned << " at " << x << ", " << y;
    ASSERT_TRUE(photo.capture().captured);
    EXPECT_EQ(photo.capture().captured->iso8601(), "2031-04-09T10:12:03+02:00");
  }
}

TEST(DecodeHeif, CodePointsAreHonouredAndHdrIsRefused) {
  const Image8 plain = plain_8(64, 48, {128, 128, 128});
  HeifOptions options;
  options.code_points = {12, 13};
  const Photo p3 = decoded(heif(plain, options));
  EXPECT_EQ(p3.encoding().profile, "Display P3");
  EXPECT_FALSE(p3.encoding().profile_assumed);
  EXPECT_GT(p3.encoding().native_to_srgb(0, 0), 1.2);
  EXPECT_THAT(p3.encoding().to_srgb_curve[0], IsEmpty());
  options.code_points = {9, 16};
  EXPECT_THAT(decode_photo(heif(plain, options), "hdr.heic"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("HDR picture (PQ")));
  options.code_points = {9, 18};
  EXPECT_THAT(decode_photo(heif(plain, options), "hdr.heic"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("HLG")));
}

TEST(DecodeHeif, ProfilesAreHonoured) {
  HeifOptions options;
  options.icc = matrix_profile(0, p3_primaries, "P3 like");
  const Photo photo = decoded(heif(plain_8(64, 48, {128, 128, 128}), options));
  EXPECT_EQ(photo.encoding().profile, "P3 like");
  EXPECT_GT(photo.encoding().native_to_srgb(0, 0), 1.2);
}

TEST(DecodeHeif, TruncatedIsRefused) {
  const std::string file = heif(pattern_8(160, 120));
  for (const double share : {0.02, 0.3, 0.6, 0.9})
    EXPECT_THAT(
        decode_photo(file.substr(0, static_cast<std::size_t>(share * static_cast<double>(file.size()))),
                     "cut.heic"),
        FailsWith(ErrorCode::unreadable_photo, HasSubstr("cut.heic")))
        << share;
}

TEST(DecodeHeif, TransparencyIsIgnoredWithARemark) {
  HeifOptions options;
  options.alpha = true;
  const Image8 plain = plain_8(64, 48, {180, 120, 60});
  const Photo photo = decoded(heif(plain, options));
  EXPECT_LE(largest_difference(photo, plain), 3);
  EXPECT_THAT(photo.remarks, testing::ElementsAre(HasSubstr("transparency")));
}

TEST(DecodeHeif, GridsAreJoined) {
  const std::string file =
      heif(plain_8(83, 61, {180, 120, 60}));  // odd sizes are written as a grid with a border cut off
  ASSERT_NE(file.find("grid"), std::string::npos);
  const Photo photo = decoded(file);
  EXPECT_EQ(photo.width_px(), 83);
  EXPECT_EQ(photo.height_px(), 61);
}

TEST(DecodeHeif, ItemsThatReferToThemselvesAreRefused) {
  std::string grid = heif(plain_8(83, 61, {180, 120, 60}));
  const auto made_of = grid.find("dimg");
  ASSERT_NE(made_of, std::string::npos);
  grid.replace(made_of + 8, 2, grid.substr(made_of + 4, 2));  // the grid's tile is the grid
  EXPECT_THAT(decode_photo(grid, "loop.heic"),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("loop.heic")));
  HeifOptions options;
  options.alpha = true;
  std::string alpha = heif(plain_8(64, 48, {180, 120, 60}), options);
  const auto of = alpha.find("auxl", alpha.find("iref"));
  ASSERT_NE(of, std::string::npos);
  alpha.replace(of + 8, 2, alpha.substr(of + 4, 2));  // the transparency's own transparency
  EXPECT_THAT(decode_photo(alpha, "loop.heic"),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("loop.heic")));
}

TEST(DecodeHeif, OtherCodingsAreNamed) {
  std::string file = heif(plain_8(64, 48, {180, 120, 60}));
  file.replace(file.find("hvc1"), 4, "av01");
  EXPECT_THAT(decode_photo(file, "a.heic"),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("another coding")));
  file.replace(8, 4, "avif");
  EXPECT_THAT(decode_photo(file, "a.heic"), FailsWith(ErrorCode::unsupported_photo, HasSubstr("AVIF")));
}

TEST(DecodeHeif, ASmallSizeInTheBoxesDoesNotHideALargeOneInTheStream) {
  std::string file = heif(plain_8(640, 480, {180, 120, 60}));
  int patched = 0;
  for (auto box = file.find("ispe"); box != std::string::npos; box = file.find("ispe", box + 1), ++patched)
    for (const std::size_t side : {std::size_t{8}, std::size_t{12}})
      file.replace(box + side, 4, std::string("\0\0\0\x40", 4));
  ASSERT_GT(patched, 0);
  DecodeLimits limits;
  limits.pixels = 100'000;
  EXPECT_THAT(decode_photo(file, "bomb.heic", limits),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("640 x 480")));
}

TEST(DecodeHeif, SizeIsBounded) {
  DecodeLimits limits;
  limits.pixels = 1000;
  EXPECT_THAT(decode_photo(heif(plain_8(64, 48, {1, 2, 3})), "a.heic", limits),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("64 x 48")));
}

}  // namespace
}  // namespace colorlib
#endif
