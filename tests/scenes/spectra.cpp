#include "tests/scenes/spectra.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tests/scenes/published_spectra.hpp"

namespace colorlib::scenes {

Spectrum constant_spectrum(double value) {
  Spectrum s;
  s.at.fill(value);
  return s;
}
double at_wavelength(const Spectrum& spectrum, double nm) {
  const double place = std::clamp((nm - first_wave_nm) / wave_step_nm, 0.0, wave_count - 1.0);
  const int low = std::min(static_cast<int>(place), wave_count - 2);
  return spectrum[low] + (place - low) * (spectrum[low + 1] - spectrum[low]);
}

Spectrum operator*(double factor, Spectrum s) {
  for (double& v : s.at) v *= factor;
  return s;
}
Spectrum operator*(Spectrum a, const Spectrum& b) {
  for (int i = 0; i < wave_count; ++i) a[i] *= b[i];
  return a;
}
Spectrum operator+(Spectrum a, const Spectrum& b) {
  for (int i = 0; i < wave_count; ++i) a[i] += b[i];
  return a;
}
double inner_product(const Spectrum& a, const Spectrum& b) {
  double sum = 0;
  for (int i = 0; i < wave_count; ++i) sum += a[i] * b[i];
  return sum;
}
double inner_product(const Spectrum& a, const Spectrum& b, const Spectrum& c) {
  double sum = 0;
  for (int i = 0; i < wave_count; ++i) sum += a[i] * b[i] * c[i];
  return sum;
}

double bell(double nm, double centre_nm, double width_below_nm, double width_above_nm) {
  const double d = (nm - centre_nm) / (nm < centre_nm ? width_below_nm : width_above_nm);
  return std::exp(-0.5 * d * d);
}
double step_up(double nm, double edge_nm, double width_nm) {
  return 1 / (1 + std::exp(-(nm - edge_nm) / width_nm));
}

Xyz white_of_light(const Spectrum& power) {
  const auto& observer = observer_1931();
  const double y = inner_product(power, observer[1]);
  return {inner_product(power, observer[0]) / y, 1.0, inner_product(power, observer[2]) / y};
}

Xyz xyz_under(const Spectrum& reflectance, const Spectrum& light) {
  const auto& observer = observer_1931();
  const double k = 1 / inner_product(light, observer[1]);
  return {k * inner_product(reflectance, light, observer[0]),
          k * inner_product(reflectance, light, observer[1]),
          k * inner_product(reflectance, light, observer[2])};
}

Xyz xyz_d50(const Spectrum& reflectance) {
  static const auto weights = [] {
    const auto& observer = observer_1931();
    const Spectrum& light = illuminant("D50");
    const double k = 1 / inner_product(light, observer[1]);
    return std::array<Spectrum, 3>{k * (light * observer[0]), k * (light * observer[1]),
                                   k * (light * observer[2])};
  }();
  return {inner_product(reflectance, weights[0]), inner_product(reflectance, weights[1]),
          inner_product(reflectance, weights[2])};
}

Lab lab_of(const Xyz& xyz, const White& white) {
  // ISO/CIE 11664-4: cube root above (6/29)^3, straight line below.
  const auto f = [](double t) {
    return t > 216.0 / 24389.0 ? std::cbrt(t) : (24389.0 / 27.0 * t + 16.0) / 116.0;
  };
  const double fx = f(xyz.x / white.x), fy = f(xyz.y / white.y), fz = f(xyz.z / white.z);
  return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}

Xyz xyz_of(const Lab& lab, const White& white) {
  const auto inverse_f = [](double t) {
    return t > 6.0 / 29.0 ? t * t * t : (116.0 * t - 16.0) * 27.0 / 24389.0;
  };
  const double fy = (lab.l + 16) / 116;
  return {white.x * inverse_f(fy + lab.a / 500), white.y * inverse_f(fy),
          white.z * inverse_f(fy - lab.b / 200)};
}

Lab lab_d50(const Spectrum& reflectance) { return lab_of(xyz_d50(reflectance), white_d50); }

double de00(const Lab& p, const Lab& q) {
  // ISO/CIE 11664-6, in the order of its equations.
  const double degree = std::numbers::pi / 180;
  const double mean_c = (std::hypot(p.a, p.b) + std::hypot(q.a, q.b)) / 2;
  const double c7 = std::pow(mean_c, 7);
  const double g = 0.5 * (1 - std::sqrt(c7 / (c7 + std::pow(25.0, 7))));
  const double ap = (1 + g) * p.a, aq = (1 + g) * q.a;
  const double cp = std::hypot(ap, p.b), cq = std::hypot(aq, q.b);
  const auto hue = [&](double a, double b) {
    const double h = a == 0 && b == 0 ? 0 : std::atan2(b, a) / degree;
    return h < 0 ? h + 360 : h;
  };
  const double hp = hue(ap, p.b), hq = hue(aq, q.b);
  double dh = 0, mean_h = hp + hq;
  if (cp * cq != 0) {
    dh = hq - hp;
    const bool far = std::abs(dh) > 180 + 1e-9;
    if (far) {
      mean_h = (hp + hq < 360 ? hp + hq + 360 : hp + hq - 360) / 2;
      dh += dh > 0 ? -360 : 360;
    } else {
      mean_h = (hp + hq) / 2;
    }
  }
  const double big_dh = 2 * std::sqrt(cp * cq) * std::sin(dh * degree / 2);
  const double mean_l = (p.l + q.l) / 2, mean_cp = (cp + cq) / 2;
  const double t = 1 - 0.17 * std::cos((mean_h - 30) * degree) + 0.24 * std::cos(2 * mean_h * degree) +
                   0.32 * std::cos((3 * mean_h + 6) * degree) - 0.20 * std::cos((4 * mean_h - 63) * degree);
  const double turn = 30 * std::exp(-std::pow((mean_h - 275) / 25, 2));
  const double cp7 = std::pow(mean_cp, 7);
  const double rc = 2 * std::sqrt(cp7 / (cp7 + std::pow(25.0, 7)));
  const double l50 = std::pow(mean_l - 50, 2);
  const double sl = 1 + 0.015 * l50 / std::sqrt(20 + l50), sc = 1 + 0.045 * mean_cp,
               sh = 1 + 0.015 * mean_cp * t;
  const double rt = -std::sin(2 * turn * degree) * rc;
  const double l = (q.l - p.l) / sl, c = (cq - cp) / sc, h = big_dh / sh;
  return std::sqrt(std::max(0.0, l * l + c * c + h * h + rt * c * h));
}

Lab lab_d50_from_d65(const Lab& lab) {
  // Cone matrix of linear Bradford adaptation, ICC.1 annex E.
  const Matrix3 cones{{0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296}};
  const Vector3 from = cones * vector_from(white_d65), to = cones * vector_from(white_d50);
  const Matrix3 scale = Matrix3::diagonal(to[0] / from[0], to[1] / from[1], to[2] / from[2]);
  const Matrix3 adaptation = inverse(cones) * (scale * cones);
  return lab_of(xyz_from(adaptation * vector_from(xyz_of(lab, white_d65))), white_d50);
}

double correlated_temperature_k(const Spectrum& power) {
  const Xyz w = white_of_light(power);
  const double sum = w.x + w.y + w.z, x = w.x / sum, y = w.y / sum;
  const double n = (x - 0.3320) / (0.1858 - y);
  return ((449.0 * n + 3525.0) * n + 6823.3) * n + 5520.33;
}

}  // namespace colorlib::scenes
