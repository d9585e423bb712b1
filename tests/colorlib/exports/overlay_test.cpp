#include <gmock/gmock.h>
#include <png.h>

#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/exports/overlay.hpp>
#include <colorlib/exports/overlay_labels_internal.hpp>
#include <tests/scenes/charts.hpp>
#include <tests/scenes/scene.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::Eq;
using testing::Ge;
using testing::HasSubstr;
using testing::Le;

Image8 decoded_png(const std::string& bytes) {
  png_image header{};
  header.version = PNG_IMAGE_VERSION;
  if (!png_image_begin_read_from_memory(&header, bytes.data(), bytes.size())) return {};
  header.format = PNG_FORMAT_RGB;
  Image8 picture(static_cast<int>(header.height), static_cast<int>(header.width), 3);
  return png_image_finish_read(&header, nullptr, picture.data.data(), 0, nullptr) ? picture : Image8{};
}

/// Darkest and lightest grey within `reach` px of a place.
struct Contrast {
  int dark = 255, light = 0;
};
Contrast contrast_near(const Image8& picture, const PointPx& place, int reach) {
  Contrast found;
  const int x = static_cast<int>(std::lround(place.x)), y = static_cast<int>(std::lround(place.y));
  for (int r = std::max(0, y - reach); r <= std::min(picture.rows - 1, y + reach); ++r)
    for (int c = std::max(0, x - reach); c <= std::min(picture.columns - 1, x + reach); ++c) {
      const int grey = (picture.at(r, c)[0] + picture.at(r, c)[1] + picture.at(r, c)[2]) / 3;
      found = {std::min(found.dark, grey), std::max(found.light, grey)};
    }
  return found;
}

int pixels_of(const Image8& picture, const ScreenColor& color) {
  int count = 0;
  for (std::size_t i = 0; i + 2 < picture.data.size(); i += 3)
    count += picture.data[i] == color.red && picture.data[i + 1] == color.green &&
             picture.data[i + 2] == color.blue;
  return count;
}

/// One simulated photo, read once for all tests.
struct ReadScene {
  ChartDefinition chart = scenes::small_frame_chart();
  scenes::Scene scene = scenes::render(
      scenes::random_scene(scenes::Condition::daylight_phone, 11, scenes::Pool::tuning), chart);
  PhotoReading reading;

  ReadScene() {
    ReadRequest request;
    request.candidates = {chart};
    request.regions = scenes::true_regions(scene);
    request.reference_values = scene.reference;
    Progress silent;
    auto read = read_photo(scene.photo, request, *Namer::load(data_folder()), silent);
    if (!read) throw std::runtime_error(read.error().message);
    reading = std::move(*read);
  }
};
ReadScene& read_scene() {
  static ReadScene scene;
  return scene;
}

TEST(Overlay, IsAPictureOfThePhotoWithAStripUnderIt) {
  const auto png = draw_overlay(read_scene().scene.photo, read_scene().reading);
  ASSERT_TRUE(png.has_value()) << png.error().message;
  const Image8 picture = decoded_png(*png);
  EXPECT_THAT(picture.columns, Eq(1600));
  EXPECT_THAT(picture.rows, AllOf(Ge(1200 + 60), Le(1200 + 400)));
}

TEST(Overlay, LargePhotosAreMadeSmallAndSmallOnesLarge) {
  OverlayOptions options;
  options.longest_px = 800;
  options.shortest_px = 400;
  EXPECT_THAT(decoded_png(*draw_overlay(read_scene().scene.photo, read_scene().reading, options)).columns,
              Eq(800));
  options.longest_px = 2000;
  options.shortest_px = 2400;
  EXPECT_THAT(decoded_png(*draw_overlay(read_scene().scene.photo, read_scene().reading, options)).columns,
              Eq(2400));
}

TEST(Overlay, LinesFollowTheSheetInTwoTones) {
  const Image8 picture = decoded_png(*draw_overlay(read_scene().scene.photo, read_scene().reading));
  const auto& view = read_scene().scene.view;
  const auto& chart = read_scene().chart;
  for (const PointMm& place : {PointMm{0, 0}, PointMm{chart.width_mm, 0}, PointMm{chart.width_mm / 2, 0},
                               PointMm{chart.width_mm, chart.height_mm}, PointMm{0, chart.height_mm / 3}}) {
    const Contrast lines = contrast_near(picture, view.px_from_mm(place), 4);
    EXPECT_THAT(lines.light, Ge(230)) << place.x << ", " << place.y;
    EXPECT_THAT(lines.dark, Le(90)) << place.x << ", " << place.y;
  }
}

