#include <gmock/gmock.h>

#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/exports/photo_tiles.hpp>
#include <colorlib/exports/screen_color.hpp>
#include <colorlib/exports/sheet_picture.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <tests/scenes/charts.hpp>
#include <tests/scenes/scene.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::Eq;

struct Calibrated {
  ChartDefinition chart = scenes::small_frame_chart();
  scenes::Scene scene = scenes::render(scenes::random_scene(scenes::Condition::daylight_phone, 11), chart);
  PhotoPyramid pyramid;
  PhotoReading reading;
  DisplayTransform screen = *DisplayTransform::srgb();

  Calibrated() {
    Progress progress;
    pyramid = *PhotoPyramid::build(std::make_shared<const Photo>(scene.photo), 300, progress);
    ReadRequest request;
    request.candidates = {chart};
    request.reference_values = scene.reference;
    reading = std::move(*calibrate_photo(scene.photo, request, progress));
  }
};
const Calibrated& calibrated() {
  static const Calibrated once;
  return once;
}

TEST(PhotoTiles, AsTakenIsTheFile) {
  const auto& c = calibrated();
  const PixelRectangle place{200, 150, 40, 30};
  TileRequest request;
  request.rectangle = place;
  const PhotoTile tile = photo_tile(c.pyramid, nullptr, nullptr, request, c.screen);
  const ImageF file = c.scene.photo.encoded(place);
  ASSERT_THAT(tile.pixels.data.size(), Eq(file.data.size()));
  for (std::size_t i = 0; i < file.data.size(); ++i)
    EXPECT_EQ(tile.pixels.data[i], std::lround(255 * file.data[i]));
}

TEST(PhotoTiles, CalibratedShowsPatchesInTheirTrueColours) {
  const auto& c = calibrated();
  double worst = 0, sum_of_steps = 0;
  int steps = 0;
  for (std::size_t i = 0; i < c.chart.patches.size(); ++i) {
    const PointMm centre = c.chart.patches[i].place.centre();
    const PointPx px = c.reading.sheet.placement.px_from_mm(centre);
    TileRequest request;
    request.rendering = PhotoRendering::calibrated;
    request.rectangle = {static_cast<int>(px.x) - 3, static_cast<int>(px.y) - 3, 7, 7};
    const PhotoTile tile =
        photo_tile(c.pyramid, &c.reading.sheet.placement, &c.reading.calibration, request, c.screen);
    const ScreenColor truth = screen_color_from_lab(c.scene.true_patches[i]);
    if (truth.clipped) continue;
    double sum[3] = {};
    for (std::size_t k = 0; k < tile.pixels.data.size(); ++k) sum[k % 3] += tile.pixels.data[k];
    const double n = static_cast<double>(tile.pixels.data.size()) / 3;
    for (const double step : {std::abs(sum[0] / n - truth.red), std::abs(sum[1] / n - truth.green),
                              std::abs(sum[2] / n - truth.blue)}) {
      worst = std::max(worst, step);
      sum_of_steps += step;
      ++steps;
    }
  }
  // 8-bit steps: a dE00 of 2 is about 6 of them. Pictures leave the local correction out, so single patches
  // may be off by more.
  EXPECT_GT(steps, 60);
  EXPECT_LT(sum_of_steps / steps, 6);
  EXPECT_LT(worst, 30);
  RecordProperty("worst_step", static_cast<int>(worst));
}

TEST(PhotoTiles, DifferenceIsDarkOnTheColourAndPaleFarFromIt) {
  const auto& c = calibrated();
  const auto& specimen = c.scene.specimens.front();
  const auto bounds = specimen.region.bounds();
  const PointPx px =
      c.reading.sheet.placement.px_from_mm({(bounds[0] + bounds[2]) / 2, (bounds[1] + bounds[3]) / 2});
  const PointPx paper = c.reading.sheet.placement.px_from_mm(c.reading.samples.paper.front().place);
  const auto mean_at = [&](const PointPx& place) {
    TileRequest request;
    request.rendering = PhotoRendering::difference;
    request.rectangle = {static_cast<int>(place.x) - 2, static_cast<int>(place.y) - 2, 5, 5};
    request.difference_from = specimen.as_seen;
    request.difference_full = 20;
    const PhotoTile tile =
        photo_tile(c.pyramid, &c.reading.sheet.placement, &c.reading.calibration, request, c.screen);
    double sum = 0;
    for (const auto v : tile.pixels.data) sum += v;
    return sum / static_cast<double>(tile.pixels.data.size());
  };
  EXPECT_LT(mean_at(px) + 60, mean_at(paper));
}

TEST(PhotoTiles, DifferenceScaleRisesInLightness) {
  double before = -1;
  for (int i = 0; i <= 63; ++i) {
    float srgb[3];
    difference_scale_color(i / 63.0, srgb);
    const Lab lab = lab_from_xyz(xyz_from_linear_srgb({linear_from_srgb(srgb[0]), linear_from_srgb(srgb[1]),
                                                       linear_from_srgb(srgb[2])}),
                                 white_d65);
    EXPECT_GT(lab.l, before);
    before = lab.l;
  }
  EXPECT_GT(before, 93);
}

TEST(SheetPicture, ShowsTheSheetUprightAndInScale) {
  const auto& c = calibrated();
  const RectangleMm place = c.chart.patches[5].place;
  const Image8 picture =
      sheet_picture(c.scene.photo, c.reading.sheet.placement, c.reading.calibration, place, 4, c.screen);
  EXPECT_THAT(picture.columns, Eq(std::lround(4 * place.width)));
  EXPECT_THAT(picture.rows, Eq(std::lround(4 * place.height)));
  const ScreenColor truth = screen_color_from_lab(c.scene.true_patches[5]);
  const std::uint8_t* middle = picture.at(picture.rows / 2, picture.columns / 2);
  if (!truth.clipped) {
    EXPECT_NEAR(middle[0], truth.red, 14);
    EXPECT_NEAR(middle[1], truth.green, 14);
    EXPECT_NEAR(middle[2], truth.blue, 14);
  }
  // Outside the photo: grey.
  const Image8 nothing = sheet_picture(c.scene.photo, c.reading.sheet.placement, c.reading.calibration,
                                       {-4000, -4000, 5, 5}, 2, c.screen);
  EXPECT_NEAR(nothing.data[0], 119, 1);
}

}  // namespace
}  // namespace colorlib
