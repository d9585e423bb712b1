#include "tests/scenes/series_scene.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "tests/scenes/random.hpp"
#include "tests/scenes/scene_picture.hpp"

namespace colorlib::scenes {
namespace {

constexpr double radius_mm = 6;

Pigment times(const Pigment& pigment, const Spectrum& factor) {
  Pigment p = pigment;
  for (int i = 0; i < wave_count; ++i) {
    p.masstone[i] = std::clamp(pigment.masstone[i] * factor[i], 1e-4, 0.9999);
    p.ratio[i] = (1 - p.masstone[i]) * (1 - p.masstone[i]) / (2 * p.masstone[i]);
  }
  p.masstone_lab = lab_d50(p.masstone);
  return p;
}

SpecimenSettings piece(std::string id, RegionKind kind, double x, double y, const Pigment& pigment) {
  SpecimenSettings s;
  s.id = std::move(id);
  s.kind = kind;
  s.place_mm = EllipseShape{x, y, radius_mm, radius_mm};
  s.pigment = pigment;
  s.strength_spread = 0.04;
  s.grain = 0.012;
  return s;
}

/// A slow wander between -1 and 1, its own for each stream: three sines of random phase.
double wander(std::uint64_t seed, std::uint64_t stream, double place) {
  Random random(seed, stream);
  double sum = 0;
  for (int i = 1; i <= 3; ++i)
    sum += std::sin(6.283185307 * (random.uniform(0.3, 1.2) * place * i + random.uniform())) / i;
  return sum / 1.83;
}

}  // namespace

SeriesScene::SeriesScene(SeriesSettings settings, ChartDefinition chart)
    : settings_(std::move(settings)),
      chart_(std::move(chart)),
      base_(random_scene(settings_.condition, settings_.seed, settings_.pool)),
      spot_(settings_.course, settings_.pool),
      tissue_(pigment_matching(settings_.tissue, settings_.pool)) {
  if (chart_.windows.empty()) throw std::runtime_error("a series needs a chart with a window");
  const Pigment wet = settings_.wet_tissue == settings_.tissue
                          ? tissue_
                          : pigment_matching(settings_.wet_tissue, settings_.pool);
  for (int i = 0; i < wave_count; ++i) wetting_[i] = wet.masstone[i] / tissue_.masstone[i];
  set_picture_width(base_, settings_.width_px);
  base_.view.rotation_deg = std::remainder(base_.view.rotation_deg, 180.0);
  base_.view.tilt_deg = std::min(base_.view.tilt_deg, 15.0);
  base_.view.fill = std::min(base_.view.fill, 0.88);
}

Scene SeriesScene::frame(std::size_t index) const {
  SceneSettings s = base_;
  const double t = settings_.seconds.at(index);
  const double place = frames() > 1 ? static_cast<double>(index) / static_cast<double>(frames() - 1) : 0;
  Random hand(settings_.seed * 7919 + index, 900);
  s.name = fmt::format("{}-{}", base_.name, index);
  s.photo_seed = base_.photo_seed + 101 * index + 1;
  s.view.tilt_deg = std::abs(s.view.tilt_deg + hand.normal(0, settings_.hand_deg));
  s.view.tilt_direction_deg += hand.normal(0, 4 * settings_.hand_deg);
  s.view.rotation_deg += hand.normal(0, settings_.hand_deg);
  s.view.fill *= std::exp(hand.normal(0, 0.01 * settings_.hand_deg));
  s.view.shift_x = std::clamp(s.view.shift_x + hand.normal(0, 0.2 * settings_.hand_deg), -1.0, 1.0);
  s.view.shift_y = std::clamp(s.view.shift_y + hand.normal(0, 0.2 * settings_.hand_deg), -1.0, 1.0);
  // Clouds: the light's place stays, its share of the direct light and the phone's exposure and balance
  // wander.
  for (LightSettings& light : s.lights)
    light.even_share =
        std::clamp(light.even_share * (1 + settings_.drift * wander(settings_.seed, 31, place)), 0.02, 0.9);
  s.sensor.paper_level = std::clamp(
      s.sensor.paper_level * (1 + 0.5 * settings_.drift * wander(settings_.seed, 32, place)), 0.5, 0.86);
  s.development.balance_error[0] *= 1 + 0.25 * settings_.drift * wander(settings_.seed, 33, place);
  s.development.balance_error[2] *= 1 + 0.25 * settings_.drift * wander(settings_.seed, 34, place);

  const double wet = settings_.wetting_half_s > 0 && t > 0 ? 1 - std::exp2(-t / settings_.wetting_half_s) : 0;
  Spectrum factor;
  for (int i = 0; i < wave_count; ++i) factor[i] = 1 + wet * (wetting_[i] - 1);
  const bool water = !settings_.bruise && !(settings_.wet_tissue == settings_.tissue);
  const RectangleMm& w = chart_.windows.front().place;
  const double y = w.y + 0.5 * w.height;
  const Pigment now = spot_.at(t);
  s.specimens = {piece("A", settings_.bruise ? RegionKind::bruise : RegionKind::spot, w.x + 0.5 * w.width, y,
                       settings_.bruise ? now : times(now, factor)),
                 piece("C", RegionKind::control, w.x + 0.2 * w.width, y, tissue_)};
  if (water)
    s.specimens.push_back(piece("W", RegionKind::water, w.x + 0.8 * w.width, y, times(tissue_, factor)));
  if (t > 0)
    for (SpecimenSettings& specimen : s.specimens)
      if (specimen.kind != RegionKind::control && !settings_.bruise)
        specimen.gloss = settings_.gloss, specimen.gloss_level = 0.5;

  ExifNote exif;
  exif.make = "Simulated";
  exif.model = "Scene renderer (invented photograph)";
  exif.software = "tintfall-scene";
  const double clock = 11 * 3600 + 120 + t;  // of the invented morning
  const double whole = std::floor(clock);
  const int second = static_cast<int>(whole);
  exif.date_time = fmt::format("2031:10:05 {:02}:{:02}:{:02}", second / 3600, second / 60 % 60, second % 60);
  exif.subsecond = fmt::format("{:02}", static_cast<int>(std::floor((clock - whole) * 100 + 1e-6)));
  exif.offset = "+02:00";
  s.exif = exif;
  return render(s, chart_);
}

Regions SeriesScene::regions() const {
  const RectangleMm& w = chart_.windows.front().place;
  const double y = w.y + 0.5 * w.height;
  Regions regions;
  const auto add = [&](const char* id, RegionKind kind, double share) {
    Region region;
    region.id = id;
    region.kind = kind;
    region.shape = EllipseShape{w.x + share * w.width, y, 0.8 * radius_mm, 0.8 * radius_mm};
    regions.items.push_back(region);
  };
  add("A", settings_.bruise ? RegionKind::bruise : RegionKind::spot, 0.5);
  add("C", RegionKind::control, 0.2);
  if (!settings_.bruise && !(settings_.wet_tissue == settings_.tissue)) add("W", RegionKind::water, 0.8);
  return regions;
}

std::string SeriesScene::file_name(std::size_t index) const {
  return fmt::format("frame-{:02}.jpg", index + 1);
}

}  // namespace colorlib::scenes
