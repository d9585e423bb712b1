#include <algorithm>
#include <cmath>
#include <colorlib/image/decode.hpp>
#include <stdexcept>

#include "tests/scenes/exposure.hpp"
#include "tests/scenes/optics.hpp"
#include "tests/scenes/published_spectra.hpp"
#include "tests/scenes/scene.hpp"
#include "tests/scenes/scene_geometry.hpp"
#include "tests/scenes/scene_planes.hpp"
#include "tests/scenes/scene_truth.hpp"
#include "tests/scenes/specimen_surface.hpp"

namespace colorlib::scenes {
namespace {

class Renderer {
 public:
  Renderer(const SceneSettings& settings, const ChartDefinition& chart);
  Scene run();

 private:
  void expose();
  void fill_palettes();
  Rgb flat_color(float x, float y, const float (&derivative)[4], const float* light,
                 std::uint16_t& material) const;
  void paint_row(int row, ImageF& picture, ImageF* matt) const;
  Rgb under(const LitColor& colors, const float* light) const {
    Rgb sum;
    for (std::size_t l = 0; l < lights_.size(); ++l) sum.add(light[l], colors[l]);
    return sum;
  }
  bool has_glints() const;
  std::size_t zone_of(std::uint16_t material) const;
  Image8 glint_mask(const ImageF& picture, const ImageF& matt) const;
  void fill_paper_light(Scene& scene) const;

