#include <gmock/gmock.h>

#include <colorlib/specimen/grown_region.hpp>
#include <colorlib/specimen/photo_checks.hpp>
#include <tests/scenes/charts.hpp>
#include <tests/scenes/scene.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::Eq;
using testing::HasSubstr;

struct Calibrated {
  ChartDefinition chart = scenes::small_frame_chart();
  scenes::SceneSettings settings = scenes::random_scene(scenes::Condition::daylight_phone, 21);
  scenes::Scene scene;
  PhotoReading reading;

  explicit Calibrated(void (*change)(scenes::SceneSettings&) = nullptr,
                      LightKind light = LightKind::unstated) {
    settings.specimens.resize(1);
    settings.specimens[0].place_mm.reset();
    settings.specimens[0].radius_mm = 12;
    settings.specimens[0].thickness = 0;
    settings.specimens[0].gap_share = 0;
    settings.specimens[0].gloss = 0;
    if (change != nullptr) change(settings);
    scene = scenes::render(settings, chart);
    Progress progress;
    ReadRequest request;
    request.candidates = {chart};
    request.reference_values = scene.reference;
    request.light = light;
    reading = std::move(*calibrate_photo(scene.photo, request, progress));
  }
  PointMm middle() const {
    const auto b = scene.specimens.front().region.bounds();
    return {(b[0] + b[2]) / 2, (b[1] + b[3]) / 2};
  }
};
const Calibrated& plain() {
  static const Calibrated once;
  return once;
}

TEST(GrownRegion, CoversTheSpecimenAndNotItsGround) {
  const Calibrated& c = plain();
  Progress progress;
  GrowOptions options;
  options.tolerance_de00 = 10;
  const auto region = grow_region(c.scene.photo, c.chart, c.reading.sheet.placement, c.reading.calibration,
                                  c.middle(), options, progress);
  ASSERT_TRUE(region) << region.error().message;
  const Region& truth = c.scene.specimens.front().region;
  const auto [left, top, right, bottom] = truth.bounds();
  int inside = 0, kept = 0;
  for (double y = top; y < bottom; y += 0.5)
    for (double x = left; x < right; x += 0.5) {
      if (!truth.contains(x, y)) continue;
      ++inside;
      kept += region->contains(x, y);
    }
  EXPECT_GT(kept, 0.85 * inside);
  const RectangleMm& window = c.chart.windows.front().place;
  EXPECT_FALSE(region->contains(window.x + 1, window.y + 1));
}

TEST(GrownRegion, SaysWhyNothingGrew) {
  const Calibrated& c = plain();
  Progress progress;
  EXPECT_THAT(grow_region(c.scene.photo, c.chart, c.reading.sheet.placement, c.reading.calibration,
                          {-50, -50}, {}, progress),
              FailsWith(ErrorCode::bad_call, HasSubstr("off the sheet")));
  GrowOptions strict;
  strict.tolerance_de00 = 1e-6;
  EXPECT_THAT(grow_region(c.scene.photo, c.chart, c.reading.sheet.placement, c.reading.calibration,
                          c.middle(), strict, progress),
              FailsWith(ErrorCode::untrustworthy, HasSubstr("mm²")));
  struct Impatient : Progress {
    bool cancelled() const override { return true; }
  } impatient;
  EXPECT_THAT(grow_region(c.scene.photo, c.chart, c.reading.sheet.placement, c.reading.calibration,
                          c.middle(), {}, impatient),
              FailsWith(ErrorCode::cancelled, HasSubstr("stopped")));
}

const PhotoCheck& of(const std::vector<PhotoCheck>& checks, std::string_view code) {
  for (const auto& check : checks)
    if (check.code == code) return check;
  throw std::logic_error("no such check");
}

TEST(PhotoChecks, ACarefulPhotoNeedsNothing) {
  const Calibrated& c = plain();
  // The simulated photo is small and tilted on purpose; that the two checks for it speak is tested below.
  PhotoCheckLimits limits;
  limits.px_per_mm = 4;
  limits.scale_ratio = 1.6;
  const auto checks = photo_checks(c.scene.photo, c.reading, {}, 0.0, limits);
  for (const auto& check : checks) {
    if (check.code == "light") continue;
    EXPECT_THAT(check.state, Eq(CheckState::fine)) << check.code << ": " << check.measured;
    EXPECT_FALSE(check.measured.empty());
    EXPECT_TRUE(check.advice.empty());
  }
  EXPECT_THAT(of(photo_checks(c.scene.photo, c.reading, {}, std::nullopt), "height").state,
              Eq(CheckState::unknown));
  EXPECT_THAT(of(checks, "light").state, Eq(CheckState::unknown));
  const Calibrated said(nullptr, LightKind::daylight);
  EXPECT_THAT(of(photo_checks(said.scene.photo, said.reading, {}, 0.0), "light").state, Eq(CheckState::fine));
}

TEST(PhotoChecks, BlurAndSmallSizeAreSeen) {
  const Calibrated blurred([](scenes::SceneSettings& settings) { settings.sensor.blur_px = 4.5; });
  const auto sharpness = of(photo_checks(blurred.scene.photo, blurred.reading, {}, {}), "sharpness");
  EXPECT_THAT(sharpness.state, Eq(CheckState::attend)) << sharpness.measured;
  EXPECT_FALSE(sharpness.advice.empty());
  EXPECT_THAT(of(photo_checks(plain().scene.photo, plain().reading, {}, {}), "sheet-size").state,
              Eq(CheckState::attend));
  EXPECT_THAT(of(photo_checks(plain().scene.photo, plain().reading, {}, {}), "tilt").state,
              Eq(CheckState::attend));
}

}  // namespace
}  // namespace colorlib
