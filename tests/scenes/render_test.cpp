#include <gmock/gmock.h>

#include <cmath>
#include <set>

#include <colorlib/image/decode.hpp>

#include "tests/scenes/charts.hpp"
#include "tests/scenes/published_spectra.hpp"
#include "tests/scenes/scenario.hpp"
#include "tests/scenes/scene.hpp"
#include "tests/scenes/scene_picture.hpp"
#include "tests/scenes/sheet_colors.hpp"
#include "tests/support/color_matchers.hpp"

extern "C" {
#include <apriltag/apriltag.h>
#include <apriltag/tag36h11.h>
}

namespace colorlib::scenes {
namespace {

/// Mean linear sensor value over an ellipse of the sheet, and how many pixels.
struct MeanValue {
  Vector3 mean{};
  int pixels = 0;
};
MeanValue mean_over(const Scene& scene, const EllipseShape& e) {
  const auto& image = std::get<Image16>(scene.photo.store());
  MeanValue m;
  const PointPx centre = scene.view.px_from_mm({e.x, e.y});
  const PointPx beside = scene.view.px_from_mm({e.x + std::max(e.radius_x, e.radius_y), e.y});
  // Twice the radius in px holds the ellipse at any tilt used here.
  const int reach = 2 + static_cast<int>(2 * std::hypot(beside.x - centre.x, beside.y - centre.y));
  const int left = std::max(0, static_cast<int>(centre.x) - reach),
            right = std::min(image.columns, static_cast<int>(centre.x) + reach);
  const int top = std::max(0, static_cast<int>(centre.y) - reach),
            bottom = std::min(image.rows, static_cast<int>(centre.y) + reach);
  for (int row = top; row < bottom; ++row)
    for (int column = left; column < right; ++column) {
      const PointMm p = scene.view.mm_from_px({double(column), double(row)});
      if (std::hypot((p.x - e.x) / e.radius_x, (p.y - e.y) / e.radius_y) > 1) continue;
      for (std::size_t k = 0; k < 3; ++k) m.mean[k] += image.at(row, column)[k] / 65535.0;
      ++m.pixels;
    }
  for (double& v : m.mean) v /= std::max(1, m.pixels);
  return m;
}

/// A small, quick scene: 800 x 600.
SceneSettings small_scene(Condition condition, std::uint64_t seed, Pool pool = Pool::tuning) {
  SceneSettings s = random_scene(condition, seed, pool);
  set_picture_width(s, 800);
  s.view.tilt_deg = std::min(s.view.tilt_deg, 15.0);
  return s;
}

/// A perfect colorimeter: the observer's own curves as camera, even D50, nothing that disturbs.
SceneSettings colorimeter_scene(std::uint64_t seed) {
  SceneSettings s = small_scene(Condition::daylight_linear, seed);
  s.camera = {"observer", observer_1931()};
  LightSettings light;
  light.color = {"D50", illuminant("D50"), 1.0};
  light.shape = LightShape::sky;
  s.lights = {light};
  s.sensor.vignetting = 0;
  s.sensor.flare = 0;
  s.sensor.black_offset = 0;
  s.sensor.full_well = 1e9;
  s.sensor.read_noise = 0;
  for (SpecimenSettings& specimen : s.specimens) specimen.gloss = 0;
  return s;
}

TEST(SceneRender, ColorimeterSeesTheTruth) {
  const ChartDefinition chart = small_frame_chart();
  double worst = 0;
  int readings = 0;
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    const SceneSettings s = colorimeter_scene(seed);
    const Scene scene = render(s, chart);
    // The gain from the bare paper, whose Lab is known.
    const MeanValue paper = mean_over(scene, {36, 28, 2.5, 2.5});
    const Xyz paper_xyz = xyz_of(scene.true_paper, white_d50);
    const Vector3 scale{paper_xyz.x / paper.mean[0], paper_xyz.y / paper.mean[1],
                        paper_xyz.z / paper.mean[2]};
    const auto reading = [&](const EllipseShape& e) {
      const Vector3 m = mean_over(scene, e).mean;
      return lab_of({scale[0] * m[0], scale[1] * m[1], scale[2] * m[2]}, white_d50);
    };
    for (std::size_t i = 0; i < chart.patches.size(); i += 3) {
      const PointMm c = chart.patches[i].place.centre();
      const double d = de00(reading({c.x, c.y, 3, 3}), scene.true_patches[i]);
      worst = std::max(worst, d), ++readings;
      EXPECT_LE(d, 0.25) << chart.patches[i].id;
    }
    for (const SpecimenTruth& truth : scene.specimens) {
      const double d = de00(reading(std::get<EllipseShape>(truth.region.shape)), truth.as_seen);
      worst = std::max(worst, d), ++readings;
      // Texture sampled by few pixels and the region's edge: a quarter of a unit.
      EXPECT_LE(d, 0.25) << truth.id << ' ' << truth.pigment_family;
    }
  }
  std::printf("6 scenes, seeds 1-6: %d readings of a colorimeter, worst dE00 from truth %.3f\n", readings,
              worst);
}

TEST(SceneRender, PatchMeansFollowTheSpectra) {
  const ChartDefinition chart = small_frame_chart();
  double worst = 0;
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    SceneSettings s = small_scene(Condition::lamp_linear, seed);
    s.sensor.flare = s.sensor.black_offset = 0;
    const Scene scene = render(s, chart);
    const SheetColors sheet = print_sheet(s, chart);
    const Vector3 paper_response = camera_response(s.camera, sheet.paper, s.lights[0].color.power);
    for (std::size_t i = 0; i < chart.patches.size(); ++i) {
      const PointMm c = chart.patches[i].place.centre();
      const MeanValue seen = mean_over(scene, {c.x, c.y, 2.5, 2.5});
      const Vector3 response = camera_response(s.camera, sheet.patches[i], s.lights[0].color.power);
      const PointPx p = scene.view.px_from_mm(c);
      const float* paper =
          scene.paper_light.at(static_cast<int>(p.y / 8 + 0.5), static_cast<int>(p.x / 8 + 0.5));
      for (std::size_t k = 0; k < 3; ++k) {
        const double predicted = paper[k] * response[k] / paper_response[k];
        const double noise = std::sqrt(
            (predicted / s.sensor.full_well + std::pow(s.sensor.read_noise / s.sensor.full_well, 2)) /
            seen.pixels);
        // The nearest node of the light lies up to 6 px away: 2 % of the field's slope; paper grain of 0.4 %.
        EXPECT_NEAR(seen.mean[k], predicted, 5 * noise + 0.02 * predicted + 2e-5) << chart.patches[i].id;
        worst = std::max(worst, std::abs(seen.mean[k] / predicted - 1));
      }
    }
  }
  std::printf("4 scenes: worst relative error of a patch mean %.4f\n", worst);
}

