#include "photo_checks.hpp"
#include "photo_files.hpp"

namespace colorlib {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using namespace photo_files;

constexpr int side = 96;

/// Raw values for sensor exposures in [0, 1] of white.
Image16 exposed(const std::array<double, 3>& share, const DngOptions& options, int width = side,
                int height = side) {
  Image16 raw(height, width, 3);
  for (std::size_t i = 0; i < raw.data.size(); ++i)
    raw.data[i] = static_cast<std::uint16_t>(
        std::lround(options.black + share[i % 3] * (options.white - options.black)));
  return raw;
}

DngOptions camera_like(bool mosaic) {
  DngOptions options;
  options.mosaic = mosaic;
  options.black = 512;
  options.white = 60000;  // fine steps, so that 1e-4 can be asked for
  return options;
}

TEST(DecodeRaw, KnownExposuresComeBackWithinOneInTenThousand) {
  for (const bool mosaic : {false, true})
    for (const std::array<double, 3> share :
         {std::array{0.45, 0.45, 0.45}, std::array{0.1, 0.3, 0.7}, std::array{0.9, 0.02, 0.5}}) {
      const DngOptions options = camera_like(mosaic);
      const Photo photo = decoded(dng(exposed(share, options), options), "camera.dng");
      EXPECT_EQ(photo.encoding().kind, EncodingKind::linear_sensor);
      EXPECT_FALSE(photo.encoding().profile_assumed);
      const ImageF linear = photo.linear({side / 2 - 8, side / 2 - 8, 16, 16});
      ASSERT_FALSE(linear.empty());
      double worst = 0;
      for (std::size_t i = 0; i < linear.data.size(); ++i)
        worst = std::max(worst, std::abs(linear.data[i] - share[i % 3]));
      EXPECT_LT(worst, 1e-4) << (mosaic ? "mosaic" : "linear DNG");
    }
}

TEST(DecodeRaw, OnePixelDoesNotSetTheScale) {
  for (const bool mosaic : {false, true}) {
    const DngOptions options = camera_like(mosaic);
    for (const double brightest : {0.45, 0.6, 0.9, 1.0}) {
      Image16 raw = exposed({0.45, 0.45, 0.45}, options);
      const auto bright = static_cast<std::uint16_t>(
          std::lround(options.black + brightest * (options.white - options.black)));
      for (int y = 4; y < 12; ++y)
        for (int x = 4; x < 12; ++x) std::fill_n(raw.at(y, x), 3, bright);
      const Photo photo = decoded(dng(raw, options));
      EXPECT_NEAR(photo.linear({side / 2, side / 2, 1, 1}).data[1], 0.45, 1e-4) << "brightest " << brightest;
      EXPECT_NEAR(photo.linear({8, 8, 1, 1}).data[1], brightest, 1e-4);
    }
  }
}

TEST(DecodeRaw, TheMatrixSaysWhatAWhiteReadsInDaylight) {
  for (const bool mosaic : {false, true}) {
    const DngOptions options = camera_like(mosaic);
    const Photo photo = decoded(dng(exposed({0.45, 0.45, 0.45}, options), options));
    ASSERT_TRUE(photo.encoding().daylight_white);
    const double d65[] = {0.95047, 1, 1.08883};  // CIE 15: XYZ of D65, 2 degrees
    Vector3 white{};
    for (std::size_t k = 0; k < 3; ++k)
      for (std::size_t j = 0; j < 3; ++j) white[k] += double(options.xyz_to_camera[3 * k + j]) * d65[j];
    const Vector3& said = *photo.encoding().daylight_white;
    EXPECT_NEAR(said[0], white[0] / white[1], 2e-3);
    EXPECT_EQ(said[1], 1);
    EXPECT_NEAR(said[2], white[2] / white[1], 2e-3);
  }
}

TEST(DecodeRaw, AMatrixForALampSaysNothingOfDaylight) {
  DngOptions options = camera_like(true);
  options.matrix_light = 17;  // illuminant A
  EXPECT_FALSE(decoded(dng(exposed({0.45, 0.45, 0.45}, options), options)).encoding().daylight_white);
}

TEST(DecodeRaw, MosaicAndSmoothRampsAreLinear) {
  // A ramp along x: demosaicing must keep it straight and unbrightened.
  const DngOptions options = camera_like(true);
  Image16 raw(side, side, 3);
  for (int y = 0; y < side; ++y)
    for (int x = 0; x < side; ++x)
      std::fill_n(raw.at(y, x), 3, static_cast<std::uint16_t>(options.black + 400 * x));
  const Photo photo = decoded(dng(raw, options));
  const ImageF linear = photo.linear({0, side / 2, side, 1});
  double worst = 0;
  for (int x = 8; x < side - 8; ++x)
    for (int k = 0; k < 3; ++k)
      worst = std::max(worst, std::abs(linear.at(0, x)[k] - 400.0 * x / (options.white - options.black)));
  EXPECT_LT(worst, 2e-4);
}

TEST(DecodeRaw, TheCamerasWhiteAndMatrixAreForDisplayOnly) {
  // A neutral grey in the light of the shot: its raw values are those of AsShotNeutral.
  const DngOptions options = camera_like(false);
  const std::array<double, 3> grey = {0.5 * options.as_shot_neutral[0], 0.5 * options.as_shot_neutral[1],
                                      0.5 * options.as_shot_neutral[2]};
  const Photo photo = decoded(dng(exposed(grey, options), options));
  const ImageF linear = photo.linear({10, 10, 1, 1});
  EXPECT_NEAR(linear.data[0], grey[0], 1e-4) << "no white balance in the pixels";
  const Vector3 shown =
      photo.encoding().native_to_srgb * Vector3{linear.data[0], linear.data[1], linear.data[2]};
  EXPECT_NEAR(shown[0], shown[1], 0.01);
  EXPECT_NEAR(shown[2], shown[1], 0.01);
  EXPECT_NEAR(shown[1], 0.5, 0.02);
  EXPECT_NE(photo.encoding().native_to_srgb(0, 1), 0) << "the camera's matrix mixes channels";
}

TEST(DecodeRaw, EveryOrientationIsLaidUpright) {
  const DngOptions linear_options = camera_like(false);
  Image16 upright = exposed({0.2, 0.3, 0.4}, linear_options, 64, 48);
  for (int y = 0; y < 16; ++y)
    for (int x = 0; x < 8; ++x) upright.at(y, x)[0] = 50000;
  const Photo reference = decoded(dng(upright, linear_options));
  const auto& expected = std::get<Image16>(reference.store());
  for (int orientation = 1; orientation <= 8; ++orientation) {
    DngOptions options = linear_options;
    options.orientation = orientation;
    const Photo photo = decoded(dng(as_in_file(upright, orientation), options));
    EXPECT_EQ(photo.capture().orientation, orientation);
    EXPECT_LE(largest_difference(photo, expected), 1) << "orientation " << orientation;
  }
}

TEST(DecodeRaw, TimeExposureAndCameraAreKept) {
  DngOptions options = camera_like(true);
  options.time_original = "2031:04:09 10:12:03";
  options.subseconds_original = "25";
  options.zone_original = "+02:00";
  const Photo photo = decoded(dng(exposed({0.4, 0.4, 0.4}, options), options));
  ASSERT_TRUE(photo.capture().captured);
  EXPECT_EQ(photo.capture().captured->iso8601(), "2031-04-09T10:12:03.25+02:00");
  EXPECT_NEAR(photo.capture().exposure_s.value_or(0), 1.0 / 125, 1e-6);
  EXPECT_NEAR(photo.capture().f_number.value_or(0), 2.8, 1e-4);
  EXPECT_EQ(photo.capture().camera_model, "Box 1");
  EXPECT_THAT(photo.remarks, IsEmpty());
}

TEST(DecodeRaw, TruncatedIsRefused) {
  const DngOptions options = camera_like(true);
  std::string file = dng(exposed({0.4, 0.4, 0.4}, options), options);
  for (const double share : {0.05, 0.5, 0.9})
    EXPECT_THAT(
        decode_photo(file.substr(0, static_cast<std::size_t>(share * static_cast<double>(file.size()))),
                     "cut.dng"),
        FailsWith(ErrorCode::unreadable_photo, HasSubstr("cut.dng")))
        << share;
}

TEST(DecodeRaw, MemoryIsBounded) {
  const DngOptions options = camera_like(true);
  DecodeLimits limits;
  limits.memory_bytes = 100'000;
  EXPECT_THAT(decode_photo(dng(exposed({0.4, 0.4, 0.4}, options), options), "a.dng", limits),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("a.dng")));
}

TEST(DecodeRaw, UnknownRawIsNamedAsSuch) {
  const std::string fake = "FUJIFILMCCD-RAW 0201FF383501" + std::string(4000, '\0');
  const auto photo = decode_photo(fake, "odd.raf");
  ASSERT_FALSE(photo);
  EXPECT_THAT(photo.error().message, HasSubstr("camera raw"));
}

}  // namespace
}  // namespace colorlib
