#include <lcms2.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/colorimetry/icc.hpp>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <random>
#include <tests/colorlib/image/photo_files.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;
using namespace photo_files;

constexpr unsigned seed = 20310409;
/// Profiles of Debian's colord-data, published under CC0.
const std::filesystem::path profile_folder = "/usr/share/color/icc/colord";

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// Light of a file value by the profile's curve.
double light(const IccProfile& profile, std::size_t k, double value) {
  const auto& curve = profile.to_srgb_curve[k];
  if (curve.empty()) return linear_from_srgb(value);
  const double place = value * (icc_curve_nodes - 1);
  const auto node = std::min(static_cast<std::size_t>(place), curve.size() - 2);
  return linear_from_srgb(curve[node] +
                          (place - static_cast<double>(node)) * (curve[node + 1] - curve[node]));
}

/// The largest difference in linear sRGB between this reading of a profile and LittleCMS's own transform,
/// over random values.
double worst_against_littlecms(const std::string& bytes, const IccProfile& profile, int trials) {
  cmsHPROFILE from = cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size()));
  const cmsCIExyY d65 = {0.3127, 0.3290, 1.0};
  const cmsCIExyYTRIPLE primaries = {{0.64, 0.33, 1}, {0.30, 0.60, 1}, {0.15, 0.06, 1}};
  cmsToneCurve* straight = cmsBuildGamma(nullptr, 1);
  cmsToneCurve* const three[] = {straight, straight, straight};
  cmsHPROFILE to = cmsCreateRGBProfile(&d65, &primaries, three);
  cmsHTRANSFORM transform = cmsCreateTransform(from, TYPE_RGB_DBL, to, TYPE_RGB_DBL,
                                               INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> unit(0, 1);
  double worst = 0;
  for (int i = 0; i < trials; ++i) {
    const double rgb[3] = {unit(random), unit(random), unit(random)};
    double expected[3];
    cmsDoTransform(transform, rgb, expected, 1);
    const Vector3 got = profile.native_to_srgb * Vector3{light(profile, 0, rgb[0]), light(profile, 1, rgb[1]),
                                                         light(profile, 2, rgb[2])};
    for (std::size_t k = 0; k < 3; ++k) worst = std::max(worst, std::abs(got[k] - expected[k]));
  }
  cmsDeleteTransform(transform);
  cmsFreeToneCurve(straight);
  cmsCloseProfile(from);
  cmsCloseProfile(to);
  return worst;
}

TEST(Icc, EveryMatrixProfileOfColordAgreesWithLittleCms) {
  constexpr int trials = 500;
  int profiles = 0;
  double worst = 0;
  std::string worst_name;
  for (const auto& file : std::filesystem::directory_iterator(profile_folder)) {
    const std::string bytes = bytes_of(file.path());
    const auto profile = read_icc_profile(bytes, IccChannels::rgb);
    if (!profile || profile->lookup_table) continue;
    ++profiles;
    const double difference = worst_against_littlecms(bytes, *profile, trials);
    if (difference > worst) worst = difference, worst_name = file.path().filename();
  }
  std::cout << fmt::format(
      "{} profiles, {} random colours each (seed {}), worst {:.5f} of linear sRGB ({})\n", profiles, trials,
      seed, worst, worst_name);
  EXPECT_GE(profiles, 20);
  // Interpolation and s15Fixed16 give 0.0005; a matrix within 0.002 of the identity counts as the identity.
  EXPECT_LT(worst, 0.002);
}

TEST(Icc, SrgbItselfIsTheIdentity) {
  const auto profile = read_icc_profile(bytes_of(profile_folder / "sRGB.icc"), IccChannels::rgb);
  ASSERT_TRUE(profile) << profile.error().message;
  EXPECT_EQ(profile->native_to_srgb, Matrix3::identity());
  for (const auto& curve : profile->to_srgb_curve) EXPECT_TRUE(curve.empty());
  EXPECT_THAT(profile->description, HasSubstr("sRGB"));
  EXPECT_FALSE(profile->lookup_table);
}