TEST(SceneRender, MarkersAreFoundAtTheirTruePlaces) {
  const ChartDefinition chart = small_frame_chart();
  apriltag_detector_t* detector = apriltag_detector_create();
  apriltag_family_t* family = tag36h11_create();
  apriltag_detector_add_family_bits(detector, family, 1);
  detector->quad_decimate = 1;
  int found = 0, expected = 0;
  double worst = 0, square = 0;
  for (std::uint64_t seed = 1; seed <= 8; ++seed) {
    SceneSettings s = random_scene(Condition::daylight_linear, seed);
    const Scene scene = render(s, chart);
    const auto& image = std::get<Image16>(scene.photo.store());
    std::vector<std::uint8_t> grey(static_cast<std::size_t>(image.rows) *
                                   static_cast<std::size_t>(image.columns));
    for (std::size_t i = 0; i < grey.size(); ++i)
      grey[i] = static_cast<std::uint8_t>(image.data[3 * i + 1] >> 8);
    image_u8_t view{image.columns, image.rows, image.columns, grey.data()};
    zarray_t* finds = apriltag_detector_detect(detector, &view);
    expected += static_cast<int>(chart.markers.size());
    for (int i = 0; i < zarray_size(finds); ++i) {
      apriltag_detection_t* find = nullptr;
      zarray_get(finds, i, &find);
      for (const Marker& marker : chart.markers) {
        if (marker.id != find->id) continue;
        ++found;
        // The library's corners start bottom-left and run against ours; its pixel edges are 0.5 off our
        // centres.
        const PointMm corners[4] = {{marker.x_mm, marker.y_mm + marker.side_mm},
                                    {marker.x_mm + marker.side_mm, marker.y_mm + marker.side_mm},
                                    {marker.x_mm + marker.side_mm, marker.y_mm},
                                    {marker.x_mm, marker.y_mm}};
        for (int c = 0; c < 4; ++c) {
          const PointPx truth = scene.view.px_from_mm(corners[c]);
          const double d = std::hypot(find->p[c][0] - 0.5 - truth.x, find->p[c][1] - 0.5 - truth.y);
          worst = std::max(worst, d);
          square += d * d;
          EXPECT_LE(d, 0.5) << "seed " << seed << " marker " << marker.id << " corner " << c;
        }
      }
    }
    apriltag_detections_destroy(finds);
  }
  std::printf("8 scenes, seeds 1-8: %d of %d markers; corners rms %.3f px, worst %.3f px\n", found, expected,
              std::sqrt(square / (4 * std::max(1, found))), worst);
  EXPECT_EQ(found, expected);
  apriltag_detector_destroy(detector);
  tag36h11_destroy(family);
}

