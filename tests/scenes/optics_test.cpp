#include "tests/scenes/optics.hpp"

#include <gmock/gmock.h>

#include <cmath>

#include "tests/scenes/light_field.hpp"
#include "tests/scenes/published_spectra.hpp"
#include "tests/scenes/view.hpp"

namespace colorlib::scenes {
namespace {

TEST(SceneOptics, BlurKeepsLightAndHasItsWidth) {
  ImageF image(41, 41, 1);
  *image.at(20, 20) = 1;
  blur(image, 1.1);
  double sum = 0, spread = 0;
  for (int r = 0; r < 41; ++r)
    for (int c = 0; c < 41; ++c) {
      sum += *image.at(r, c);
      spread += *image.at(r, c) * (c - 20) * (c - 20);
    }
  EXPECT_NEAR(sum, 1, 1e-5);
  // The pixel's own width adds 1/12; the tail beyond 3 sd is cut.
  EXPECT_NEAR(spread, 1.1 * 1.1 + 1.0 / 12, 0.05);
}

TEST(SceneOptics, BlurLeavesFlatPicturesAlone) {
  ImageF image(20, 31, 3);
  for (float& v : image.data) v = 0.4f;
  blur(image, 0.9);
  for (float v : image.data) EXPECT_NEAR(v, 0.4, 1e-6);
}

TEST(SceneOptics, NoiseHasShotAndReadParts) {
  ImageF image(400, 500, 3);
  for (float& v : image.data) v = 0.25f;
  Random random(9);
  add_sensor_noise(image, 10000, 8, random);
  double sum = 0, square = 0;
  for (float v : image.data) sum += v, square += (v - 0.25) * (v - 0.25);
  const double n = static_cast<double>(image.data.size());
  EXPECT_NEAR(sum / n, 0.25, 1e-4);
  EXPECT_NEAR(square / n / (0.25 / 1e4 + 8.0 * 8.0 / 1e8), 1, 0.01);
}

TEST(SceneView, PixelsAndMillimetresAreInverse) {
  Random random(21);
  double worst = 0;
  constexpr int views = 300;
  for (int i = 0; i < views; ++i) {
    ViewSettings v;
    v.tilt_deg = random.uniform(0, 30);
    v.tilt_direction_deg = random.uniform(0, 360);
    v.rotation_deg = random.uniform(0, 360);
    v.distortion = random.uniform(-0.03, 0.03);
    v.distortion_fifth = random.normal(0, 0.002);
    v.decentring_px = random.normal(0, 6);
    CurlSettings curl;
    if (i % 3 == 0) {
      curl.sag_mm = random.uniform(1, 6);
      curl.axis_deg = random.uniform(-90, 90);
      curl.edges_up = random.chance(0.5);
    }
    const View view(v, curl, 210, 148);
    for (int k = 0; k < 20; ++k) {
      const double x = random.uniform(0, 210), y = random.uniform(0, 148);
      const PointPx p = view.px_from_mm({x, y});
      const PointMm back = view.mm_from_px(p);
      worst = std::max({worst, std::abs(back.x - x), std::abs(back.y - y)});
      EXPECT_TRUE(p.x >= 0 && p.y >= 0 && p.x <= v.width_px - 1 && p.y <= v.height_px - 1);
    }
  }
  std::printf("%d views, seed 21: worst round trip %.2e mm\n", views, worst);
  EXPECT_LE(worst, 1e-6);
}

TEST(SceneView, IsNotMirrored) {
  ViewSettings v;
  v.rotation_deg = 0;
  v.tilt_deg = 20;
  for (double lean = 0; lean < 360; lean += 45) {
    v.tilt_direction_deg = lean;
    const View view(v, {}, 210, 148);
    const PointPx tl = view.px_from_mm({0, 0}), tr = view.px_from_mm({210, 0}),
                  br = view.px_from_mm({210, 148});
    const double cross = (tr.x - tl.x) * (br.y - tr.y) - (tr.y - tl.y) * (br.x - tr.x);
    EXPECT_GT(cross, 0) << lean;
    EXPECT_GT(tr.x, tl.x);
  }
}

TEST(SceneView, CurlKeepsLengths) {
  CurlSettings curl;
  curl.sag_mm = 5;
  const View view({}, curl, 210, 148);
  double length = 0;
  for (int i = 0; i < 2100; ++i) {
    const Point3 d = view.surface_point({(i + 1) * 0.1, 70}) - view.surface_point({i * 0.1, 70});
    length += std::sqrt(dot(d, d));
  }
  EXPECT_NEAR(length, 210, 1e-4);
  EXPECT_NEAR(view.surface_point({0, 70}).z, 5, 0.02);  // the sag itself, to third order
}

TEST(SceneLightField, FollowsDistanceAndCosine) {
  LightSettings light;
  light.place = {0, 0, 500};
  light.width_mm = 1;
  light.even_share = 0;
  const LightField field(light, 200, 100);
  EXPECT_NEAR(field.at({100, 50, 0}, {0, 0, 1}), 1, 1e-9);
  // A small Lambertian source facing down: cos^4 off the axis; 30 mm nearer: (500 / 470)^2.
  const double cosine = 500 / std::hypot(500.0, 300.0);
  EXPECT_NEAR(field.at({400, 50, 0}, {0, 0, 1}), std::pow(cosine, 4), 1e-4);
  EXPECT_NEAR(field.at({100, 50, 30}, {0, 0, 1}), 500.0 * 500 / (470 * 470), 1e-4);
}

}  // namespace
}  // namespace colorlib::scenes
