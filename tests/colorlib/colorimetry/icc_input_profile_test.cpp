#include <gmock/gmock.h>
#include <lcms2.h>

#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/colorimetry/icc.hpp>
#include <colorlib/colorimetry/icc_input_profile.hpp>
#include <random>

namespace colorlib {
namespace {

constexpr unsigned seed = 20261126;

/// A camera of near-sRGB primaries, adapted to D50.
Lab lab_of_linear(const Vector3& v) {
  const Xyz xyz{0.4360 * v[0] + 0.3851 * v[1] + 0.1431 * v[2], 0.2225 * v[0] + 0.7169 * v[1] + 0.0606 * v[2],
                0.0139 * v[0] + 0.0971 * v[1] + 0.7141 * v[2]};
  return lab_from_xyz(xyz, white_d50);
}
Lab lab_of_encoded(const Vector3& v) {
  return lab_of_linear({linear_from_srgb(v[0]), linear_from_srgb(v[1]), linear_from_srgb(v[2])});
}

double worst_of(const std::string& profile, Lab (*lab_of)(const Vector3&), double gamma) {
  const auto through = IccToLab::create(profile);
  if (!through) return INFINITY;
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> unit(0.02, 1);
  double worst = 0;
  for (int i = 0; i < 2000; ++i) {
    Vector3 value;
    for (double& v : value) v = std::pow(unit(random), gamma);
    worst = std::max(worst, difference_ciede2000(lab_of(value), through->lab(value)));
  }
  return worst;
}

TEST(IccInputProfile, GivesTheMapBack) {
  for (const auto& [lab_of, gamma] : {std::pair{&lab_of_encoded, 1.0}, std::pair{&lab_of_linear, 2.4}}) {
    const auto profile = icc_input_profile(lab_of, gamma, {"test", "none"});
    ASSERT_TRUE(profile) << profile.error().message;
    const double worst = worst_of(*profile, lab_of, gamma);
    std::printf("seed %u, 2000 colours, node spacing %.1f: worst dE00 %.3f\n", seed, gamma, worst);
    // Linear between 33 nodes an axis; the cube root of Lab bends most in the dark.
    EXPECT_LE(worst, 0.6);
  }
}

TEST(IccInputProfile, IsAnInputProfileOfVersion4ThatThisProgramReads) {
  const auto profile = icc_input_profile(&lab_of_encoded, 1, {"A photo by frame-a5", "none"});
  ASSERT_TRUE(profile);
  cmsHPROFILE handle = cmsOpenProfileFromMem(profile->data(), static_cast<cmsUInt32Number>(profile->size()));
  ASSERT_NE(handle, nullptr);
  EXPECT_EQ(cmsGetDeviceClass(handle), cmsSigInputClass);
  EXPECT_EQ(cmsGetPCS(handle), cmsSigLabData);
  EXPECT_NEAR(cmsGetProfileVersion(handle), 4.3, 0.01);
  cmsCloseProfile(handle);
  const auto read = read_icc_profile(*profile, IccChannels::rgb);
  ASSERT_TRUE(read) << read.error().message;
  EXPECT_EQ(read->description, "A photo by frame-a5");
  EXPECT_TRUE(read->lookup_table);
  EXPECT_FALSE(IccToLab::create("no profile"));
}

}  // namespace
}  // namespace colorlib
