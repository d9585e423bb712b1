#include <colorlib/colorimetry/icc.hpp>
#include <colorlib/image/pixel_encoding_internal.hpp>

#include "photo_checks.hpp"
#include "photo_files.hpp"

namespace colorlib {
namespace {

using testing::HasSubstr;

const PhotoSource source{"", "a.png", {}};

TEST(PixelEncoding, CodePointsOfSrgbChangeNothing) {
  PhotoEncoding encoding;
  ASSERT_TRUE(honour_code_points(source, 1, 13, encoding));
  EXPECT_EQ(encoding.native_to_srgb, Matrix3::identity());
  EXPECT_TRUE(encoding.to_srgb_curve[0].empty());
  EXPECT_EQ(encoding.profile, "sRGB");
  EXPECT_FALSE(encoding.profile_assumed);
}

TEST(PixelEncoding, UnspecifiedCodePointsLeaveSrgbAssumed) {
  PhotoEncoding encoding;
  ASSERT_TRUE(honour_code_points(source, 2, 2, encoding));
  EXPECT_TRUE(encoding.profile_assumed);
}

TEST(PixelEncoding, PrimariesAgreeWithLittleCmsProfilesOfTheSame) {
  const std::pair<int, std::array<double, 6>> cases[] = {{12, photo_files::p3_primaries},
                                                         {9, {0.708, 0.292, 0.170, 0.797, 0.131, 0.046}},
                                                         {6, {0.630, 0.340, 0.310, 0.595, 0.155, 0.070}}};
  double worst = 0;
  for (const auto& [code, primaries] : cases) {
    PhotoEncoding encoding;
    ASSERT_TRUE(honour_code_points(source, code, 13, encoding));
    const auto profile = read_icc_profile(photo_files::matrix_profile(0, primaries, "x"), IccChannels::rgb);
    ASSERT_TRUE(profile) << profile.error().message;
    for (std::size_t i = 0; i < 9; ++i)
      worst = std::max(worst, std::abs(encoding.native_to_srgb.m[i] - profile->native_to_srgb.m[i]));
  }
  EXPECT_LT(worst, 1e-3) << "s15Fixed16 numbers and two roundings of D50";
}

TEST(PixelEncoding, TransferCurves) {
  const auto linear_at = [](int transfer, double value) {
    PhotoEncoding encoding;
    EXPECT_TRUE(honour_code_points(source, 1, transfer, encoding));
    ImageF pixel(1, 1, 3);
    std::fill(pixel.data.begin(), pixel.data.end(), static_cast<float>(value));
    return Photo(pixel, encoding, {}, "").linear({0, 0, 1, 1}).data[0];
  };
  EXPECT_NEAR(linear_at(8, 0.3), 0.3, 1e-4);
  EXPECT_NEAR(linear_at(4, 0.3), std::pow(0.3, 2.2), 1e-4);
  EXPECT_NEAR(linear_at(5, 0.3), std::pow(0.3, 2.8), 1e-4);
  // BT.709: V = 1.099 L^0.45 - 0.099 [ITU-R BT.709-6, 1.2].
  EXPECT_NEAR(linear_at(1, 1.099 * std::pow(0.18, 0.45) - 0.099), 0.18, 5e-4);
  EXPECT_NEAR(linear_at(1, 4.5 * 0.01), 0.01, 1e-4);
}

TEST(PixelEncoding, ImpossiblePrimariesAndPowersAreRefused) {
  PhotoEncoding encoding;
  EXPECT_FALSE(honour_power(0, {}, encoding));
  EXPECT_FALSE(honour_power(100, {}, encoding));
  EXPECT_FALSE(honour_power(2.2, Primaries{{0.3, 0.3}, {0.3, 0.3}, {0.3, 0.3}, {0.31, 0.33}}, encoding));
  EXPECT_FALSE(honour_power(2.2, Primaries{{0.64, 0.33}, {0.3, 0.6}, {0.15, 0.06}, {0.3, 0}}, encoding));
  EXPECT_FALSE(honour_power(2.2, Primaries{{0.64, 0.33}, {0.3, 0.6}, {0.15, 0.06}, {0.7, 0.28}}, encoding))
      << "white outside";
  EXPECT_TRUE(encoding.profile_assumed);
  EXPECT_THAT(honour_code_points(source, 1, 99, encoding),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("curve 99")));
}

}  // namespace
}  // namespace colorlib
