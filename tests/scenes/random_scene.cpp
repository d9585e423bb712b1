#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "tests/scenes/scene.hpp"

namespace colorlib::scenes {
namespace {

struct NamedCondition {
  Condition condition;
  const char* name;
};
constexpr NamedCondition condition_table[] = {{Condition::daylight_linear, "daylight-linear"},
                                              {Condition::daylight_phone, "daylight-phone"},
                                              {Condition::lamp_linear, "lamp-linear"},
                                              {Condition::lamp_phone, "lamp-phone"},
                                              {Condition::fluorescent_phone, "fluorescent-phone"},
                                              {Condition::two_lights_linear, "two-lights-linear"},
                                              {Condition::two_lights_phone, "two-lights-phone"},
                                              {Condition::foil_linear, "foil-linear"},
                                              {Condition::foil_phone, "foil-phone"},
                                              {Condition::grid_unmarked, "grid-unmarked"},
                                              {Condition::raised, "raised"},
                                              {Condition::curled, "curled"},
                                              {Condition::local_tone, "local-tone"},
                                              {Condition::brightened_paper, "brightened-paper"},
                                              {Condition::thin_two_backings, "thin-two-backings"},
                                              {Condition::thin_paper, "thin-paper"},
                                              {Condition::shadow_edge, "shadow-edge"},
                                              {Condition::soiled_paper, "soiled-paper"},
                                              {Condition::nominal_sheet, "nominal-sheet"}};

bool is_linear(Condition c) {
  return c == Condition::daylight_linear || c == Condition::lamp_linear ||
         c == Condition::two_lights_linear || c == Condition::foil_linear;
}

/// Unit vector on a circle round the sheet, times a distance; z apart.
Point3 around(double angle, double distance_mm, double height_mm) {
  return {distance_mm * std::cos(angle), distance_mm * std::sin(angle), height_mm};
}
/// Draws in this order: an argument list would leave the order to the compiler.
Point3 random_place(Random& random, double nearest_mm, double farthest_mm, double lowest_mm,
                    double highest_mm) {
  const double angle = random.uniform(0, 6.283), distance = random.uniform(nearest_mm, farthest_mm);
  return around(angle, distance, random.uniform(lowest_mm, highest_mm));
}

LightSettings window_light(Random& random, LightColor color) {
  LightSettings light;
  light.color = std::move(color);
  light.kind = LightKind::daylight;
  light.shape = LightShape::window;
  light.place = random_place(random, 450, 1500, 250, 700);
  light.width_mm = random.uniform(600, 1200);
  light.even_share = random.uniform(0.15, 0.45);
  return light;
}

LightSettings lamp_light(Random& random, LightColor color) {
  LightSettings light;
  light.color = std::move(color);
  light.shape = LightShape::lamp;
  light.place = random_place(random, 120, 550, 300, 950);
  light.width_mm = random.uniform(40, 300);
  light.even_share = random.uniform(0.08, 0.3);
  return light;
}

std::vector<LightSettings> lights_for(Condition condition, Random& random, Pool pool) {
  switch (condition) {
    case Condition::lamp_linear:
    case Condition::lamp_phone:
      return {lamp_light(random, random_warm_lamp(random, pool))};
    case Condition::fluorescent_phone: {
      LightSettings tube = lamp_light(random, random_tube(random, pool));
      tube.kind = LightKind::tube;
      tube.width_mm = random.uniform(200, 900);
      tube.place.z = random.uniform(600, 1700);
      return {tube};
    }
    case Condition::two_lights_linear:
    case Condition::two_lights_phone: {
      LightSettings window = window_light(random, random_daylight(random, pool));
      LightSettings lamp = lamp_light(
          random, random.chance(0.75) ? random_warm_lamp(random, pool) : random_cool_lamp(random, pool));
      // From more or less opposite sides.
      const double angle =
          std::atan2(window.place.y, window.place.x) + std::numbers::pi + random.normal(0, 0.6);
      const double distance = random.uniform(150, 420);
      lamp.place = around(angle, distance, random.uniform(180, 480));
      window.place = 0.7 * window.place;
      lamp.share = random.uniform(0.25, 0.65);
      window.share = 1 - lamp.share;
      return {window, lamp};
    }
    case Condition::foil_linear:
    case Condition::foil_phone:
    case Condition::raised:
    case Condition::curled:
    case Condition::local_tone:
    case Condition::shadow_edge:
    case Condition::thin_two_backings:
    case Condition::thin_paper:
      if (random.chance(0.35)) return {lamp_light(random, random_cool_lamp(random, pool))};
      [[fallthrough]];
    default: {
      LightSettings window = window_light(random, random_daylight(random, pool));
      if (random.chance(0.15)) {
        // Outdoors, open shade: nearly even.
        window.shape = LightShape::sky;
        window.even_share = random.uniform(0.3, 0.6);
      }
      return {window};
    }
  }
}

SpecimenSettings specimen_for(Condition condition, int index, Random& random, Pool pool) {
  SpecimenSettings s;
  s.id = std::string(1, static_cast<char>('A' + index));
  s.radius_mm = random.uniform(5, 9);
  const bool thin = condition == Condition::thin_two_backings || condition == Condition::thin_paper;
  const bool foil = condition == Condition::foil_linear || condition == Condition::foil_phone;
  bool tissue = !thin && !foil && random.chance(0.45);
  if (condition == Condition::raised) tissue = true;
  s.kind = !tissue ? RegionKind::deposit : random.chance(0.5) ? RegionKind::bruise : RegionKind::spot;
  s.pigment = random_pigment(random, pool, tissue);
  s.strength_spread = random.uniform(0.03, 0.15);
  s.grain = random.uniform(0.005, 0.03);
  if (tissue) {
    s.gloss = random.chance(0.7) ? random.uniform(0.002, 0.03) : 0;
    s.gloss_level = random.uniform(0.15, 1.2);
  } else if (random.chance(0.5)) {
    s.gill_pitch_mm = random.uniform(0.7, 1.8);
    s.gill_depth = random.uniform(0.05, 0.35);
  }
  if (thin) {
    // From hardly there to nearly hiding; log-uniform.
    s.thickness = std::exp(random.uniform(std::log(0.12), std::log(2.5)));
    s.thickness_spread = random.uniform(0.12, 0.5);
    s.scattering_exponent = random.uniform(0.0, 0.8);
    if (condition == Condition::thin_two_backings) {
      s.radius_mm = random.uniform(8, 11);
      s.thickness_spread = random.uniform(0.05, 0.25);
      s.gill_depth = 0;
    }
  } else if (!tissue && random.chance(foil ? 0.35 : 0.3)) {
    // A deposit that hides its ground nearly, but not quite everywhere.
    s.thickness = random.uniform(2.5, 6);
    s.thickness_spread = random.uniform(0.1, 0.3);
  }
  if (foil) s.gap_share = random.chance(0.6) ? random.uniform(0.002, 0.03) : 0;
  if (condition == Condition::raised) {
    s.height_mm = random.uniform(2, 30);
    s.slope_deg = random.uniform(0, 25);
    s.slope_direction_deg = random.uniform(0, 360);
  }
  return s;
}

DevelopmentSettings random_development(Random& random, Pool pool, Condition condition) {
  DevelopmentSettings d;
  d.tone = random_tone_curve(random, pool);
  d.balance_strength = random.chance(0.5) ? 1.0 : random.uniform(0.7, 1.0);
  d.balance_error = {std::exp(random.normal(0, 0.025)), 1, std::exp(random.normal(0, 0.035))};
  d.matrix_temperature_error = random.normal(0, 20);
  d.saturation = random.uniform(0.98, held_out_materials(pool) ? 1.28 : 1.22);
  d.saturation_encoded = random.chance(held_out_materials(pool) ? 0.6 : 0.4);
  if (held_out_materials(pool)) {
    if (random.chance(0.4)) d.vibrance = random.uniform(0, 0.15);
    if (random.chance(0.4))
      d.channel_exponent = {1 + random.normal(0, 0.015), 1, 1 + random.normal(0, 0.015)};
  } else if (random.chance(0.3)) {
    d.channel_exponent = {1 + random.normal(0, 0.012), 1, 1 + random.normal(0, 0.012)};
  }
  d.sharpening = random.chance(0.6) ? random.uniform(0.1, 0.6) : 0;
  d.jpeg_quality = 85 + random.below(11);
  d.jpeg_subsampled = random.chance(0.7);
  if (condition == Condition::local_tone) {
    d.local_strength = random.uniform(0.08, 0.35);
    d.local_blur_share = random.uniform(0.03, 0.12);
    // Some follow edges.
    if (pool != Pool::tuning && random.chance(0.5)) d.local_edge_share = random.uniform(0.2, 0.7);
  }
  return d;
}

/// Keeps the pools' scenes of one seed apart.
std::uint64_t pool_key(Pool pool) {
  switch (pool) {
    case Pool::tuning:
      return 0;
    case Pool::broad:
      return 0x7654321fedcbaull;
    case Pool::held_out:
      return 0xabcdef1234567ull;
    case Pool::measured:
      return 0x13579bdf02468ull;
  }
  return 0;
}
const char* pool_prefix(Pool pool) {
  switch (pool) {
    case Pool::tuning:
      return "";
    case Pool::broad:
      return "broad-";
    case Pool::held_out:
      return "held-out-";
    case Pool::measured:
      return "measured-";
  }
  return "";
}

}  // namespace

std::string condition_name(Condition condition) {
  for (const auto& entry : condition_table)
    if (entry.condition == condition) return entry.name;
  return "unknown";
}
std::optional<Condition> condition_from(const std::string& name) {
  for (const auto& entry : condition_table)
    if (name == entry.name) return entry.condition;
  return std::nullopt;
}
std::vector<Condition> all_conditions() {
  std::vector<Condition> all;
  for (const auto& entry : condition_table) all.push_back(entry.condition);
  return all;
}

SceneSettings random_scene(Condition condition, std::uint64_t seed, Pool pool) {
  // One stream a subject, so that a new knob in one leaves the others as they were.
  const std::uint64_t mixed =
      seed * 0x9e3779b97f4a7c15ull + 0x51ull * static_cast<std::uint64_t>(condition) + pool_key(pool);
  Random light_random(mixed, 1), camera_random(mixed, 2), view_random(mixed, 3), sheet_random(mixed, 4),
      specimen_random(mixed, 5), development_random(mixed, 6);
  SceneSettings s;
  s.name = fmt::format("{}{}-{}", pool_prefix(pool), condition_name(condition), seed);
  s.seed = mixed;
  s.photo_seed = mixed ^ 0x5555;
  s.pool = pool;
  s.linear = is_linear(condition);
  s.lights = lights_for(condition, light_random, pool);
  if (light_random.chance(0.3)) {
    // Somebody's faint shadow with a very soft edge somewhere over the sheet.
    LightSettings& light = s.lights[0];
    light.shadow_depth = light_random.uniform(0.04, 0.22);
    light.shadow_width_mm = light_random.uniform(40, 140);
    light.shadow_angle_deg = light_random.uniform(0, 360);
    light.shadow_x_mm = light_random.uniform(20, 190);
    light.shadow_y_mm = light_random.uniform(20, 130);
  }
  s.camera = random_camera(camera_random, pool);

  ViewSettings& v = s.view;
  v.tilt_deg = view_random.chance(0.7) ? view_random.uniform(0, 15) : view_random.uniform(15, 30);
  v.tilt_direction_deg = view_random.uniform(0, 360);
  // Mostly held along one side of the sheet, sometimes anyhow.
  v.rotation_deg = view_random.chance(0.85)
                       ? (view_random.chance(0.5) ? 180.0 : 0.0) + view_random.normal(0, 6)
                       : view_random.uniform(0, 360);
  v.focal_share = view_random.uniform(0.75, 1.4);
  v.fill = view_random.uniform(0.80, 0.95);
  v.shift_x = view_random.uniform(-1, 1);
  v.shift_y = view_random.uniform(-1, 1);
  v.distortion = view_random.uniform(-0.03, 0.03);
  v.distortion_fifth = view_random.normal(0, 0.002);
  v.decentring_px = view_random.normal(0, 6);

  SensorSettings& sensor = s.sensor;
  sensor.paper_level = camera_random.uniform(0.70, 0.85);
  sensor.full_well = std::exp(camera_random.uniform(std::log(8000.0), std::log(40000.0)));
  sensor.read_noise = camera_random.uniform(3, 10);
  sensor.black_offset = camera_random.normal(0, 1.5e-4);
  sensor.flare = camera_random.chance(0.5) ? camera_random.uniform(0, 0.0015) : 0;
  sensor.blur_px = camera_random.uniform(0.6, 1.2);
  sensor.vignetting = s.linear ? camera_random.uniform(0.05, 0.35) : camera_random.uniform(0, 0.15);
  Random body_random(mixed, 7);
  for (const std::size_t k : {0u, 2u}) sensor.unlike_its_matrix[k] = std::exp(body_random.normal(0, 0.02));
  s.development = random_development(development_random, pool, condition);

  s.sheet.inks = random_inks(sheet_random, pool);
  s.sheet.paper = random_paper(sheet_random, pool, condition == Condition::brightened_paper);
  if (condition == Condition::curled) {
    s.sheet.curl.sag_mm = sheet_random.uniform(2.5, 6);
    s.sheet.curl.axis_deg =
        sheet_random.chance(0.6) ? sheet_random.normal(0, 8) : sheet_random.uniform(-90, 90);
    s.sheet.curl.edges_up = sheet_random.chance(0.5);
  }
  if (condition == Condition::soiled_paper) s.sheet.soil_share = sheet_random.uniform(0.04, 0.25);
  s.nominal_reference = condition == Condition::nominal_sheet;
  s.table_lightness = sheet_random.uniform(0.4, 1.6);

  switch (condition) {
    case Condition::foil_linear:
    case Condition::foil_phone:
      s.substrate = Substrate::foil;
      break;
    case Condition::thin_two_backings:
      s.substrate = Substrate::half_black_half_white;
      break;
    case Condition::thin_paper:
      s.substrate = Substrate::card_white;
      break;
    default: {
      const double pick = specimen_random.uniform();
      s.substrate = pick < 0.6   ? Substrate::card_white
                    : pick < 0.8 ? Substrate::card_grey
                                 : Substrate::card_black;
    }
  }
  if (condition == Condition::shadow_edge) {
    LightSettings& light = s.lights[0];
    light.shadow_depth = light_random.uniform(0.35, 0.85);
    light.shadow_width_mm = light_random.uniform(3, 15);
    light.shadow_angle_deg = light_random.uniform(0, 360);
    // Through the middle of an A5 sheet's window, roughly.
    light.shadow_x_mm = light_random.uniform(75, 135);
    light.shadow_y_mm = light_random.uniform(50, 95);
  }
  const int count = condition == Condition::thin_two_backings ? 2 : 6;
  for (int i = 0; i < count; ++i) s.specimens.push_back(specimen_for(condition, i, specimen_random, pool));
  return s;
}

}  // namespace colorlib::scenes