TEST(SceneRender, ThinLayerHasTheWorkedColors) {
  // A flat white powder, Rinf 0.83, SX 0.5 over 0.04 and 0.85: L* 65.6 and 93.7, contrast ratio 41.2 %
  // (computed independently).
  SceneSettings s = colorimeter_scene(3);
  SpecimenSettings film;
  film.pigment.masstone = constant_spectrum(0.83);
  film.pigment.ratio = constant_spectrum(0.17 * 0.17 / 1.66);
  film.pigment.masstone_lab = lab_d50(film.pigment.masstone);
  film.thickness = 0.5;
  film.thickness_spread = 0;
  film.scattering_exponent = 0;
  film.grain = 0;
  film.radius_mm = 9;
  s.specimens = {film};
  s.substrate = Substrate::half_black_half_white;
  const Scene scene = render(s, small_frame_chart());
  ASSERT_EQ(scene.specimens.size(), 2u);
  EXPECT_NEAR(scene.specimens[0].contrast_ratio, 0.412, 5e-4);
  EXPECT_NEAR(scene.specimens[0].masstone->l, 93.0, 0.05);
  // The scene's own grounds are near these backings, not equal: 0.042 and 0.86.
  EXPECT_NEAR(scene.specimens[0].as_seen.l, 65.6, 0.3);
  EXPECT_NEAR(scene.specimens[1].as_seen.l, 93.7, 0.5);
}

TEST(SceneRender, SameSettingsSamePhotograph) {
  const ChartDefinition chart = small_frame_chart();
  const SceneSettings s = small_scene(Condition::foil_phone, 4);
  const Scene a = render(s, chart), b = render(s, chart);
  EXPECT_EQ(a.jpeg_bytes, b.jpeg_bytes);
  EXPECT_EQ(truth_text(s, a, chart), truth_text(s, b, chart));
  EXPECT_EQ(reference_text(a, chart), reference_text(b, chart));
  const SceneSettings other = small_scene(Condition::foil_phone, 5);
  EXPECT_NE(render(other, chart).jpeg_bytes, a.jpeg_bytes);
}

TEST(SceneRender, AnotherPhotographOfTheSameThings) {
  const ChartDefinition chart = small_frame_chart();
  SceneSettings s = small_scene(Condition::daylight_phone, 6);
  const Scene a = render(s, chart);
  s.photo_seed += 1;
  s.view.tilt_deg += 5;
  s.camera = cameras(Pool::tuning)[0];
  const Scene b = render(s, chart);
  ASSERT_EQ(a.specimens.size(), b.specimens.size());
  for (std::size_t i = 0; i < a.specimens.size(); ++i)
    EXPECT_EQ(a.specimens[i].as_seen, b.specimens[i].as_seen);
  EXPECT_EQ(reference_text(a, chart), reference_text(b, chart));
  EXPECT_NE(a.jpeg_bytes, b.jpeg_bytes);
}