TEST(Overlay, EveryReadingShowsItsSwatch) {
  const Image8 picture = decoded_png(*draw_overlay(read_scene().scene.photo, read_scene().reading));
  for (const Reading& reading : read_scene().reading.readings) {
    if (reading.refused) continue;
    EXPECT_THAT(pixels_of(picture, screen_color_from_lab(reading.lab)), Ge(100)) << reading.id;
  }
}

TEST(Overlay, DroppedPatchesAreCrossedOut) {
  auto& sample = read_scene().reading.samples.patches[5];
  const RectangleMm& place = read_scene().reading.chart.patches[sample.patch].place;
  const PointPx centre = read_scene().scene.view.px_from_mm(place.centre());
  const Contrast used =
      contrast_near(decoded_png(*draw_overlay(read_scene().scene.photo, read_scene().reading)), centre, 2);
  sample.dropped = "for this test";
  const Contrast crossed =
      contrast_near(decoded_png(*draw_overlay(read_scene().scene.photo, read_scene().reading)), centre, 2);
  sample.dropped.reset();
  EXPECT_THAT(used.light - used.dark, Le(40)) << "nothing may cover a patch that is used";
  EXPECT_THAT(crossed.light, Ge(230));
}

TEST(Overlay, RefusedRegionsSayWhy) {
  Reading refused;
  refused.id = "B";
  refused.kind = RegionKind::spot;
  refused.refused = Error{ErrorCode::untrustworthy, "It is over-exposed.", "Expose less."};
  EXPECT_THAT(label_text(refused), Eq("spot B: no reading\nIt is over-exposed."));
}

TEST(Overlay, LabelsCarryNameFiguresAndFlags) {
  Reading reading;
  reading.id = "A";
  reading.kind = RegionKind::deposit;
  reading.words.name.name = "strong brown";
  reading.lab = {42.32, 20.3, -29.35};
  reading.lab_expanded = {1.14, 0.9, 0.9};
  reading.flags = {{"specular", ""}, {"clipped", ""}};
  EXPECT_THAT(label_text(reading), Eq("deposit A: strong brown\nL* 42.3 ± 1.1   a* 20.3 ± 0.9   b* -29.4 ± "
                                      "0.9\nflags: specular, clipped"));
}

TEST(Overlay, AnEmptyPhotoIsABadCall) {
  EXPECT_THAT(draw_overlay(Photo(), read_scene().reading),
              FailsWith(ErrorCode::bad_call, HasSubstr("no pixels")));
}

TEST(FreePlace, StaysInsideAndOffTheTarget) {
  for (const CanvasBox target :
       {CanvasBox{0, 0, 50, 50}, CanvasBox{950, 700, 50, 50}, CanvasBox{480, 300, 40, 40}}) {
    const CanvasBox place = free_place(target, {0, 0, 200, 60}, 1000, 750, 10, {});
    EXPECT_GE(place.x, 0);
    EXPECT_GE(place.y, 0);
    EXPECT_LE(place.x + place.width, 1000);
    EXPECT_LE(place.y + place.height, 750);
    EXPECT_THAT(place.overlap(target), Eq(0));
  }
}

TEST(FreePlace, AvoidsOtherLabels) {
  std::vector<Obstacle> labels;
  const CanvasBox target{480, 350, 40, 40};
  // Twelve labels on one spot fit without covering one another.
  for (int i = 0; i < 12; ++i) {
    const CanvasBox place = free_place(target, {0, 0, 150, 50}, 1000, 750, 10, labels);
    for (const auto& other : labels) EXPECT_THAT(place.overlap(other.box), Eq(0)) << i;
    labels.push_back({place, 20});
  }
}

TEST(FreePlace, LabelsLargerThanTheCanvasStartAtItsCorner) {
  const CanvasBox place = free_place({10, 10, 5, 5}, {0, 0, 300, 300}, 100, 100, 10, {});
  EXPECT_THAT(place.x, Eq(0));
  EXPECT_THAT(place.y, Eq(0));
}

}  // namespace
}  // namespace colorlib
