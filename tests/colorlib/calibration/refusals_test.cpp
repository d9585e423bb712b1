#include <gmock/gmock.h>

#include <colorlib/calibration/refusals_internal.hpp>
#include <limits>

namespace colorlib {
namespace {

using testing::HasSubstr;

/// What serves of a sheet of 20 patches, as a photo in good light gives it.
UsableSamples plenty() {
  UsableSamples usable;
  usable.patches.resize(20);
  usable.input.patches.resize(20);
  usable.input.paper.resize(50);
  usable.light_neutrals = 5;
  usable.most_chroma = 0.6;
  return usable;
}

SheetSamples sheet() {
  SheetSamples samples;
  samples.patches.resize(20);
  return samples;
}

TEST(Refusals, WhatIsEnoughIsNotRefused) {
  EXPECT_FALSE(too_little_to_fit(plenty(), sheet()));
  auto least = plenty();
  least.patches.resize(12);
  EXPECT_FALSE(too_little_to_fit(least, sheet()));
  least.input.paper.clear();
  least.light_neutrals = 3;
  EXPECT_FALSE(too_little_to_fit(least, sheet()));
}

TEST(Refusals, TooFewPatchesAreCounted) {
  auto few = plenty();
  few.patches.resize(11);
  const auto why = too_little_to_fit(few, sheet());
  ASSERT_TRUE(why);
  EXPECT_EQ(why->code, ErrorCode::untrustworthy);
  EXPECT_THAT(why->message, HasSubstr("only 11 of 20 patches can be used, 12 are needed"));
}

TEST(Refusals, WithoutPaperAndLightNeutralsTheLightIsUnknown) {
  auto dim = plenty();
  dim.input.paper.clear();
  dim.light_neutrals = 2;
  auto samples = sheet();
  const auto soiled = too_little_to_fit(dim, samples);
  ASSERT_TRUE(soiled);
  EXPECT_THAT(soiled->message, HasSubstr("no bare paper and only 2 light neutral patches"));
  samples.paper_clipped_share = 0.9;
  const auto clipped = too_little_to_fit(dim, samples);
  ASSERT_TRUE(clipped);
  EXPECT_THAT(clipped->message, HasSubstr("the bare paper is over-exposed"));
  EXPECT_EQ(clipped->advice, expose_less_advice);
}

TEST(Refusals, APhotoWithoutColourIsRefused) {
  auto grey = plenty();
  grey.most_chroma = 0.01;
  const auto why = too_little_to_fit(grey, sheet());
  ASSERT_TRUE(why);
  EXPECT_THAT(why->message, HasSubstr("without colour"));
}

TEST(Refusals, AFitThatLeavesMuchIsRefusedAndAShadowNamed) {
  CalibrationSummary summary;
  summary.check_de00_mean = 6;
  EXPECT_FALSE(poorly_fitted(summary, ReferenceKind::nominal, 0.1));  // up to 9 there
  const auto plain = poorly_fitted(summary, ReferenceKind::measured, 0.01);
  ASSERT_TRUE(plain);
  EXPECT_THAT(plain->message, HasSubstr("by 6.0 \u0394E00 on average, more than 5 cannot be trusted"));
  const auto shadow = poorly_fitted(summary, ReferenceKind::measured, 0.1);
  ASSERT_TRUE(shadow);
  EXPECT_THAT(shadow->message, HasSubstr("departs by up to 10 %"));
  EXPECT_EQ(shadow->advice, even_light_advice);
  summary.check_de00_mean = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(poorly_fitted(summary, ReferenceKind::nominal, 0));
}

}  // namespace
}  // namespace colorlib
