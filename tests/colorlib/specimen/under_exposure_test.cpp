/// What stands at the bottom of the photo's range.
#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/specimen/photo_limits.hpp>
#include <colorlib/specimen/photo_reading.hpp>

#include "tests/scenes/scene.hpp"

namespace colorlib {
namespace {

using testing::HasSubstr;

bool has(const std::vector<Flag>& flags, std::string_view code) {
  return std::any_of(flags.begin(), flags.end(), [&](const Flag& flag) { return flag.code == code; });
}

/// The same picture with this share of the range taken off every value.
Photo darkened(const Photo& photo, float by) {
  Image8 file(photo.height_px(), photo.width_px(), 3);
  for (int row = 0; row < file.rows; ++row) {
    const ImageF line = photo.encoded({0, row, file.columns, 1});
    for (int column = 0; column < file.columns; ++column)
      for (std::size_t k = 0; k < 3; ++k)
        file.at(row, column)[k] =
            static_cast<std::uint8_t>(std::lround(255 * std::clamp(line.at(0, column)[k] - by, 0.0f, 1.0f)));
  }
  return Photo(std::move(file), {}, {}, "dark.png");
}

TEST(UnderExposure, VividColoursAreFlaggedAndDrownedOnesRefused) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  const Namer namer = Namer::load(data_folder()).value();
  // A yellow brown of L* 43, b* 34 whose blue lies below the file's range, and a brown of L* 13.
  const scenes::Scene scene =
      scenes::render(scenes::random_scene(scenes::Condition::daylight_phone, 9007), chart);
  ReadRequest request;
  request.candidates = {chart};
  request.reference_values = scene.reference;
  request.regions = scenes::true_regions(scene);
  request.height_mm = 0;
  Progress progress;
  const auto usual = read_photo(scene.photo, request, namer, progress);
  ASSERT_TRUE(usual) << usual.error().message;
  int flagged = 0;
  for (std::size_t i = 0; i < usual->readings.size(); ++i) {
    const Reading& one = usual->readings[i];
    ASSERT_FALSE(one.refused) << one.refused->message;
    EXPECT_LT(difference_ciede2000(one.lab, scene.specimens[i].as_seen), one.de00_expanded);
    flagged += has(one.flags, "under-exposed");
  }
  EXPECT_EQ(flagged, 1);

  const auto dark = read_photo(darkened(scene.photo, 0.1f), request, namer, progress);
  ASSERT_TRUE(dark) << dark.error().message;
  EXPECT_TRUE(has(dark->flags, "under-exposed"));
  int refused = 0;
  for (std::size_t i = 0; i < dark->readings.size(); ++i) {
    const Reading& one = dark->readings[i];
    if (one.refused) {
      ++refused;
      EXPECT_THAT(one.refused->message, HasSubstr("bottom of its range"));
    }
  }
  EXPECT_GE(refused, 2);
}

TEST(UnderExposure, HalfTheChartLostThereIsNoCalibration) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  auto settings = scenes::random_scene(scenes::Condition::daylight_phone, 41);
  settings.view.width_px = 1200, settings.view.height_px = 900;
  const scenes::Scene scene = scenes::render(settings, chart);
  ReadRequest request;
  request.candidates = {chart};
  request.reference_values = scene.reference;
  Progress progress;
  const auto reading = calibrate_photo(scene.photo, request, progress);
  ASSERT_TRUE(reading) << reading.error().message;
  const auto without = [&](std::size_t lost) {
    SheetSamples samples = reading->samples;
    for (std::size_t i = 0; under_exposed_patches(samples) < lost; ++i) {
      samples.patches[i].clipped_share = 0, samples.patches[i].dark_share = 0.5;
      samples.patches[i].dropped.emplace("too dark");
    }
    return calibrate(chart, scene.reference, samples, {});
  };
  const std::size_t half = chart.patches.size() / 2;
  EXPECT_FALSE(has(reading->flags, "under-exposed"));  // only the most vivid patches lie at the bottom
  const auto refused = without(half + 1);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::untrustworthy);
  EXPECT_THAT(refused.error().message, HasSubstr("bottom of its range"));
  const auto fewer = without(half / 2);
  EXPECT_TRUE(fewer || fewer.error().message.find("bottom of its range") == std::string::npos);
}

}  // namespace
}  // namespace colorlib