  const SceneSettings& settings_;
  std::vector<Spectrum> lights_;  ///< Y = 1
  std::vector<Plane> planes_;     ///< the sheet, and the second one if there is one
  View view_;
  std::vector<LightField> fields_;
  NodeGrid nodes_;
  std::vector<Ground> grounds_;  ///< window, window_right, then backings
  std::vector<SpecimenSurface> specimens_;
  FoilSurface foil_;
  LitColor white_;  ///< perfect diffuser: gloss and glints take the light's colour
  double gain_ = 1;
  NoisePlace paper_grain_, table_grain_, soil_;
  double soil_level_ = 99;
};

std::vector<LightField> fields_of(const SceneSettings& s, const ChartDefinition& chart) {
  if (s.lights.empty() || s.lights.size() > 2) throw std::runtime_error("a scene has one or two lights");
  std::vector<LightField> fields;
  for (const LightSettings& light : s.lights) fields.emplace_back(light, chart.width_mm, chart.height_mm);
  return fields;
}

Spectrum card(double level) {
  return spectrum_of(
      [=](double nm) { return level * (1 - 0.05 * step_up(-nm, -430, 18) + 0.015 * (nm - 560) / 220); });
}

NoisePlace noise_place(std::uint64_t seed, std::uint64_t stream) {
  Random random(seed, stream);
  return NoisePlace(random);
}

Renderer::Renderer(const SceneSettings& settings, const ChartDefinition& chart)
    : settings_(settings),
      lights_(unit_lights(settings)),
      planes_(planes_of(settings, chart)),
      view_(settings.view, settings.sheet.curl, chart.width_mm, chart.height_mm, extent_of(planes_)),
      fields_(fields_of(settings, chart)),
      nodes_(view_, fields_, settings.sensor.vignetting),
      foil_(Random(settings.seed, 41)),
      paper_grain_(noise_place(settings.seed, 42)),
      table_grain_(noise_place(settings.seed, 43)),
      soil_(noise_place(settings.seed, 44)) {
  if (settings.sheet.soil_share > 0) soil_level_ = normal_quantile(1 - settings.sheet.soil_share);

  switch (settings.substrate) {
    case Substrate::card_white:
      grounds_ = {{card(0.86), false}};
      break;
    case Substrate::card_grey:
      grounds_ = {{card(0.34), false}};
      break;
    case Substrate::card_black:
      grounds_ = {{card(0.042), false}};
      break;
    case Substrate::foil:
      grounds_ = {{FoilSurface::reflectance(), true}};
      break;
    case Substrate::half_black_half_white:
      grounds_ = {{card(0.042), false}};
      break;
  }
  grounds_.push_back(settings.substrate == Substrate::half_black_half_white ? Ground{card(0.86), false}
                                                                            : grounds_[0]);
  for (const Spectrum& backing : planes_[0].colors.backings) grounds_.push_back({backing, false});

  const auto places = specimen_places(settings, planes_[0].chart);
  for (std::size_t i = 0; i < places.size(); ++i) {
    specimens_.emplace_back(settings.specimens[i], places[i], grounds_, settings.camera, lights_,
                            Random(settings.seed, 500 + i));
    planes_[0].map.mark_specimen(static_cast<int>(i), places[i].x, places[i].y, specimens_.back().reach_mm());
  }
  expose();
  fill_palettes();
}

/// Sets the gain so that the brightest paper (98 % quantile over the sheet, brightest channel) reads
/// `paper_level`: of the sensor for linear photos, after balance and matrix for phones.
void Renderer::expose() {
  std::vector<double> levels;
  std::array<Vector3, 2> paper;
  const Matrix3 finishing = settings_.linear ? Matrix3::identity() : balance_of(settings_).whole();
  for (std::size_t l = 0; l < lights_.size(); ++l)
    paper[l] = finishing * camera_response(settings_.camera, constant_spectrum(1),
                                           leaving_light(planes_[0].colors.paper, settings_.sheet.paper,
                                                         settings_.lights[l].color));
  for (int row = 0; row < nodes_.rows(); ++row)
    for (int column = 0; column < nodes_.columns(); ++column) {
      const auto& node = nodes_.node(row, column);
      if (node.x_mm < 0 || node.y_mm < 0 || node.x_mm > planes_[0].chart.width_mm ||
          node.y_mm > planes_[0].chart.height_mm)
        continue;
      double level = 0;
      for (std::size_t k = 0; k < 3; ++k) {
        double v = 0;
        for (std::size_t l = 0; l < lights_.size(); ++l) v += node.light[l] * paper[l][k];
        level = std::max(level, v);
      }
      levels.push_back(level);
    }
  if (levels.empty()) throw std::runtime_error("the sheet lies outside the frame");
  std::sort(levels.begin(), levels.end());
  gain_ = settings_.sensor.paper_level / levels[levels.size() * 98 / 100];
}

void Renderer::fill_palettes() {
  const auto both = [&](auto leaving) {
    LitColor colors;
    for (std::size_t l = 0; l < lights_.size(); ++l)
      colors[l] = rgb_from(camera_response(settings_.camera, constant_spectrum(1), leaving(l)), gain_);
    return colors;
  };
  const auto reflected = [&](const Spectrum& r) {
    return both([&](std::size_t l) { return r * lights_[l]; });
  };
  const Spectrum table = spectrum_of(
      [&](double nm) { return settings_.table_lightness * (0.07 + 0.30 * step_up(nm, 610, 60)); });
  for (Plane& plane : planes_) {
    const auto from_sheet = [&](const Spectrum& r) {
      return both(
          [&](std::size_t l) { return leaving_light(r, plane.settings.paper, settings_.lights[l].color); });
    };
    plane.material = {reflected(table), from_sheet(plane.colors.paper), from_sheet(plane.colors.marker_ink),
                      reflected(grounds_[0].reflectance), reflected(grounds_[1].reflectance)};
    for (const Spectrum& patch : plane.colors.patches) plane.material.push_back(from_sheet(patch));
    for (const Spectrum& backing : plane.colors.backings) plane.material.push_back(from_sheet(backing));
  }
  white_ = reflected(constant_spectrum(1));
}

bool Renderer::has_glints() const {
  return settings_.substrate == Substrate::foil ||
         std::any_of(settings_.specimens.begin(), settings_.specimens.end(),
                     [](const SpecimenSettings& s) { return s.gloss > 0; });
}

std::size_t Renderer::zone_of(std::uint16_t material) const {
  if (material == Material::window) return 0;
  if (material == Material::window_right) return 1;
  const std::size_t first = Material::first_patch + planes_[0].chart.patches.size();
  return material >= first && material < first + planes_[0].colors.backings.size() ? 2 + material - first : 0;
}

/// Colour of the sheets and the table before texture, edges averaged over the pixel; `derivative` is d(x,
/// y)/d(column, row). `material` is that of the pixel's middle on the first sheet (or paper, patch, ... of
/// the second).
Rgb Renderer::flat_color(float x, float y, const float (&derivative)[4], const float* light,
                         std::uint16_t& material) const {
  for (const Plane& plane : planes_) {
    const PointMm p = plane.local(x, y);
    material = plane.map.uniform_at(p.x, p.y);
    if (material == Material::table) continue;
    if (material != SheetMap::mixed) return under(plane.material[material], light);
    // An edge: 5 x 5 samples over the pixel's own parallelogram.
    Rgb color;
    constexpr int samples = 5;
    for (int i = 0; i < samples; ++i)
      for (int j = 0; j < samples; ++j) {
        const float sx = (static_cast<float>(j) + 0.5f) / samples - 0.5f,
                    sy = (static_cast<float>(i) + 0.5f) / samples - 0.5f;
        const PointMm q = plane.local(x + sx * derivative[0] + sy * derivative[2],
                                      y + sx * derivative[1] + sy * derivative[3]);
        color.add(1.0f / (samples * samples), under(plane.material[plane.map.exactly_at(q.x, q.y)], light));
      }
    material = plane.map.exactly_at(p.x, p.y);
    return color;
  }
  return under(planes_[0].material[Material::table], light);
}

/// `matt`, when asked for, becomes the same picture without any specular light: no gloss, no glints, and no
/// mirror of foil in a deposit's gaps.
void Renderer::paint_row(int row, ImageF& picture, ImageF* matt) const {
  constexpr int step = NodeGrid::step;
  const int node_row = row / step;
  const float ty = static_cast<float>(row % step) / step;
  float* out = picture.at(row, 0);
  float* matt_out = matt ? matt->at(row, 0) : nullptr;
  const std::size_t light_count = lights_.size();
  for (int column = 0; column < picture.columns; ++column, out += 3) {
    const int node_column = column / step;
    const float tx = static_cast<float>(column % step) / step;
    const auto &n00 = nodes_.node(node_row, node_column), &n01 = nodes_.node(node_row, node_column + 1),
               &n10 = nodes_.node(node_row + 1, node_column),
               &n11 = nodes_.node(node_row + 1, node_column + 1);
    const float w00 = (1 - tx) * (1 - ty), w01 = tx * (1 - ty), w10 = (1 - tx) * ty, w11 = tx * ty;
    const float x = w00 * n00.x_mm + w01 * n01.x_mm + w10 * n10.x_mm + w11 * n11.x_mm;
    const float y = w00 * n00.y_mm + w01 * n01.y_mm + w10 * n10.y_mm + w11 * n11.y_mm;
    float light[2] = {0, 0};
    for (std::size_t l = 0; l < light_count; ++l)
      light[l] = w00 * n00.light[l] + w01 * n01.light[l] + w10 * n10.light[l] + w11 * n11.light[l];

    const float derivative[4] = {((n01.x_mm - n00.x_mm) * (1 - ty) + (n11.x_mm - n10.x_mm) * ty) / step,
                                 ((n01.y_mm - n00.y_mm) * (1 - ty) + (n11.y_mm - n10.y_mm) * ty) / step,
                                 ((n10.x_mm - n00.x_mm) * (1 - tx) + (n11.x_mm - n01.x_mm) * tx) / step,
                                 ((n10.y_mm - n00.y_mm) * (1 - tx) + (n11.y_mm - n01.y_mm) * tx) / step};
    std::uint16_t material = Material::table;
    Rgb color = flat_color(x, y, derivative, light, material);
    const int specimen = planes_[0].map.specimen_at(x, y);
    float glint = 0;
    Rgb without = color;
    if (material == Material::table) {
      // Grain of wood: stretched noise.
      const float grain = 0.22f * smooth_noise().at(table_grain_.x + 0.35 * x, table_grain_.y + 3.2 * y) +
                          0.10f * fine_noise().at(table_grain_.x + 1.2 * x, table_grain_.y + 9.0 * y);
      // A sheet lies a little above the table and darkens it beside its edge.
      double nearest = 1e9;
      for (const Plane& plane : planes_) nearest = std::min(nearest, plane.distance_mm(x, y));
      const float contact = nearest < 6 ? 1 - 0.45f * static_cast<float>(std::exp(-nearest / 1.2)) : 1.0f;
      for (float& v : color.v) v *= contact * std::max(0.2f, 1 + grain);
    } else if (material == Material::window || material == Material::window_right) {
      if (grounds_[zone_of(material)].foil) {
        const FoilPoint f = foil_.at(x, y);
        for (float& v : color.v) v *= f.base;
        glint = f.glint;
        without = color;
      } else {
        const float grain = 1 + 0.012f * paper_grain_.of(fine_noise(), x, y, 4.0);
        for (float& v : color.v) v *= grain;
      }
    } else {
      float grain = 1 + 0.004f * paper_grain_.of(fine_noise(), x, y, 5.0);
      if (soil_level_ < 90) {
        const float s = soil_.of(smooth_noise(), x, y, 0.6);
        if (s > soil_level_) {
          const float dirt = std::min(0.35f, 0.25f * static_cast<float>(s - soil_level_));
          color.v[2] *= 1 - 0.6f * dirt;
          color.v[1] *= 1 - 0.25f * dirt;
          grain *= 1 - dirt;
        }
      }
      for (float& v : color.v) v *= grain;
    }
    if (specimen >= 0) {
      const SpecimenSurface& s = specimens_[static_cast<std::size_t>(specimen)];
      const SurfacePoint p = s.at(x, y);
      if (p.outline > 0) {
        float on_top[2] = {light[0], light[1]};
        const SpecimenSettings& set = s.settings();
        if (set.height_mm != 0 || set.slope_deg != 0) {
          // The piece stands `height` nearer to the camera along the line of sight, and leans.
          const Point3 base = view_.surface_point({x, y}), to_camera = view_.towards_camera(base);
          const Point3 place = base + (set.height_mm / to_camera.z) * to_camera;
          const double lean = set.slope_deg * 0.017453292519943295,
                       turn = set.slope_direction_deg * 0.017453292519943295;
          const Point3 normal{std::sin(lean) * std::cos(turn), std::sin(lean) * std::sin(turn),
                              std::cos(lean)};
          const float vignette =
              w00 * n00.vignette + w01 * n01.vignette + w10 * n10.vignette + w11 * n11.vignette;
          for (std::size_t l = 0; l < light_count; ++l)
            on_top[l] = vignette * static_cast<float>(fields_[l].at(place, normal));
        }
        const std::size_t zone = zone_of(material);
        Rgb body;
        for (std::size_t l = 0; l < light_count; ++l) {
          const Vector3 c = s.camera_rgb(zone, l, p.state);
          body.add(on_top[l] * p.grain * static_cast<float>(gain_), rgb_from(c, 1));
        }
        for (int k = 0; k < 3; ++k) {
          without.v[k] = color.v[k] + p.outline * (body.v[k] - color.v[k]);
          color.v[k] += p.cover * (body.v[k] - color.v[k]);
        }
        if (p.foreign > 0) {
          Rgb foreign;
          for (std::size_t l = 0; l < light_count; ++l)
            foreign.add(on_top[l] * static_cast<float>(gain_), rgb_from(s.foreign_rgb(p.smeared, l), 1));
          for (int k = 0; k < 3; ++k) color.v[k] += p.foreign * (foreign.v[k] - color.v[k]);
        }
        glint = glint * p.clear + p.specular * p.cover;
      }
    }
    if (glint > 0) color.add(glint, under(white_, light));
    for (int k = 0; k < 3; ++k) out[k] = color.v[k];
    if (matt_out) std::copy(without.v, without.v + 3, matt_out + 3 * column);
  }
}

Image8 Renderer::glint_mask(const ImageF& picture, const ImageF& matt) const {
  Image8 mask(picture.rows, picture.columns, 1);
  // Camera RGB relative to a white at the place -> Lab: accurate enough to say what 2 dE00 are.
  const Matrix3 matrix = maker_matrix(settings_.camera, lights_[0]);
  const auto lab_of_camera = [&](const Vector3& c) {
    const Vector3 rgb = matrix * c;
    const Xyz xyz{0.4124 * rgb[0] + 0.3576 * rgb[1] + 0.1805 * rgb[2],
                  0.2126 * rgb[0] + 0.7152 * rgb[1] + 0.0722 * rgb[2],
                  0.0193 * rgb[0] + 0.1192 * rgb[1] + 0.9505 * rgb[2]};
    return lab_of(xyz, white_d65);
  };
  for (int row = 0; row < picture.rows; ++row)
    for (int column = 0; column < picture.columns; ++column) {
      const float *p = picture.at(row, column), *m = matt.at(row, column);
      if (p[0] == m[0] && p[1] == m[1] && p[2] == m[2]) continue;
      const auto& node = nodes_.node(std::min(row / NodeGrid::step, nodes_.rows() - 1),
                                     std::min(column / NodeGrid::step, nodes_.columns() - 1));
      const Rgb white = under(white_, node.light);
      Vector3 with, without;
      for (int k = 0; k < 3; ++k) {
        const auto i = static_cast<std::size_t>(k);
        with[i] = p[k] / white.v[k];
        without[i] = m[k] / white.v[k];
      }
      if (de00(lab_of_camera(with), lab_of_camera(without)) > 2) *mask.at(row, column) = 255;
    }
  return mask;
}

void Renderer::fill_paper_light(Scene& scene) const {
  scene.paper_light = ImageF(nodes_.rows(), nodes_.columns(), 3);
  for (int row = 0; row < nodes_.rows(); ++row)
    for (int column = 0; column < nodes_.columns(); ++column) {
      const Rgb paper = under(planes_[0].material[Material::paper], nodes_.node(row, column).light);
      std::copy(paper.v, paper.v + 3, scene.paper_light.at(row, column));
    }
  scene.paper_shown = scene.paper_light;
  if (settings_.linear) return;
  const Balance balance = balance_of(settings_);
  DevelopmentSettings even = settings_.development;
  even.local_strength = 0;
  even.sharpening = 0;
  ImageF developed = scene.paper_light;
  develop(developed, balance.gains, balance.matrix, even);  // leaves the unrounded values in its input
  scene.paper_shown = std::move(developed);
}

Scene Renderer::run() {
  const ViewSettings& v = settings_.view;
  ImageF picture(v.height_px, v.width_px, 3);
  ImageF matt;
  if (settings_.glint_truth && has_glints()) matt = ImageF(v.height_px, v.width_px, 3);
  for (int row = 0; row < picture.rows; ++row) paint_row(row, picture, matt.empty() ? nullptr : &matt);

  blur(picture, settings_.sensor.blur_px);
  Scene scene;
  if (!matt.empty()) {
    blur(matt, settings_.sensor.blur_px);
    scene.glint_mask = glint_mask(picture, matt);
  }
  if (settings_.sensor.flare > 0 || settings_.sensor.black_offset != 0) {
    // Light scattered in the lens: a share of the picture's mean everywhere.
    double mean[3] = {0, 0, 0};
    std::size_t counted = 0;
    for (std::size_t i = 0; i + 2 < picture.data.size(); i += 51, ++counted)
      for (std::size_t k = 0; k < 3; ++k) mean[k] += std::min(1.0f, picture.data[i + k]);
    float veil[3];
    for (std::size_t k = 0; k < 3; ++k)
      veil[k] = static_cast<float>(settings_.sensor.flare * mean[k] / static_cast<double>(counted) +
                                   settings_.sensor.black_offset);
    for (std::size_t i = 0; i + 2 < picture.data.size(); i += 3)
      for (std::size_t k = 0; k < 3; ++k) picture.data[i + k] += veil[k];
  }
  Random noise(settings_.photo_seed, 77);
  add_sensor_noise(picture, settings_.sensor.full_well, settings_.sensor.read_noise, noise);

  if (settings_.linear) {
    PhotoEncoding encoding;
    encoding.kind = EncodingKind::linear_sensor;
    encoding.profile = "camera RGB";
    encoding.profile_assumed = false;
    encoding.bits_per_channel = 16;
    encoding.native_to_srgb = balance_of(settings_).whole();
    encoding.daylight_white = daylight_white_of(settings_);
    Image16 store(picture.rows, picture.columns, 3);
    for (std::size_t i = 0; i < store.data.size(); ++i)
      store.data[i] = static_cast<std::uint16_t>(std::clamp(picture.data[i], 0.0f, 1.0f) * 65535.0f + 0.5f);
    scene.photo = Photo(std::move(store), encoding, CaptureMetadata{}, settings_.name + ".linear");
  } else {
    const Balance balance = balance_of(settings_);
    const Image8 developed = develop(picture, balance.gains, balance.matrix, settings_.development);
    scene.jpeg_bytes = encode_jpeg(developed, settings_.development.jpeg_quality,
                                   settings_.development.jpeg_subsampled, settings_.exif);
    scene.photo = decode_photo(scene.jpeg_bytes, settings_.name + ".jpg").value();
  }
  scene.reference = planes_[0].colors.reference;
  scene.true_patches = planes_[0].colors.true_patches;
  scene.true_paper = planes_[0].colors.true_paper;
  const auto ground_at = [&](double x, double y) { return zone_of(planes_[0].map.exactly_at(x, y)); };
  scene.specimens = specimen_truths(specimens_, grounds_, foil_, ground_at);
  scene.view = view_;
  scene.fields = fields_;
  fill_paper_light(scene);
  const auto corners_of = [&](const Plane& plane) {
    const double w = plane.chart.width_mm, h = plane.chart.height_mm;
    return std::array<PointPx, 4>{
        view_.px_from_mm(plane.global({0, 0})), view_.px_from_mm(plane.global({w, 0})),
        view_.px_from_mm(plane.global({w, h})), view_.px_from_mm(plane.global({0, h}))};
  };
  scene.corners_px = corners_of(planes_[0]);
  if (planes_.size() > 1) {
    scene.second_true_patches = planes_[1].colors.true_patches;
    scene.second_corners_px = corners_of(planes_[1]);
  }
  return scene;
}

}  // namespace

Scene render(const SceneSettings& settings, const ChartDefinition& chart) {
  return Renderer(settings, chart).run();
}

}  // namespace colorlib::scenes