TEST(SceneRender, EveryConditionInBothPools) {
  const ChartDefinition frame = small_frame_chart(), grid = grid_chart();
  for (const Condition condition : all_conditions())
    for (const Pool pool : {Pool::tuning, Pool::held_out}) {
      const ChartDefinition& chart = condition == Condition::grid_unmarked ? grid : frame;
      SceneSettings s = small_scene(condition, 2, pool);
      s.glint_truth = true;
      const Scene scene = render(s, chart);
      SCOPED_TRACE(s.name);
      EXPECT_EQ(scene.photo.width_px(), 800);
      EXPECT_EQ(scene.jpeg_bytes.empty(), s.linear);
      EXPECT_GE(scene.specimens.size(), 4u);
      std::set<std::string> ids;
      for (const SpecimenTruth& t : scene.specimens) {
        EXPECT_TRUE(ids.insert(t.id).second);
        const auto& e = std::get<EllipseShape>(t.region.shape);
        const RectangleMm& w = chart.windows[0].place;
        EXPECT_TRUE(w.contains({e.x - e.radius_x, e.y - e.radius_y}) &&
                    w.contains({e.x + e.radius_x, e.y + e.radius_y}));
        EXPECT_GT(t.as_seen.l, 2);
        EXPECT_LT(t.as_seen.l, 100);
        EXPECT_GE(t.contrast_ratio, 0.03);
        EXPECT_LE(t.contrast_ratio, 1.0001);
      }
      if (condition == Condition::foil_phone || condition == Condition::foil_linear) {
        EXPECT_FALSE(scene.glint_mask.empty());
        EXPECT_GT(std::count(scene.glint_mask.data.begin(), scene.glint_mask.data.end(), 255), 1000);
      }
      // The paper is exposed as set: well below clipping on the whole.
      double paper_top = 0;
      for (float v : scene.paper_light.data) paper_top = std::max(paper_top, double(v));
      EXPECT_LE(paper_top, 1.3);
    }
}

TEST(SceneRender, PhonesFileIsWhatThePhotoShows) {
  const ChartDefinition chart = small_frame_chart();
  const ScenarioItem& item = scenario_item("QH-03");
  SceneSettings s = scenario_scene(item, Condition::daylight_phone, 3, chart);
  set_picture_width(s, 800);
  const Scene scene = render(s, chart);
  const auto decoded = decode_photo(scene.jpeg_bytes, "scene.jpg");
  ASSERT_TRUE(decoded) << decoded.error().message;
  EXPECT_EQ(decoded->width_px(), 800);
  ASSERT_TRUE(decoded->capture().captured);
  EXPECT_EQ(decoded->capture().captured->iso8601().substr(0, 10), "2031-10-05");
  EXPECT_EQ(decoded->capture().captured->zone_offset_minutes, 120);
  EXPECT_NEAR(decoded->capture().exposure_s.value_or(0), 1.0 / 120, 1e-6);
  // An opaque deposit shows its thick-layer colour but for texture and, over the whole, the bare spot of the
  // stem.
  ASSERT_EQ(scene.specimens.size(), 2u);
  EXPECT_THAT(scene.specimens[0].as_seen, NearInDeltaE(lab_d50_from_d65(item.lab_d65), 0.6));
  EXPECT_THAT(scene.specimens[1].covered_mean, NearInDeltaE(lab_d50_from_d65(item.lab_d65), 0.6));
}