TEST(Icc, WideProfilesKeepTheirPrimariesAndCurve) {
  const auto profile = read_icc_profile(bytes_of(profile_folder / "AdobeRGB1998.icc"), IccChannels::rgb);
  ASSERT_TRUE(profile) << profile.error().message;
  // Linear wide RGB -> linear sRGB from the primaries' chromaticities (Adobe RGB (1998) 4.3.1.1, IEC
  // 61966-2-1), D65 both.
  EXPECT_NEAR(profile->native_to_srgb(0, 0), 1.3984, 0.002);
  EXPECT_NEAR(profile->native_to_srgb(0, 1), -0.3984, 0.002);
  EXPECT_NEAR(profile->native_to_srgb(1, 1), 1.0, 0.002);
  EXPECT_NEAR(profile->native_to_srgb(2, 1), -0.0429, 0.002);
  EXPECT_NEAR(profile->native_to_srgb(2, 2), 1.0429, 0.002);
  EXPECT_NEAR(light(*profile, 1, 0.5), std::pow(0.5, 563.0 / 256.0), 1e-4);
}

TEST(Icc, SwappedChannelsAreSwappedInTheMatrix) {
  const auto profile =
      read_icc_profile(bytes_of(profile_folder / "SwappedRedAndGreen.icc"), IccChannels::rgb);
  ASSERT_TRUE(profile) << profile.error().message;
  EXPECT_NEAR(profile->native_to_srgb(1, 0), 1, 0.05);
  EXPECT_NEAR(profile->native_to_srgb(0, 1), 1, 0.05);
  EXPECT_NEAR(profile->native_to_srgb(0, 0), 0, 0.05);
}

TEST(Icc, ProfilesOfOtherKindsAreNamed) {
  EXPECT_THAT(read_icc_profile(bytes_of(profile_folder / "x11-colors.icc"), IccChannels::rgb),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("named colours")));
  EXPECT_THAT(read_icc_profile(cmyk_profile(), IccChannels::rgb),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("CMYK")));
  EXPECT_THAT(read_icc_profile(grey_profile(2.2), IccChannels::rgb),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("grey")));
  EXPECT_TRUE(read_icc_profile(matrix_profile(2.2, srgb_primaries, "x"), IccChannels::grey))
      << "grey pixels repeated";
}

TEST(Icc, AnUnknownSpaceInTheHeaderIsNoUndefinedValue) {
  std::string bytes = matrix_profile(2.2, srgb_primaries, "x");
  bytes.replace(16, 4, "\xb7\x46\x60\xa0");
  EXPECT_THAT(read_icc_profile(bytes, IccChannels::rgb),
              FailsWith(ErrorCode::unsupported_photo, HasSubstr("another colour space")));
}

TEST(Icc, GreyCurves) {
  const auto profile = read_icc_profile(grey_profile(1.8), IccChannels::grey);
  ASSERT_TRUE(profile) << profile.error().message;
  EXPECT_NEAR(light(*profile, 0, 0.4), std::pow(0.4, 1.8), 1e-4);
  EXPECT_EQ(profile->to_srgb_curve[0], profile->to_srgb_curve[2]);
}

std::string falling_profile() {
  const cmsUInt16Number table[] = {65535, 30000, 0};
  cmsToneCurve* curve = cmsBuildTabulatedToneCurve16(nullptr, 3, table);
  const cmsCIExyY d65 = {0.3127, 0.3290, 1.0};
  const cmsCIExyYTRIPLE primaries = {{0.64, 0.33, 1}, {0.30, 0.60, 1}, {0.15, 0.06, 1}};
  cmsToneCurve* const three[] = {curve, curve, curve};
  cmsHPROFILE profile = cmsCreateRGBProfile(&d65, &primaries, three);
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile, nullptr, &size);
  std::string bytes(size, '\0');
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  cmsFreeToneCurve(curve);
  cmsCloseProfile(profile);
  return bytes;
}

TEST(Icc, DamagedProfilesAreRefused) {
  const std::string sound = matrix_profile(2.2, adobe_primaries, "x");
  for (const std::string& bytes :
       {std::string(), std::string(50, 'x'), std::string(5000, '\0'), std::string(5000, '\xff'),
        sound.substr(0, 140), sound.substr(0, 200), std::string(icc_limit_bytes + 1, 'x')})
    EXPECT_THAT(read_icc_profile(bytes, IccChannels::rgb),
                FailsWith(ErrorCode::unreadable_photo, HasSubstr("damaged")));
  // The tag of the blue primary made to point at the red one: no triangle is left.
  std::string flat = sound;
  const auto red = flat.find("rXYZ", 128), blue = flat.find("bXYZ", 128);
  ASSERT_TRUE(red < 300 && blue < 300);
  std::copy_n(flat.begin() + static_cast<std::ptrdiff_t>(red) + 4, 8,
              flat.begin() + static_cast<std::ptrdiff_t>(blue) + 4);
  EXPECT_THAT(read_icc_profile(flat, IccChannels::rgb),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("primaries")));
  // A curve that falls, as of a negative.
  EXPECT_THAT(read_icc_profile(falling_profile(), IccChannels::rgb),
              FailsWith(ErrorCode::unreadable_photo, HasSubstr("falls")));
}

