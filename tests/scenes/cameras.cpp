#include "tests/scenes/cameras.hpp"

#include <algorithm>
#include <cmath>

#include "tests/scenes/cameras_internal.hpp"
#include "tests/scenes/published_spectra.hpp"

namespace colorlib::scenes {
namespace {

/// Linear sRGB from XYZ relative to D65, computed from the primaries' chromaticities of IEC 61966-2-1.
const Matrix3& srgb_from_xyz() {
  static const Matrix3 m = [] {
    const double x[] = {0.64, 0.30, 0.15}, y[] = {0.33, 0.60, 0.06};
    Matrix3 primaries;
    for (int k = 0; k < 3; ++k) {
      primaries(0, k) = x[k] / y[k];
      primaries(1, k) = 1;
      primaries(2, k) = (1 - x[k] - y[k]) / y[k];
    }
    const Vector3 scale = inverse(primaries) * vector_from(white_d65);
    return inverse(primaries * Matrix3::diagonal(scale[0], scale[1], scale[2]));
  }();
  return m;
}

/// The maker's training reflectances: smooth humps, edges and dips on greys, none of them a chart's or a
/// specimen's.
const std::vector<Spectrum>& training_reflectances() {
  static const std::vector<Spectrum> set = [] {
    std::vector<Spectrum> s;
    Random random(20310417);
    for (int i = 0; i < 60; ++i) {
      const double base = random.uniform(0.04, 0.5), height = random.uniform(0.1, 0.9 - base);
      const double at = random.uniform(420, 680), width = random.uniform(25, 80);
      const int kind = i % 3;
      s.push_back(spectrum_of([&](double nm) {
        if (kind == 0) return base + height * bell(nm, at, width);
        if (kind == 1) return base + height * step_up(nm, at, width / 4);
        return base + height * (1 - bell(nm, at, width));
      }));
    }
    return s;
  }();
  return set;
}

struct TrainingPair {
  Vector3 camera, target;
};

std::vector<TrainingPair> training_pairs(const Camera& camera, const Spectrum& light) {
  // The maker wants the sRGB of each reflectance as it looks in daylight: computed under D65.
  const Vector3 white = camera_response(camera, constant_spectrum(1), light);
  std::vector<TrainingPair> pairs;
  for (const Spectrum& r : training_reflectances()) {
    Vector3 c = camera_response(camera, r, light);
    for (std::size_t k = 0; k < 3; ++k) c[k] /= white[k];
    pairs.push_back({c, srgb_from_xyz() * vector_from(xyz_under(r, illuminant("D65")))});
  }
  return pairs;
}

}  // namespace

namespace {

/// How far makers get from a free shape towards one that a matrix turns into the observer's (Luther's
/// condition): measured cameras leave some 0.4 to 1 dE00 on smooth reflectances in daylight, and with this
/// share these do too.
constexpr double colorimetric_share = 0.55;

/// The nearest mixture of the observer's curves, by least squares.
Spectrum nearest_observer_mixture(const Spectrum& curve) {
  const auto& xyz = observer_1931();
  Matrix3 normal;
  Vector3 right{};
  for (int i = 0; i < 3; ++i) {
    const auto& a = xyz[static_cast<std::size_t>(i)];
    right[static_cast<std::size_t>(i)] = inner_product(a, curve);
    for (int j = 0; j < 3; ++j) normal(i, j) = inner_product(a, xyz[static_cast<std::size_t>(j)]);
  }
  const Vector3 amounts = inverse(normal) * right;
  return amounts[0] * xyz[0] + amounts[1] * xyz[1] + amounts[2] * xyz[2];
}

}  // namespace

Camera finished_camera(std::string name, std::array<Spectrum, 3> curves, double short_cut_nm,
                       double long_cut_nm) {
  for (Spectrum& s : curves) {
    s = (1 - colorimetric_share) * s + colorimetric_share * nearest_observer_mixture(s);
    for (int i = 0; i < wave_count; ++i)
      s[i] =
          std::max(0.0, s[i]) * step_up(wave_nm(i), short_cut_nm, 5) * step_up(-wave_nm(i), -long_cut_nm, 7);
    s = 1 / *std::max_element(s.at.begin(), s.at.end()) * s;
  }
  return {std::move(name), curves};
}

const std::vector<Camera>& cameras(Pool pool) {
  static const std::vector<Camera> tuning = tuning_cameras(), held = held_out::cameras(),
                                   measured = measured_cameras();
  return pool == Pool::held_out ? held : pool == Pool::measured ? measured : tuning;
}

Camera random_camera(Random& random, Pool pool) {
  const auto& set = cameras(pool);
  Camera camera = set[static_cast<std::size_t>(random.below(static_cast<int>(set.size())))];
  if (pool == Pool::measured) return camera;
  for (Spectrum& s : camera.sensitivity) {
    const double shift_nm = random.normal(0, 1.2), stretch = 1 + random.normal(0, 0.012);
    const double centre = 550;
    const Spectrum before = s;
    s = spectrum_of([&](double nm) {
      const double from = (centre + (nm - centre - shift_nm) / stretch - first_wave_nm) / wave_step_nm;
      if (from <= 0 || from >= wave_count - 1) return 0.0;
      const int low = static_cast<int>(from);
      return before[low] + (from - low) * (before[low + 1] - before[low]);
    });
  }
  return camera;
}

Vector3 camera_response(const Camera& camera, const Spectrum& reflectance, const Spectrum& light) {
  return {inner_product(camera.sensitivity[0], reflectance, light),
          inner_product(camera.sensitivity[1], reflectance, light),
          inner_product(camera.sensitivity[2], reflectance, light)};
}

Matrix3 maker_matrix(const Camera& camera, const Spectrum& light) {
  const auto pairs = training_pairs(camera, light);
  // Each row (p, q, 1 - p - q) keeps white; least squares in p and q.
  Matrix3 m;
  for (int row = 0; row < 3; ++row) {
    double a00 = 0, a01 = 0, a11 = 0, b0 = 0, b1 = 0;
    for (const auto& [c, target] : pairs) {
      const double u = c[0] - c[2], v = c[1] - c[2], w = target[static_cast<std::size_t>(row)] - c[2];
      a00 += u * u, a01 += u * v, a11 += v * v, b0 += u * w, b1 += v * w;
    }
    const double d = a00 * a11 - a01 * a01;
    m(row, 0) = (a11 * b0 - a01 * b1) / d;
    m(row, 1) = (a00 * b1 - a01 * b0) / d;
    m(row, 2) = 1 - m(row, 0) - m(row, 1);
  }
  return m;
}

MakerFit maker_fit(const Camera& camera, const Spectrum& light) {
  const Matrix3 m = maker_matrix(camera, light), to_xyz = inverse(srgb_from_xyz());
  MakerFit fit;
  const auto pairs = training_pairs(camera, light);
  for (const auto& [c, target] : pairs) {
    const double d =
        de00(lab_of(xyz_from(to_xyz * (m * c)), white_d65), lab_of(xyz_from(to_xyz * target), white_d65));
    fit.mean_de00 += d / static_cast<double>(pairs.size());
    fit.worst_de00 = std::max(fit.worst_de00, d);
  }
  return fit;
}

}  // namespace colorlib::scenes
