#include "tests/scenes/lights.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "tests/scenes/published_spectra.hpp"

namespace colorlib::scenes {
namespace {

struct Uv {
  double u = 0, v = 0;
};
Uv uv_of(const Xyz& c) {
  const double d = c.x + 15 * c.y + 3 * c.z;
  return {4 * c.x / d, 6 * c.y / d};
}
Spectrum unit_luminance(const Spectrum& s) { return 1 / inner_product(s, observer_1931()[1]) * s; }

/// Sum of components whose XYZ is that of `target` (Y = 1). Negative amounts become 0 and the rest is scaled.
Spectrum blend_to(const std::array<Spectrum, 3>& parts, const Xyz& target) {
  Matrix3 m;
  for (int part = 0; part < 3; ++part)
    for (int k = 0; k < 3; ++k)
      m(k, part) =
          inner_product(parts[static_cast<std::size_t>(part)], observer_1931()[static_cast<std::size_t>(k)]);
  const Vector3 amount = inverse(m) * vector_from(target);
  Spectrum sum;
  for (std::size_t part = 0; part < 3; ++part) sum = sum + std::max(0.0, amount[part]) * parts[part];
  return unit_luminance(sum);
}

Xyz locus_white(double temperature_k, double duv) {
  const auto locus = [](double t) { return uv_of(white_of_light(t < 5000 ? planckian(t) : daylight(t))); };
  const Uv here = locus(temperature_k), next = locus(temperature_k + 20);
  const double du = next.u - here.u, dv = next.v - here.v, length = std::hypot(du, dv);
  // Towards green: larger v at equal colour temperature.
  double nu = -dv / length, nv = du / length;
  if (nv < 0) nu = -nu, nv = -nv;
  const double u = here.u + duv * nu, v = here.v + duv * nv;
  const double x = 3 * u / (2 * u - 8 * v + 4), y = 2 * v / (2 * u - 8 * v + 4);
  return {x / y, 1, (1 - x - y) / y};
}

}  // namespace

Spectrum planckian(double temperature_k) {
  const auto law = [&](double nm) {
    return std::pow(nm / 560, -5) * std::expm1(1.4388e-2 / (560e-9 * temperature_k)) /
           std::expm1(1.4388e-2 / (nm * 1e-9 * temperature_k));
  };
  return spectrum_of(law);
}

Spectrum daylight(double temperature_k) {
  const double t = temperature_k;
  const double x = t <= 7000 ? 0.244063 + 0.09911e3 / t + 2.9678e6 / (t * t) - 4.6070e9 / (t * t * t)
                             : 0.237040 + 0.24748e3 / t + 1.9018e6 / (t * t) - 2.0064e9 / (t * t * t);
  const double y = -3.000 * x * x + 2.870 * x - 0.275;
  const double m = 0.0241 + 0.2562 * x - 0.7341 * y;
  const double m1 = (-1.3515 - 1.7703 * x + 5.9114 * y) / m, m2 = (0.0300 - 31.4424 * x + 30.0717 * y) / m;
  const auto& basis = daylight_basis();
  return basis[0] + m1 * basis[1] + m2 * basis[2];
}

Spectrum led(const LedShape& shape, double temperature_k, double duv) {
  const std::array<Spectrum, 3> parts{
      spectrum_of([&](double nm) {
        return bell(nm, shape.pump_nm, 0.9 * shape.pump_width_nm, 1.1 * shape.pump_width_nm);
      }),
      spectrum_of(
          [&](double nm) { return bell(nm, shape.green_nm, shape.green_below_nm, shape.green_above_nm); }),
      spectrum_of([&](double nm) { return bell(nm, shape.red_nm, shape.red_below_nm, shape.red_above_nm); })};
  return blend_to(parts, locus_white(temperature_k, duv));
}

Spectrum tri_phosphor_tube(double temperature_k, double line_width_nm, double continuum) {
  const double w = line_width_nm;
  const std::array<Spectrum, 3> parts{
      spectrum_of([&](double nm) {
        return bell(nm, 450, 22) + 0.9 * bell(nm, 436, w) + 0.25 * bell(nm, 405, w) + 0.3 * bell(nm, 488, 7);
      }),
      spectrum_of([&](double nm) {
        return bell(nm, 544, w) + 0.22 * bell(nm, 588, 6) + 0.12 * bell(nm, 489, 6) +
               continuum * bell(nm, 545, 40);
      }),
      spectrum_of([&](double nm) {
        return bell(nm, 611, w) + 0.25 * bell(nm, 630, 5) + 0.18 * bell(nm, 597, 6) +
               0.12 * bell(nm, 707, 6) + continuum * bell(nm, 610, 45);
      })};
  return blend_to(parts, locus_white(temperature_k, 0));
}

double general_rendering_index(const Spectrum& power) {
  const Spectrum reference = [&] {
    const double t = correlated_temperature_k(power);
    return t < 5000 ? planckian(t) : daylight(t);
  }();
  const auto cd = [](const Uv& p) {
    return std::array<double, 2>{(4 - p.u - 10 * p.v) / p.v, (1.708 * p.v + 0.404 - 1.481 * p.u) / p.v};
  };
  const Uv white_k = uv_of(white_of_light(power)), white_r = uv_of(white_of_light(reference));
  const auto ck = cd(white_k), cr = cd(white_r);
  double sum = 0;
  for (std::size_t i = 0; i < 8; ++i) {
    const Spectrum& sample = test_color_reflectances()[i];
    const Xyz k = xyz_under(sample, power), r = xyz_under(sample, reference);
    const auto c = cd(uv_of(k));
    const double d0 = cr[0] / ck[0] * c[0], d1 = cr[1] / ck[1] * c[1];
    const Uv adapted{(10.872 + 0.404 * d0 - 4 * d1) / (16.518 + 1.481 * d0 - d1),
                     5.520 / (16.518 + 1.481 * d0 - d1)};
    const auto w = [](double y, const Uv& p, const Uv& white) {
      const double l = 25 * std::cbrt(100 * y) - 17;
      return std::array<double, 3>{l, 13 * l * (p.u - white.u), 13 * l * (p.v - white.v)};
    };
    const auto wk = w(k.y, adapted, white_r), wr = w(r.y, uv_of(r), white_r);
    sum += 100 - 4.6 * std::sqrt(std::pow(wk[0] - wr[0], 2) + std::pow(wk[1] - wr[1], 2) +
                                 std::pow(wk[2] - wr[2], 2));
  }
  return sum / 8;
}

LightColor random_daylight(Random& random, Pool pool) {
  const double t = random.uniform(4600, held_out_materials(pool) ? 8600 : 8000);
  // Window glass takes part of the ultraviolet away.
  const double ultraviolet = random.uniform(0.4, 1.1) * std::clamp(t / 5500, 0.8, 1.4);
  if (pool != Pool::held_out) return {fmt::format("daylight {:.0f} K", t), daylight(t), ultraviolet};
  // Held out: light that came past foliage or a coloured wall is a tinted daylight.
  const double tint = random.normal(0, 0.03), at_nm = random.uniform(500, 640);
  const Spectrum filter = spectrum_of([&](double nm) { return 1 + tint * bell(nm, at_nm, 60); });
  return {fmt::format("tinted daylight {:.0f} K", t), daylight(t) * filter, ultraviolet};
}

namespace {

LightColor drawn_led(Random& random, Pool pool, double low_k, double high_k) {
  LedShape shape;
  if (pool == Pool::tuning) {
    shape.pump_nm = random.uniform(446, 457);
    shape.pump_width_nm = random.uniform(7.5, 10.5);
    shape.green_nm = random.uniform(535, 560);
    shape.green_below_nm = random.uniform(24, 33);
    shape.green_above_nm = random.uniform(42, 58);
    shape.red_nm = random.uniform(600, 635);
    shape.red_below_nm = random.uniform(28, 40);
    shape.red_above_nm = random.uniform(34, 48);
  } else if (pool == Pool::broad) {
    // Any pump, and phosphors from broad to as narrow as a line.
    const auto width = [&](double low, double high) {
      return std::exp(random.uniform(std::log(low), std::log(high)));
    };
    shape.pump_nm = random.uniform(435, 466);
    shape.pump_width_nm = random.uniform(7, 14);
    shape.green_nm = random.uniform(520, 560);
    shape.green_below_nm = width(14, 34);
    shape.green_above_nm = shape.green_below_nm * random.uniform(1, 1.9);
    shape.red_nm = random.uniform(600, 650);
    shape.red_below_nm = width(6, 46);
    shape.red_above_nm = shape.red_below_nm * random.uniform(0.8, 1.4);
  } else {
    // Held out: pumps further out, and a narrow red phosphor in a third of the lamps.
    shape.pump_nm = random.chance(0.3) ? random.uniform(436, 446) : random.uniform(455, 464);
    shape.pump_width_nm = random.uniform(8, 13);
    shape.green_nm = random.uniform(525, 550);
    shape.green_below_nm = random.uniform(20, 30);
    shape.green_above_nm = random.uniform(30, 50);
    const bool narrow = random.chance(0.35);
    shape.red_nm = narrow ? 631 : random.uniform(605, 645);
    shape.red_below_nm = narrow ? 9 : random.uniform(30, 45);
    shape.red_above_nm = narrow ? 7 : random.uniform(38, 50);
  }
  const double t = random.uniform(low_k, high_k), duv = random.normal(0, 0.0025);
  const double ultraviolet = random.uniform(0, 0.03);
  return {fmt::format("LED {:.0f} K", t), led(shape, t, duv), ultraviolet};
}

/// Lamps sold for homes: most have a rendering index of 80 or more, a few cheap ones less.
LightColor random_led(Random& random, Pool pool, double low_k, double high_k) {
  const double least = random.chance(0.15) ? 68 : random.chance(0.5) ? 79 : 88;
  for (int attempt = 0;; ++attempt) {
    LightColor light = drawn_led(random, pool, low_k, high_k);
    const double index = general_rendering_index(light.power);
    if ((index >= least && index <= 98) || attempt > 200) {
      light.name += fmt::format(", Ra {:.0f}", index);
      return light;
    }
  }
}

}  // namespace

LightColor random_warm_lamp(Random& random, Pool pool) {
  if (pool == Pool::measured) {
    const int which = random.below(5);
    if (which == 0) return {"CIE A", illuminant("A"), random.uniform(0.1, 0.2)};
    return {fmt::format("CIE LED-B{}", 1 + which % 2), led_illuminant(1 + which % 2),
            random.uniform(0, 0.03)};
  }
  // Mostly LED; some bulbs are still incandescent.
  if (random.chance(0.2)) {
    const double t = random.uniform(2650, 3050);
    return {fmt::format("incandescent {:.0f} K", t), planckian(t), random.uniform(0.1, 0.2)};
  }
  return random_led(random, pool, 2650, 3100);
}

LightColor random_cool_lamp(Random& random, Pool pool) {
  if (pool == Pool::measured) return {"CIE LED-B3", led_illuminant(3), random.uniform(0, 0.03)};
  return random_led(random, pool, 3800, 4400);
}

LightColor random_tube(Random& random, Pool pool) {
  static const char* const tuning_tables[] = {"F2", "F7", "F8", "F11"};
  static const char* const held_out_tables[] = {"F5", "F9", "F10", "F12"};
  static const char* const measured_tables[] = {"F1", "F3", "F4", "F6"};
  if (pool == Pool::measured) {
    const std::string name = measured_tables[random.below(4)];
    return {"CIE " + name, illuminant(name), random.uniform(0.1, 0.5)};
  }
  if (random.chance(0.6)) {
    const std::string name = (pool == Pool::held_out ? held_out_tables : tuning_tables)[random.below(4)];
    return {"CIE " + name, illuminant(name), random.uniform(0.1, 0.5)};
  }
  const double t = pool == Pool::tuning ? random.uniform(3800, 5000) : random.uniform(3000, 6000);
  const double line_width = random.uniform(4, 6), continuum = random.uniform(0.05, 0.25);
  return {fmt::format("tri-phosphor {:.0f} K", t), tri_phosphor_tube(t, line_width, continuum),
          random.uniform(0.1, 0.5)};
}

}  // namespace colorlib::scenes