TEST(Icc, MutatedProfilesNeverCrash) {
  constexpr int trials = 1000;
  const std::string sources[] = {matrix_profile(2.2, adobe_primaries, "x"), table_profile(),
                                 grey_profile(2.2)};
  std::mt19937 random(seed);
  int refused = 0;
  for (int i = 0; i < trials; ++i) {
    std::string bytes = sources[i % 3];
    for (int changes = 0; changes < 4; ++changes)
      bytes[random() % std::min<std::size_t>(bytes.size(), 600)] = static_cast<char>(random());
    const auto profile = read_icc_profile(bytes, i % 3 == 2 ? IccChannels::grey : IccChannels::rgb);
    if (!profile) {
      ++refused;
      continue;
    }
    for (const double v : profile->native_to_srgb.m) ASSERT_TRUE(std::isfinite(v));
    for (const auto& curve : profile->to_srgb_curve)
      for (const float v : curve) ASSERT_TRUE(v >= 0 && v <= 1);
  }
  std::cout << fmt::format("{} mutated profiles (seed {}), {} refused\n", trials, seed, refused);
}

TEST(Icc, DescriptionsArePrintable) {
  const auto profile =
      read_icc_profile(matrix_profile(2.2, adobe_primaries,
                                      "two\nlines\x1b[31m and a very long tail " + std::string(200, 'x')),
                       IccChannels::rgb);
  ASSERT_TRUE(profile);
  EXPECT_LE(profile->description.size(), 80u);
  for (const char c : profile->description) EXPECT_TRUE(c >= 0x20 && c < 0x7f);
  EXPECT_FALSE(profile->description.empty());
}

TEST(IccToWideRgb, TablesOfSrgbComeBackAsSrgb) {
  const std::string bytes = table_profile();
  const auto profile = read_icc_profile(bytes, IccChannels::rgb);
  ASSERT_TRUE(profile) << profile.error().message;
  EXPECT_TRUE(profile->lookup_table);
  const auto transform = IccToWideRgb::create(bytes);
  ASSERT_TRUE(transform) << transform.error().message;
  std::mt19937 random(seed);
  std::uniform_real_distribution<float> unit(0, 1);
  std::vector<float> in(3000), out(3000);
  for (float& v : in) v = unit(random);
  transform->convert(in.data(), out.data(), 1000);
  double worst = 0;
  for (std::size_t i = 0; i < in.size(); i += 3) {
    const Vector3 srgb =
        IccToWideRgb::wide_to_srgb() *
        Vector3{linear_from_srgb(out[i]), linear_from_srgb(out[i + 1]), linear_from_srgb(out[i + 2])};
    for (std::size_t k = 0; k < 3; ++k)
      worst = std::max(worst, std::abs(srgb[k] - linear_from_srgb(in[i + k])));
  }
  EXPECT_LT(worst, 0.01) << "a table of 17 nodes an axis towards 16-bit Lab";
}

TEST(IccToWideRgb, VividColoursAreNotCutAtTheBordersOfSrgb) {
  // A yellow-orange of a large-gamut profile: red beyond sRGB, blue below it.
  const auto transform = IccToWideRgb::create(matrix_profile(1, p3_primaries, "linear P3"));
  ASSERT_TRUE(transform) << transform.error().message;
  const float in[3] = {0.8f, 0.4f, 0.02f};
  float out[3];
  transform->convert(in, out, 1);
  const Vector3 srgb = IccToWideRgb::wide_to_srgb() *
                       Vector3{linear_from_srgb(out[0]), linear_from_srgb(out[1]), linear_from_srgb(out[2])};
  const auto p3 = read_icc_profile(matrix_profile(1, p3_primaries, "linear P3"), IccChannels::rgb);
  const Vector3 expected = p3->native_to_srgb * Vector3{0.8, 0.4, 0.02};
  EXPECT_LT(expected[2], -0.01) << "outside sRGB indeed";
  for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(srgb[k], expected[k], 2e-3);
}

}  // namespace
}  // namespace colorlib
