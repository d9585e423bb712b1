/// A deposit that was found is read clear of its rim, however soft the photo is.
#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/specimen/clear_places.hpp>
#include <colorlib/specimen/photo_reading.hpp>

#include "tests/scenes/scenario.hpp"
#include "tests/scenes/scene.hpp"

namespace colorlib {
namespace {

const Namer& namer() {
  static const Namer tables = Namer::load(data_folder()).value();
  return tables;
}

/// A photo of a collection of the invented exchange, 1600 px wide; seed 1.
scenes::SceneSettings photo_of(const char* item, const ChartDefinition& chart) {
  auto settings =
      scenes::scenario_scene(scenes::scenario_item(item), scenes::Condition::daylight_phone, 1, chart);
  settings.view.width_px = 1600, settings.view.height_px = 1200;
  return settings;
}

Result<PhotoReading> read(const scenes::Scene& scene, const ChartDefinition& chart,
                          std::optional<Regions> regions = {}) {
  ReadRequest request;
  request.candidates = {chart};
  request.reference_values = scene.reference;
  request.regions = std::move(regions);
  Progress quiet;
  return read_photo(scene.photo, request, namer(), quiet);
}

bool has_flag(const std::vector<Flag>& flags, std::string_view code) {
  return std::any_of(flags.begin(), flags.end(), [&](const Flag& flag) { return flag.code == code; });
}

TEST(ClearPlaces, LeaveTheRimOutInSharpAndInSoftPhotos) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  for (const char* item : {"QH-03", "QH-05"})
    for (const double blur_px : {0.8, 2.5, 5.0}) {
      auto settings = photo_of(item, chart);
      settings.sensor.blur_px = blur_px;
      const scenes::Scene scene = scenes::render(settings, chart);
      const auto photo = read(scene, chart);
      SCOPED_TRACE(testing::Message() << item << ", blur " << blur_px << " px");
      ASSERT_TRUE(photo) << photo.error().message;
      ASSERT_THAT(photo->readings, testing::SizeIs(1));
      const Reading& reading = photo->readings[0];
      ASSERT_FALSE(reading.refused) << reading.refused->message;
      const double error = difference_ciede2000(scene.specimens.back().covered_mean, reading.lab);
      std::printf("%s, blur %.1f px: error %.2f, stated %.2f, %.2f mm of the rim left out\n", item, blur_px,
                  error, reading.de00_expanded, reading.clear->rim_mm);
      EXPECT_LE(error, reading.de00_expanded);
      EXPECT_FALSE(has_flag(reading.flags, "uneven-colour"));
      // The outline stays the deposit's: an ellipse of 27 x 26 mm less the stem's place and a rim of 1 mm.
      EXPECT_NEAR(reading.area_mm2, 2080, 120);
      EXPECT_GT(reading.clear->clear_share, 0.7);
      // 2.5 px are 0.36 mm.
      EXPECT_EQ(has_flag(photo->flags, "soft-photo"), blur_px > 1);
    }
}

TEST(ClearPlaces, BareGapsAndWhatIsBlurredIntoThemAreNotRead) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  auto settings = photo_of("QH-03", chart);
  settings.view.width_px = 3200, settings.view.height_px = 2400;
  settings.specimens[0].gap_share = 0.08;
  const scenes::Scene scene = scenes::render(settings, chart);
  const auto photo = read(scene, chart);
  ASSERT_TRUE(photo) << photo.error().message;
  ASSERT_THAT(photo->readings, testing::SizeIs(1));
  const Reading& reading = photo->readings[0];
  const double error = difference_ciede2000(scene.specimens.back().covered_mean, reading.lab);
  ASSERT_TRUE(reading.coverage_share);
  std::printf("gaps: error %.2f, stated %.2f, coverage %.3f\n", error, reading.de00_expanded,
              *reading.coverage_share);
  EXPECT_LE(error, reading.de00_expanded);
  EXPECT_LT(*reading.coverage_share, 0.98);
  EXPECT_GT(*reading.coverage_share, 0.85);
}

TEST(ClearPlaces, OfADepositTooSmallForItsBlurLessIsPromisedOrNothing) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  for (const double radius_mm : {6.0, 3.0, 2.0}) {
    auto settings = photo_of("QH-03", chart);
    settings.sensor.blur_px = 6;  // 0.9 mm
    settings.specimens[0].print_pattern = false;
    settings.specimens[0].place_mm->radius_x = settings.specimens[0].place_mm->radius_y = radius_mm;
    const scenes::Scene scene = scenes::render(settings, chart);
    const auto photo = read(scene, chart);
    if (!photo) {
      std::printf("radius %.0f mm: %s\n", radius_mm, photo.error().message.c_str());
      continue;
    }
    const Reading& reading = photo->readings[0];
    const double error = difference_ciede2000(scene.specimens.back().covered_mean, reading.lab);
    std::printf("radius %.0f mm: error %.2f, stated %.2f\n", radius_mm, error, reading.de00_expanded);
    EXPECT_LE(error, reading.de00_expanded) << radius_mm;
  }
}

TEST(ClearPlaces, ADrawnRegionIsReadAsDrawn) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  const scenes::Scene scene = scenes::render(photo_of("QH-03", chart), chart);
  const auto found = read(scene, chart);
  ASSERT_TRUE(found) << found.error().message;
  Regions regions;
  regions.items = {found->readings[0].region};
  const auto again = read(scene, chart, regions);  // as a file of regions gives it back
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ(again->readings[0].pixels, found->readings[0].pixels);
  EXPECT_EQ(again->readings[0].lab, found->readings[0].lab);
  regions.items[0].found = false;
  const auto drawn = read(scene, chart, regions);
  ASSERT_TRUE(drawn) << drawn.error().message;
  EXPECT_EQ(drawn->readings[0].clear, nullptr);
  EXPECT_GT(drawn->readings[0].pixels, found->readings[0].pixels);
}

}  // namespace
}  // namespace colorlib
