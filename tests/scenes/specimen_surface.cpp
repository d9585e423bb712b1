#include "tests/scenes/specimen_surface.hpp"

#include <algorithm>
#include <cmath>

#include "tests/scenes/layers.hpp"

namespace colorlib::scenes {
namespace {

/// States span +-3 standard deviations of the logarithm of thickness or strength.
constexpr double state_reach = 3;

/// Dark loam.
Spectrum soil_reflectance() {
  return spectrum_of([](double nm) { return 0.045 + 0.075 * (nm - 380) / 400; });
}

/// Draws from a copy: what is drawn afterwards stays as it was.
NoisePlace place_aside(Random random) { return NoisePlace(random); }

float eased(float t) {
  t = std::clamp(t, 0.0f, 1.0f);
  return t * t * (3 - 2 * t);
}

}  // namespace

SpecimenSurface::SpecimenSurface(const SpecimenSettings& settings, const EllipseShape& place,
                                 const std::vector<Ground>& grounds, const Camera& camera,
                                 const std::vector<Spectrum>& lights, Random random)
    : settings_(settings),
      place_(place),
      grain_place_(random),
      slow_place_(random),
      gap_place_(random),
      gloss_place_(random),
      soil_place_(place_aside(random)) {
  wobble_[0] = random.uniform(0, 6.28), wobble_[1] = random.uniform(0, 6.28);
  wobble_[2] = random.uniform(0.02, 0.07), wobble_[3] = random.uniform(0.01, 0.05);
  gill_angle_ = random.uniform(0, 3.14);
  gap_level_ = settings.gap_share > 0 ? normal_quantile(settings.gap_share) : -99;
  gloss_level_ = settings.gloss > 0 ? normal_quantile(1 - settings.gloss) : 99;

  soil_level_ = settings.soil_share > 0 ? normal_quantile(1 - settings.soil_share) : 99;
  smear_angle_ = gill_angle_ + 1;
  const Spectrum foreign[] = {soil_reflectance(),
                              settings.smear_mm > 0 ? settings.smear.masstone : soil_reflectance()};
  for (std::size_t i = 0; i < 2; ++i) {
    foreign_[i].xyz = xyz_d50(foreign[i]);
    for (const Spectrum& light : lights)
      foreign_[i].rgb.push_back(camera_response(camera, foreign[i], light));
  }

  const bool thin = settings.thickness > 0;
  const double reach = state_reach * (thin ? settings.thickness_spread : settings.strength_spread);
  const Spectrum black = constant_spectrum(0.04), white = constant_spectrum(0.85);
  for (const Ground& ground : grounds) {
    Table table;
    table.rgb.resize(lights.size());
    for (std::size_t s = 0; s < states; ++s) {
      const double factor = std::exp(reach * (2.0 * static_cast<double>(s) / (states - 1) - 1));
      const double thickness = thin ? settings.thickness * factor : 0;
      const Spectrum reflectance = thin ? layer_reflectance(settings.pigment.masstone, thickness,
                                                            settings.scattering_exponent, ground.reflectance)
                                        : diluted(settings.pigment, factor).masstone;
      table.xyz[s] = xyz_d50(reflectance);
      for (std::size_t l = 0; l < lights.size(); ++l)
        table.rgb[l][s] = camera_response(camera, reflectance, lights[l]);
      if (zones_.empty()) {
        const auto y_over = [&](const Spectrum& backing) {
          return thin ? xyz_d50(layer_reflectance(settings.pigment.masstone, thickness,
                                                  settings.scattering_exponent, backing))
                            .y
                      : table.xyz[s].y;
        };
        y_black_[s] = y_over(black), y_white_[s] = y_over(white);
      }
    }
    zones_.push_back(std::move(table));
  }
}

SurfacePoint SpecimenSurface::at(double x_mm, double y_mm) const {
  SurfacePoint point;
  const double dx = x_mm - place_.x, dy = y_mm - place_.y;
  // The body's outline: the region's ellipse, about a quarter larger, with a slow wobble and a soft edge.
  const double rx = dx / place_.radius_x, ry = dy / place_.radius_y;
  const double r = std::hypot(rx, ry), angle = std::atan2(ry, rx);
  const double outline =
      1.27 + wobble_[2] * std::sin(2 * angle + wobble_[0]) + wobble_[3] * std::sin(3 * angle + wobble_[1]);
  const double soft = (settings_.print_pattern ? 1.6 : 0.7) / std::max(place_.radius_x, place_.radius_y);
  const float fine = grain_place_.of(fine_noise(), dx, dy, 8.0);
  point.cover = eased(static_cast<float>((outline - r) / soft + 0.5 + 0.2 * fine));
  if (settings_.print_pattern) {
    // Nothing falls where the stem stood.
    const double stem = 0.17 * (1 + 0.08 * std::sin(3 * angle + wobble_[1]));
    point.cover *= eased(static_cast<float>((r - stem) / (1.5 * soft) + 0.5 + 0.25 * fine));
  }
  if (point.cover <= 0) return point;

  const float slow = slow_place_.of(smooth_noise(), dx, dy, 3.0);
  double state = 0.8 * slow + 0.6 * slow_place_.of(fine_noise(), dx, dy, 3.5);
  double gill = 0;
  if (settings_.gill_depth > 0) {
    const double across = dx * std::cos(gill_angle_) + dy * std::sin(gill_angle_) + 0.12 * slow;
    gill = std::sin(6.283185307 * across / settings_.gill_pitch_mm);
    if (settings_.print_pattern) {
      // Whole numbers of gills round the cap; shorter ones come in where the long ones part.
      const double long_gills = std::floor(6.283185307 * 0.6 * place_.radius_x / settings_.gill_pitch_mm);
      gill = std::sin(long_gills * angle + 0.5 * slow);
      if (r > 0.75) gill = 0.5 * gill + 0.5 * std::sin(2 * long_gills * angle + 0.5 * slow);
    }
    const double spread = settings_.thickness > 0 ? settings_.thickness_spread : settings_.strength_spread;
    state += settings_.gill_depth * gill / std::max(0.02, spread);
  }
  point.state = static_cast<float>(std::clamp((state / state_reach + 1) / 2, 0.0, 1.0) * (states - 1));
  point.grain = std::max(0.3f, 1 + static_cast<float>(settings_.grain) * fine);
  point.outline = point.cover;
  if (settings_.gap_share > 0) {
    const double g = gap_place_.of(fine_noise(), dx, dy, 5.0) + 0.5 * gill;
    const double scale = std::sqrt(1 + 0.5 * 0.25 * (settings_.gill_depth > 0 ? 1 : 0));
    point.cover *= eased(static_cast<float>((g / scale - gap_level_) / 0.25 + 0.5));
  }
  if (settings_.soil_share > 0 || settings_.smear_mm > 0) add_foreign(point, dx, dy);
  if (settings_.gloss > 0) {
    const double g =
        0.8 * gloss_place_.of(smooth_noise(), dx, dy, 7.0) + 0.6 * gloss_place_.of(fine_noise(), dx, dy, 5.0);
    if (g > gloss_level_)
      point.specular = static_cast<float>(settings_.gloss_level * std::min(6.0, 5 * (g - gloss_level_)));
  }
  if (settings_.thickness > 0) {
    const double factor =
        std::exp(settings_.thickness_spread * state_reach * (2 * point.state / (states - 1) - 1));
    point.clear = static_cast<float>(std::exp(-2.0 * settings_.thickness * factor));
  }
  point.clear = 1 - point.cover * (1 - point.clear);
  return point;
}

void SpecimenSurface::add_foreign(SurfacePoint& point, double dx, double dy) const {
  if (settings_.smear_mm > 0) {
    const double across = dx * std::cos(smear_angle_) + dy * std::sin(smear_angle_) +
                          0.15 * soil_place_.of(fine_noise(), dx, dy, 4.0);
    point.foreign = eased(static_cast<float>((settings_.smear_mm / 2 - std::abs(across)) / 0.1 + 0.5));
    point.smeared = point.foreign > 0;
  }
  if (settings_.soil_share > 0 && !point.smeared) {
    const double g = soil_place_.of(fine_noise(), dx, dy, 4.0);
    point.foreign = eased(static_cast<float>((g - soil_level_) / 0.1 + 0.5));
  }
  point.foreign *= point.outline;
}

Vector3 SpecimenSurface::camera_rgb(std::size_t zone, std::size_t light, float state) const {
  const auto low = std::min<std::size_t>(static_cast<std::size_t>(state), states - 2);
  const double t = static_cast<double>(state) - static_cast<double>(low);
  const auto& row = zones_[zone].rgb[light];
  return {row[low][0] + t * (row[low + 1][0] - row[low][0]),
          row[low][1] + t * (row[low + 1][1] - row[low][1]),
          row[low][2] + t * (row[low + 1][2] - row[low][2])};
}

Xyz SpecimenSurface::xyz(std::size_t zone, float state) const {
  const auto low = std::min<std::size_t>(static_cast<std::size_t>(state), states - 2);
  const double t = static_cast<double>(state) - static_cast<double>(low);
  const Xyz &a = zones_[zone].xyz[low], &b = zones_[zone].xyz[low + 1];
  return {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y), a.z + t * (b.z - a.z)};
}

