#include <gtest/gtest.h>
#include <colorlib/chart/patch_sampler.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "tests/colorlib/chart/sheet_photo.hpp"
#include "tests/support/color_matchers.hpp"

namespace colorlib {
namespace {

using test::RandomStance;
using testing::HasSubstr;
using testing::StartsWith;

/// 10 px/mm, upright, no lens: a sheet that fills the photo but for a margin of 20 px.
Placement upright(double px_per_mm, double margin_px = 20) {
  Placement p;
  p.homography = Matrix3{{px_per_mm, 0, margin_px - 0.5, 0, px_per_mm, margin_px - 0.5, 0, 0, 1}};
  p.centre = {500, 400};
  p.half_diagonal_px = 640;
  return p;
}

ChartDefinition four_patches() {
  ChartDefinition chart;
  chart.name = "four";
  chart.width_mm = 96;
  chart.height_mm = 76;
  for (int i = 0; i < 4; ++i) {
    Patch patch;
    patch.id = std::string(1, static_cast<char>('A' + i));
    patch.place = {10.0 + 20 * i, 10, 10, 10};
    chart.patches.push_back(patch);
  }
  return chart;
}

/// Paper of one colour, patches of theirs, Gaussian-like noise.
Image16 picture(const ChartDefinition& chart, const std::vector<Vector3>& colors, const Vector3& paper,
                double noise_sd, unsigned seed) {
  Image16 file(800, 1000, 3);
  RandomStance random(seed);
  const Placement placement = upright(10);
  for (int r = 0; r < file.rows; ++r)
    for (int c = 0; c < file.columns; ++c) {
      const PointMm p = placement.mm_from_px({static_cast<double>(c), static_cast<double>(r)});
      Vector3 color = paper;
      for (std::size_t i = 0; i < chart.patches.size(); ++i)
        if (chart.patches[i].place.contains(p)) color = colors[i];
      for (std::size_t k = 0; k < 3; ++k) {
        double bell = -1.5;
        for (int j = 0; j < 3; ++j) bell += random.uniform(0, 1);
        file.at(r, c)[k] = static_cast<std::uint16_t>(
            std::lround(65535 * std::clamp(color[k] + 2 * noise_sd * bell, 0.0, 1.0)));
      }
    }
  return file;
}

void fill(Image16& file, const RectangleMm& r, const Vector3& color) {
  const Placement placement = upright(10);
  for (int row = 0; row < file.rows; ++row)
    for (int column = 0; column < file.columns; ++column)
      if (r.contains(placement.mm_from_px({static_cast<double>(column), static_cast<double>(row)})))
        for (std::size_t k = 0; k < 3; ++k)
          file.at(row, column)[k] = static_cast<std::uint16_t>(std::lround(65535 * color[k]));
}

const std::vector<Vector3> four_colors = {
    {0.5, 0.4, 0.3}, {0.2, 0.3, 0.7}, {0.8, 0.8, 0.7}, {0.1, 0.1, 0.12}};
const Vector3 paper_color = {0.85, 0.86, 0.88};

PhotoEncoding linear_encoding() {
  PhotoEncoding encoding;
  encoding.kind = EncodingKind::linear_sensor;
  encoding.bits_per_channel = 16;
  return encoding;
}

TEST(SampleSheet, MeansAndNoiseOfPlainPatches) {
  const auto chart = four_patches();
  const Photo photo(picture(chart, four_colors, paper_color, 0.01, 61), {}, {}, "four.png");
  const SheetSamples samples = sample_sheet(photo, chart, upright(10), {});
  ASSERT_EQ(samples.patches.size(), 4u);
  for (std::size_t i = 0; i < 4; ++i) {
    const PatchSample& s = samples.patches[i];
    EXPECT_EQ(s.patch, i);
    EXPECT_FALSE(s.dropped) << *s.dropped;
    EXPECT_EQ(
        s.pixels,
        static_cast<int>(std::lround(3600 * (1 - s.outlier_share))));  // 60 x 60: the inner 60 % of 100 x 100
    for (std::size_t k = 0; k < 3; ++k) {
      EXPECT_NEAR(s.encoded[k], four_colors[i][k], 5 * 0.01 / 60);  // five standard errors
      EXPECT_NEAR(s.noise_sd[k], 0.01, 0.001);
    }
  }
}

TEST(SampleSheet, GlintsAndDustDoNotMoveTheMean) {
  const auto chart = four_patches();
  Image16 file = picture(chart, four_colors, paper_color, 0.01, 62);
  fill(file, {14, 14, 1, 1}, {0.98, 0.98, 0.98});  // 2.8 % of the inner part, below full scale
  fill(file, {34, 13, 0.6, 3}, {0.02, 0.02, 0.02});
  const Photo photo(std::move(file), {}, {}, "dust.png");
  const SheetSamples samples = sample_sheet(photo, chart, upright(10), {});
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_FALSE(samples.patches[i].dropped);
    EXPECT_GT(samples.patches[i].outlier_share, 0.025);
    for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(samples.patches[i].encoded[k], four_colors[i][k], 0.001);
  }
}

TEST(SampleSheet, SaysWhyAPatchIsDropped) {
  const auto chart = four_patches();
  Image16 file = picture(chart, {{0.9, 0.99, 0.1}, {0.5, 0.2, 0.0}, {0.5, 0.5, 0.5}, {0.5, 0.5, 0.5}},
                         paper_color, 0.004, 63);
  fill(file, {50, 8, 5.3, 14}, {0.1, 0.05, 0.05});  // over half of the third
  Image16 spotted = file;
  for (int i = 0; i < 12; ++i)  // a grid of spots over a third of the fourth
    for (int j = 0; j < 12; ++j) fill(spotted, {70 + 0.9 * i, 10 + 0.9 * j, 0.52, 0.52}, {0.8, 0.8, 0.8});
  const Photo photo(std::move(spotted), {}, {}, "bad.png");
  const SheetSamples samples = sample_sheet(photo, chart, upright(10), {});
  ASSERT_TRUE(samples.patches[0].dropped && samples.patches[1].dropped && samples.patches[2].dropped &&
              samples.patches[3].dropped);
  EXPECT_THAT(*samples.patches[0].dropped, StartsWith("clipped"));
  EXPECT_GT(samples.patches[0].clipped_share, 0.02);
  EXPECT_THAT(*samples.patches[1].dropped, StartsWith("too dark"));
  EXPECT_THAT(*samples.patches[2].dropped,
              testing::AnyOf(StartsWith("partly covered"), StartsWith("uneven")));
  EXPECT_THAT(*samples.patches[3].dropped,
              testing::AnyOf(StartsWith("partly covered"), StartsWith("uneven")));
}

TEST(SampleSheet, LinearPhotosClipLaterAndAreNeverTooDark) {
  const auto chart = four_patches();
  const std::vector<Vector3> colors = {{0.994, 0.5, 0.5}, {0.004, 0.1, 0.1}, {1, 0.5, 0.5}, {0.5, 0.5, 0.5}};
  const Image16 file = picture(chart, colors, paper_color, 0.0005, 64);
  const SheetSamples linear = sample_sheet(Photo(file, linear_encoding(), {}, "raw"), chart, upright(10), {});
  EXPECT_FALSE(linear.patches[0].dropped);
  EXPECT_FALSE(linear.patches[1].dropped);
  EXPECT_TRUE(linear.patches[2].dropped);
  const SheetSamples shown = sample_sheet(Photo(file, {}, {}, "jpeg"), chart, upright(10), {});
  EXPECT_TRUE(shown.patches[0].dropped);
  EXPECT_TRUE(shown.patches[1].dropped);
}

TEST(SampleSheet, PatchesOutsideThePhotoAreSaidToBe) {
  const auto chart = four_patches();
  const Photo photo(picture(chart, four_colors, paper_color, 0.01, 65), {}, {}, "four.png");
  Placement shifted = upright(10, -720);
  const SheetSamples samples = sample_sheet(photo, chart, shifted, {});
  for (std::size_t i = 0; i < 3; ++i) {
    ASSERT_TRUE(samples.patches[i].dropped);
    EXPECT_EQ(*samples.patches[i].dropped, "outside the photo");
  }
  // Nothing sensible at all: no crash, nothing kept.
  Placement nowhere;
  nowhere.homography = Matrix3{{0, 0, 0, 0, 0, 0, 0, 0, 0}};
  const SheetSamples none = sample_sheet(photo, chart, nowhere, {});
  for (const PatchSample& s : none.patches) EXPECT_TRUE(s.dropped);
  EXPECT_TRUE(none.paper.empty());
  Placement huge = upright(1e7);
  for (const PatchSample& s : sample_sheet(photo, chart, huge, {}).patches) EXPECT_TRUE(s.dropped);
}

TEST(SampleSheet, TurnedSheetsAreSampledInsideTheirPatches) {
  // Every pixel used must carry the patch's colour: no border, no paper.
  const auto& chart = test::small_frame();
  const auto sheet = test::printed(chart);
  RandomStance random(66);
  double worst = 0;
  for (int trial = 0; trial < 10; ++trial) {
    test::Stance stance;
    stance.width_px = 1400;
    stance.height_px = 1050;
    stance.tilt_deg = random.uniform(0, 30);
    stance.tilt_towards_deg = random.uniform(0, 360);
    stance.rotation_deg = random.uniform(0, 360);
    stance.radial = random.uniform(-0.03, 0.03);
    const test::Camera camera(chart, stance);
    test::Look look;
    look.noise_sd = 0.002;
    look.light_slope = 0;
    look.blur_px = 0.8;
    const Photo photo = test::photograph(sheet, camera, look);
    for (const PatchSample& s : sample_sheet(photo, chart, camera.placement(), {}).patches) {
      const Patch& patch = chart.patches[s.patch];
      const PointPx middle = camera.placement().px_from_mm(patch.place.centre());
      const Vector3 there =
          photo.encoded_at(static_cast<int>(std::lround(middle.x)), static_cast<int>(std::lround(middle.y)));
      for (std::size_t k = 0; k < 3; ++k) {
        if (s.dropped) continue;
        worst = std::max(worst, s.noise_sd[k]);
        EXPECT_NEAR(s.encoded[k], there[k], 0.012) << patch.id;  // one pixel's noise and rounding
      }
    }
  }
  std::printf("seed 66: largest standard deviation inside a patch %.4f\n", worst);
  EXPECT_LT(worst, 0.006);  // noise 0.002 and 8-bit steps 0.0011; a border would bring 0.05
}

}  // namespace
}  // namespace colorlib