TEST(SceneRender, LinearPhotosTravelAsDng) {
  const ChartDefinition chart = small_frame_chart();
  SceneSettings s = small_scene(Condition::daylight_linear, 3);
  const Scene scene = render(s, chart);
  const auto& truth = std::get<Image16>(scene.photo.store());
  const auto decoded = decode_photo(dng_of(s, scene, false), "scene.dng");
  ASSERT_TRUE(decoded) << decoded.error().message;
  ASSERT_EQ(decoded->encoding().kind, EncodingKind::linear_sensor);
  ASSERT_EQ(decoded->width_px(), truth.columns);
  const ImageF values = decoded->encoded({0, 0, truth.columns, truth.rows});
  double worst = 0;
  for (std::size_t i = 0; i < values.data.size(); i += 7)
    worst = std::max(worst, std::abs(double(values.data[i]) - truth.data[i] / 65535.0));
  std::printf("linear DNG: worst value error %.1e\n", worst);
  EXPECT_LE(worst, 1e-4);  // one step of LibRaw's 16-bit scaling and a half
  // A neutral looks neutral as shot.
  const Matrix3 &made = decoded->encoding().native_to_srgb, &meant = scene.photo.encoding().native_to_srgb;
  const Vector3 white = made * (inverse(meant) * Vector3{1, 1, 1});
  EXPECT_NEAR(white[0] / white[1], 1, 0.02);
  EXPECT_NEAR(white[2] / white[1], 1, 0.02);
  const auto& said = decoded->encoding().daylight_white;
  ASSERT_TRUE(said);
  for (const std::size_t k : {0u, 2u})
    EXPECT_NEAR((*said)[k], (*scene.photo.encoding().daylight_white)[k], 2e-3);
  EXPECT_TRUE(decode_photo(dng_of(s, scene, true), "mosaic.dng"));
}

TEST(SceneRender, SecondSheetLiesWhereItShould) {
  SceneSettings s = colorimeter_scene(5);
  s.specimens.clear();
  SecondSheet second;
  second.chart = grid_chart();
  second.sheet = s.sheet;
  second.seed = 99;
  second.x_mm = 10;
  second.y_mm = 150;
  second.rotation_deg = 3;
  s.second = second;
  const Scene scene = render(s, small_frame_chart());
  ASSERT_EQ(scene.second_true_patches.size(), second.chart.patches.size());
  const MeanValue paper = mean_over(scene, {36, 28, 2.5, 2.5});
  const Xyz paper_xyz = xyz_of(scene.true_paper, white_d50);
  double worst = 0;
  for (std::size_t i = 0; i < second.chart.patches.size(); ++i) {
    const PointMm place = first_from_second(second, second.chart.patches[i].place.centre());
    const Vector3 m = mean_over(scene, {place.x, place.y, 2.5, 2.5}).mean;
    const Lab seen = lab_of({paper_xyz.x * m[0] / paper.mean[0], paper_xyz.y * m[1] / paper.mean[1],
                             paper_xyz.z * m[2] / paper.mean[2]},
                            white_d50);
    worst = std::max(worst, de00(seen, scene.second_true_patches[i]));
  }
  std::printf("second sheet: worst dE00 of a patch %.3f\n", worst);
  EXPECT_LE(worst, 0.35);  // few pixels a patch at this size, paper grain
  for (const auto& corner : scene.second_corners_px) {
    EXPECT_GE(corner.x, 0);
    EXPECT_LE(corner.x, 799);
    EXPECT_GE(corner.y, 0);
    EXPECT_LE(corner.y, 599);
  }
}

TEST(SceneRender, ChartWithoutWindowGetsACardBesideIt) {
  ChartDefinition strip = small_frame_chart();
  strip.windows.clear();
  const Scene scene = render(small_scene(Condition::daylight_phone, 2), strip);
  ASSERT_EQ(scene.specimens.size(), 6u);
  for (const SpecimenTruth& t : scene.specimens)
    EXPECT_GT(std::get<EllipseShape>(t.region.shape).y, strip.height_mm);
}

TEST(SceneRender, ReferenceTextIsReadBack) {
  const ChartDefinition chart = small_frame_chart();
  const Scene scene = render(small_scene(Condition::daylight_phone, 1), chart);
  const auto read = parse_reference(reference_text(scene, chart), "scene.txt", chart);
  ASSERT_TRUE(read) << read.error().message;
  ASSERT_EQ(read->patches.size(), chart.patches.size());
  for (std::size_t i = 0; i < chart.patches.size(); ++i) {
    EXPECT_EQ(read->patches[i].id, chart.patches[i].id);
    EXPECT_NEAR(read->patches[i].lab.l, scene.reference.patches[i].lab.l, 6e-4);
    EXPECT_NEAR(read->patches[i].standard_uncertainty[0], 0.2, 1e-9);
  }
}

}  // namespace
}  // namespace colorlib::scenes