double SpecimenSurface::contrast_ratio(const EllipseShape& e) const {
  if (settings_.thickness <= 0) return 1;
  double black = 0, white = 0;
  for (double y = e.y - e.radius_y; y <= e.y + e.radius_y; y += 0.2)
    for (double x = e.x - e.radius_x; x <= e.x + e.radius_x; x += 0.2)
      if (std::hypot((x - e.x) / e.radius_x, (y - e.y) / e.radius_y) <= 1) {
        const SurfacePoint p = at(x, y);
        const auto low = std::min<std::size_t>(static_cast<std::size_t>(p.state), states - 2);
        const double t = static_cast<double>(p.state) - static_cast<double>(low);
        black += p.cover * (y_black_[low] + t * (y_black_[low + 1] - y_black_[low])) + (1 - p.cover) * 0.04;
        white += p.cover * (y_white_[low] + t * (y_white_[low + 1] - y_white_[low])) + (1 - p.cover) * 0.85;
      }
  return black / white;
}

double SpecimenSurface::log_step() const {
  return 2 * state_reach *
         (settings_.thickness > 0 ? settings_.thickness_spread : settings_.strength_spread) / (states - 1);
}

FoilSurface::FoilSurface(Random random) : facets_(random), creases_(random), slow_(random) {}

FoilPoint FoilSurface::at(double x_mm, double y_mm) const {
  FoilPoint p;
  const float slow = slow_.of(smooth_noise(), x_mm, y_mm, 0.9),
              crease = creases_.of(smooth_noise(), x_mm, y_mm, 3.0);
  const float facet = facets_.of(fine_noise(), x_mm, y_mm, 7.5);
  // Most of a foil mirrors a darkish room; slopes towards a light flare up.
  p.base = std::clamp(1 + 0.22f * slow + 0.16f * crease, 0.3f, 1.9f);
  const float excess = 0.55f * crease + 0.85f * facet - 1.25f;
  if (excess > 0) p.glint = std::min(12.0f, 2.2f * excess + 6 * excess * excess);
  return p;
}

Spectrum FoilSurface::reflectance() {
  return spectrum_of(
      [](double nm) { return 0.55 * (1 - 0.03 * (nm - 560) / 220 - 0.02 * bell(nm, 830, 60)); });
}

}  // namespace colorlib::scenes
