#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/calibration/patch_unevenness_internal.hpp>

namespace colorlib {
namespace {

/// Patches from dark to light; noise as a developed photo (even) or a raw one (as the root of the light) has
/// it.
std::vector<PatchSample> patches(bool display_referred) {
  std::vector<PatchSample> samples;
  for (int i = 0; i < 20; ++i) {
    PatchSample sample;
    sample.patch = static_cast<std::size_t>(i);
    const double value = 0.05 + 0.04 * i;
    const double noise = display_referred ? 0.003 : 0.004 * std::sqrt(value);
    sample.encoded = {value, value, value};
    sample.noise_sd = {noise, 1.2 * noise, 0.9 * noise};
    samples.push_back(sample);
  }
  return samples;
}

TEST(PatchUnevenness, NoiseAloneIsNone) {
  for (const bool display_referred : {true, false})
    for (const double one : patch_unevenness(patches(display_referred), display_referred)) EXPECT_EQ(one, 0);
}

TEST(PatchUnevenness, ASmudgedPatchOfADevelopedPhotoIsOffByMoreThanItsScatter) {
  auto samples = patches(true);
  for (double& sd : samples[7].noise_sd) sd = 0.02;  // two hundredths of the range: about 2 L*
  const auto unevenness = patch_unevenness(samples, true);
  EXPECT_GT(unevenness[7], 2.0);
  EXPECT_LT(unevenness[7], 3.0);
  EXPECT_EQ(unevenness[8], 0);
}

TEST(PatchUnevenness, InARawPhotoScatterIsTakenAsAShareOfTheLight) {
  auto samples = patches(false);
  for (const std::size_t i : {1u, 18u})
    for (std::size_t c = 0; c < 3; ++c) samples[i].noise_sd[c] = 0.1 * samples[i].encoded[c];
  const auto unevenness = patch_unevenness(samples, false);
  // A tenth of the light is (116 / 3) Y^(1/3) / 10 in L*; the bright end counts as Y = 1.
  EXPECT_NEAR(unevenness[18], 1.3 * 3.87, 1.0);
  EXPECT_GT(unevenness[1], 1.0);
  EXPECT_LT(unevenness[1], unevenness[18]);
}

TEST(PatchUnevenness, ColourNoiseInOneChannelIsNotSoil) {
  auto samples = patches(true);
  samples[3].noise_sd[2] = 0.02;
  EXPECT_EQ(patch_unevenness(samples, true)[3], 0);
}

TEST(PatchUnevenness, DroppedPatchesAreLeftOut) {
  auto samples = patches(true);
  samples[2].dropped = "clipped";
  samples[2].noise_sd = {0.05, 0.05, 0.05};
  EXPECT_EQ(patch_unevenness(samples, true)[2], 0);
  EXPECT_TRUE(patch_unevenness({}, true).empty());
}

}  // namespace
}  // namespace colorlib
