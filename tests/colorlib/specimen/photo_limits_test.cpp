/// Flags and checks of a photo say the same of its light and exposure.
#include <gmock/gmock.h>

#include <colorlib/specimen/photo_checks.hpp>
#include <colorlib/specimen/photo_limits.hpp>

#include "tests/scenes/scene.hpp"

namespace colorlib {
namespace {

SheetSamples samples_of(std::size_t clipped, std::size_t patches, double paper_clipped_share) {
  SheetSamples samples;
  samples.patches.resize(patches);
  for (std::size_t i = 0; i < clipped; ++i) {
    samples.patches[i].clipped_share = 0.5;
    samples.patches[i].dropped.emplace("clipped");
  }
  samples.paper_clipped_share = paper_clipped_share;
  return samples;
}

TEST(PhotoLimits, OneVividPatchInTwentyIsNoFault) {
  EXPECT_FALSE(is_over_exposed(samples_of(1, 20, 0)));
  EXPECT_TRUE(is_over_exposed(samples_of(2, 20, 0)));
  EXPECT_FALSE(is_over_exposed(samples_of(0, 0, 0)));
}

TEST(PhotoLimits, LostPaperIsForExposureAlone) {
  CalibrationSummary uneven;
  uneven.lighting_spread_de00 = uneven_light_de00 + 1;
  EXPECT_TRUE(is_unevenly_lit(uneven, samples_of(0, 20, 0.4)));
  EXPECT_FALSE(is_unevenly_lit(uneven, samples_of(0, 20, 0.6)));
  EXPECT_TRUE(is_over_exposed(samples_of(0, 20, 0.6)));
}

bool has(const std::vector<Flag>& flags, std::string_view code) {
  return std::any_of(flags.begin(), flags.end(), [&](const Flag& flag) { return flag.code == code; });
}

bool attends(const std::vector<PhotoCheck>& checks, std::string_view code) {
  return std::any_of(checks.begin(), checks.end(), [&](const PhotoCheck& check) {
    return check.code == code && check.state == CheckState::attend;
  });
}

TEST(PhotoLimits, FlagsAndChecksAgree) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  int read = 0, clipped = 0;
  for (const double paper_level : {0.7, 1.0, 1.1, 1.2, 1.3}) {
    SCOPED_TRACE(paper_level);
    auto settings = scenes::random_scene(scenes::Condition::daylight_phone, 41);
    settings.view.width_px = 1200, settings.view.height_px = 900;
    settings.sensor.paper_level = paper_level;
    const scenes::Scene scene = scenes::render(settings, chart);
    ReadRequest request;
    request.candidates = {chart};
    request.reference_values = scene.reference;
    Progress progress;
    const auto reading = calibrate_photo(scene.photo, request, progress);
    if (!reading) continue;
    ++read;
    const auto checks = photo_checks(scene.photo, *reading, {}, std::nullopt);
    clipped += has(reading->flags, "clipped");
    EXPECT_EQ(has(reading->flags, "uneven-light"), attends(checks, "even-light"));
    if (has(reading->flags, "clipped")) {
      EXPECT_TRUE(attends(checks, "exposure"));
    }
  }
  std::printf("%d of 5 photos calibrated, %d flagged as clipped\n", read, clipped);
  EXPECT_GE(read, 2);
  EXPECT_GE(clipped, 1);
}

PhotoReading raw_reading(scenes::Condition condition, bool with_daylight_white, LightKind said,
                         Photo& photo) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  auto settings = scenes::random_scene(condition, 41);
  settings.view.width_px = 1200, settings.view.height_px = 900;
  const scenes::Scene scene = scenes::render(settings, chart);
  PhotoEncoding encoding = scene.photo.encoding();
  if (!with_daylight_white) encoding.daylight_white.reset();
  photo = Photo(scene.photo.store(), encoding, {}, "a.dng");
  ReadRequest request;
  request.candidates = {chart};
  request.reference_values = scene.reference;
  request.light = said;
  Progress progress;
  return calibrate_photo(photo, request, progress).value();
}

PhotoCheck light_check(scenes::Condition condition, bool with_daylight_white) {
  Photo photo;
  const auto reading = raw_reading(condition, with_daylight_white, LightKind::unstated, photo);
  const auto checks = photo_checks(photo, reading, {}, {});
  return *std::find_if(checks.begin(), checks.end(),
                       [](const PhotoCheck& check) { return check.code == "light"; });
}

TEST(PhotoLimits, DaylightSaidOfALampIsFlaggedWhereTheFileTells) {
  const auto flagged = [](scenes::Condition condition, bool with_daylight_white, LightKind said) {
    Photo photo;
    return has(raw_reading(condition, with_daylight_white, said, photo).flags, "not-daylight");
  };
  EXPECT_TRUE(flagged(scenes::Condition::lamp_linear, true, LightKind::daylight));
  EXPECT_FALSE(flagged(scenes::Condition::lamp_linear, true, LightKind::lamp));
  EXPECT_FALSE(flagged(scenes::Condition::lamp_linear, false, LightKind::daylight));
  EXPECT_FALSE(flagged(scenes::Condition::daylight_linear, true, LightKind::daylight));
}

TEST(PhotoLimits, ARawFilesDaylightWhiteTellsALamp) {
  const PhotoCheck lamp = light_check(scenes::Condition::lamp_linear, true);
  EXPECT_EQ(lamp.state, CheckState::fine) << lamp.measured;
  const PhotoCheck window = light_check(scenes::Condition::daylight_linear, true);
  EXPECT_EQ(window.state, CheckState::unknown) << window.measured;
  EXPECT_NE(window.measured, "kind not said") << "a lamp may be as cool as daylight, but the file speaks";
  EXPECT_EQ(light_check(scenes::Condition::lamp_linear, false).measured, "kind not said");
}

}  // namespace
}  // namespace colorlib
