#include "tests/accuracy/baselines.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <atomic>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/region_pixels.hpp>
#include <mutex>
#include <thread>

namespace colorlib::accuracy {
namespace {

using Eigen::VectorXd;

constexpr double dark = 1e-4;  // keeps roots and logarithms defined
constexpr double ridge = 1e-6;
constexpr double inner_share = 0.6;  // of a patch's side, as the product samples it

/// One pixel or mean of several: light per channel, already proportional.
using Light = Eigen::Vector3d;

double srgb_light(double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); }

/// The light the paper would show at a photo place, bilinear in the coarse picture of every 8th pixel.
Light paper_at(const ImageF& shown, const PointPx& px, bool linear) {
  const double c = std::clamp(px.x / 8, 0.0, shown.columns - 1.001),
               r = std::clamp(px.y / 8, 0.0, shown.rows - 1.001);
  const int c0 = static_cast<int>(c), r0 = static_cast<int>(r);
  const double tc = c - c0, tr = r - r0;
  Light light;
  for (int k = 0; k < 3; ++k) {
    const double v = (1 - tr) * ((1 - tc) * shown.at(r0, c0)[k] + tc * shown.at(r0, c0 + 1)[k]) +
                     tr * ((1 - tc) * shown.at(r0 + 1, c0)[k] + tc * shown.at(r0 + 1, c0 + 1)[k]);
    light[k] = std::max(linear ? v : srgb_light(v), dark);
  }
  return light;
}

/// A photo's samples before any regression, with and without the flat field.
struct Samples {
  std::vector<Light> patches;
  std::vector<Xyz> references;
  std::vector<bool> neutral;
  std::vector<std::vector<Light>> regions;  ///< pixels
  std::vector<Lab> truths;
};

Light light_of(const scenes::Scene& scene, const Vector3& encoded, const PointPx& px, bool linear,
               bool flat_field) {
  Light light;
  for (int k = 0; k < 3; ++k) {
    const double v = encoded[static_cast<std::size_t>(k)];
    light[k] = std::max(linear ? v : srgb_light(v), dark);
  }
  return flat_field ? Light((light.array() / paper_at(scene.paper_shown, px, linear).array()).matrix())
                    : light;
}

Region rectangle(const RectangleMm& r, double share) {
  const PointMm c = r.centre();
  const double w = 0.5 * share * r.width, h = 0.5 * share * r.height;
  Region region;
  region.shape =
      PolygonShape{{{c.x - w, c.y - h}, {c.x + w, c.y - h}, {c.x + w, c.y + h}, {c.x - w, c.y + h}}};
  return region;
}

std::vector<Light> pixels_of(const scenes::Scene& scene, const Region& region, bool linear, bool flat_field) {
  std::vector<Light> lights;
  const auto [left, top, right, bottom] = region.bounds();
  const double step = std::max(right - left, bottom - top) / 45;  // about 1500 pixels
  for (double y = top + step / 2; y < bottom; y += step) {
    const auto edges = region.crossings(y);
    std::size_t passed = 0;
    for (double x = left + step / 2; x < right; x += step) {
      while (passed < edges.size() && edges[passed] <= x) ++passed;
      if (passed % 2 == 0) continue;
      const PointPx px = scene.view.px_from_mm({x, y});
      const int column = static_cast<int>(std::lround(px.x)), row = static_cast<int>(std::lround(px.y));
      if (column < 0 || row < 0 || column >= scene.photo.width_px() || row >= scene.photo.height_px())
        continue;
      lights.push_back(light_of(scene, scene.photo.encoded_at(column, row), px, linear, flat_field));
    }
  }
  return lights;
}

Light mean_of(const std::vector<Light>& lights) {
  Light sum = Light::Zero();
  for (const Light& l : lights) sum += l;
  return sum / std::max<double>(1, static_cast<double>(lights.size()));
}

Samples samples_of(const scenes::Scene& scene, const ChartDefinition& chart, bool linear, bool flat_field,
                   bool foil) {
  Samples s;
  for (std::size_t i = 0; i < chart.patches.size(); ++i) {
    const auto pixels = pixels_of(scene, rectangle(chart.patches[i].place, inner_share), linear, flat_field);
    if (pixels.empty()) continue;
    const Lab& lab = scene.reference.patches[i].lab;
    s.patches.push_back(mean_of(pixels));
    s.references.push_back(xyz_from_lab(lab, white_d50));
    s.neutral.push_back(std::hypot(lab.a, lab.b) < 6);
  }
  for (const auto& specimen : scene.specimens) {
    s.regions.push_back(pixels_of(scene, specimen.region, linear, flat_field));
    s.truths.push_back(foil ? specimen.covered_mean : specimen.as_seen);
  }
  return s;
}

/// ln Y of the neutrals against ln light, as a cubic: a tone curve that general tools fit to a grey ramp, the
/// same for each channel.
void straighten(Samples& s) {
  Eigen::Matrix4d normal = Eigen::Matrix4d::Identity() * 1e-3;
  Eigen::Vector4d right = Eigen::Vector4d::Zero();
  const auto row_of = [](double light) {
    const double x = std::log(light) / 3;
    return Eigen::Vector4d(1, x, x * x, x * x * x);
  };
  for (std::size_t i = 0; i < s.patches.size(); ++i) {
    if (!s.neutral[i]) continue;
    const Eigen::Vector4d row = row_of(s.patches[i].mean());
    normal += row * row.transpose();
    right += row * std::log(std::max(s.references[i].y, dark));
  }
  const Eigen::Vector4d curve = normal.ldlt().solve(right);
  const auto apply = [&](Light& light) {
    for (int k = 0; k < 3; ++k) light[k] = std::exp(std::clamp(row_of(light[k]).dot(curve), -10.0, 2.0));
  };
  for (auto& patch : s.patches) apply(patch);
  for (auto& region : s.regions)
    for (auto& pixel : region) apply(pixel);
}

VectorXd terms_of(const Light& l, Regression regression) {
  const double r = l[0], g = l[1], b = l[2];
  std::vector<double> t{r, g, b};
  const auto add = [&](std::initializer_list<double> more) { t.insert(t.end(), more); };
  switch (regression) {
    case Regression::grey_balance:
    case Regression::matrix:
      break;
    case Regression::matrix_offset:
      add({1});
      break;
    case Regression::root_3:
      add({std::cbrt(r * g * g), std::cbrt(g * b * b), std::cbrt(r * b * b), std::cbrt(g * r * r),
           std::cbrt(b * g * g), std::cbrt(b * r * r), std::cbrt(r * g * b)});
      [[fallthrough]];
    case Regression::root_2:
      add({std::sqrt(r * g), std::sqrt(g * b), std::sqrt(r * b)});
      break;
    case Regression::polynomial_3:
      add({r * r * r, g * g * g, b * b * b, r * g * g, g * b * b, r * b * b, g * r * r, b * g * g, b * r * r,
           r * g * b});
      [[fallthrough]];
    case Regression::polynomial_2:
      add({1, r * r, g * g, b * b, r * g, g * b, r * b});
      break;
  }
  return Eigen::Map<VectorXd>(t.data(), static_cast<Eigen::Index>(t.size()));
}

/// Rows X, Y, Z by terms. Least squares weighted by Y^(-2/3), roughly equal steps of L*.
Eigen::MatrixXd fitted(const Samples& s, Regression regression, const Matrix3& native_to_srgb) {
  if (regression == Regression::grey_balance) {
    // The lightest neutral made grey, then the standard primaries as they are.
    std::size_t lightest = 0;
    for (std::size_t i = 0; i < s.patches.size(); ++i)
      if (s.neutral[i] && (!s.neutral[lightest] || s.references[i].y > s.references[lightest].y))
        lightest = i;
    const Matrix3 to_xyz{
        {0.4360747, 0.3850649, 0.1430804, 0.2225045, 0.7168786, 0.0606169, 0.0139322, 0.0971045, 0.7141733}};
    const Eigen::Matrix3d native =
        Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(native_to_srgb.m.data());
    const Eigen::Matrix3d xyz =
        Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(to_xyz.m.data());
    const Light grey = native * s.patches[lightest];
    const Eigen::Vector3d gains = s.references[lightest].y * grey.cwiseMax(dark).cwiseInverse();
    return xyz * gains.asDiagonal() * native;
  }
  const auto n = terms_of(s.patches.front(), regression).size();
  Eigen::MatrixXd normal = Eigen::MatrixXd::Identity(n, n) * ridge, right = Eigen::MatrixXd::Zero(n, 3);
  for (std::size_t i = 0; i < s.patches.size(); ++i) {
    const VectorXd t = terms_of(s.patches[i], regression);
    const Xyz& x = s.references[i];
    const double weight = std::pow(std::max(x.y, 1e-3), -4.0 / 3.0);
    normal += weight * t * t.transpose();
    right += weight * t * Eigen::RowVector3d(x.x, x.y, x.z);
  }
  return normal.ldlt().solve(right).transpose();
}

std::vector<double> errors_of(const Samples& s, Regression regression, const Matrix3& native_to_srgb) {
  const Eigen::MatrixXd correction = fitted(s, regression, native_to_srgb);
  std::vector<double> errors;
  for (std::size_t i = 0; i < s.regions.size(); ++i) {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    for (const Light& pixel : s.regions[i]) sum += correction * terms_of(pixel, regression);
    sum /= std::max<double>(1, static_cast<double>(s.regions[i].size()));
    errors.push_back(difference_ciede2000(
        s.truths[i],
        lab_from_xyz({std::max(sum[0], 0.0), std::max(sum[1], 0.0), std::max(sum[2], 0.0)}, white_d50)));
  }
  return errors;
}

}  // namespace

std::string baseline_name(const Baseline& b) {
  static const char* const names[] = {"grey balance",      "3 x 3",        "3 x 4",       "root polynomial 2",
                                      "root polynomial 3", "polynomial 2", "polynomial 3"};
  std::string name = names[static_cast<int>(b.regression)];
  if (b.linearisation == Linearisation::grey_ramp) name += ", grey ramp";
  if (b.flat_field) name += ", true paper";
  return name;
}

std::vector<Baseline> all_baselines(bool linear) {
  std::vector<Baseline> all;
  for (const bool flat : {false, true})
    for (const auto linearisation : {Linearisation::as_encoded, Linearisation::grey_ramp})
      for (int r = 0; r <= static_cast<int>(Regression::polynomial_3); ++r)
        if (!(linear && linearisation == Linearisation::grey_ramp))
          all.push_back({linearisation, static_cast<Regression>(r), flat});
  return all;
}

std::vector<BaselineRun> run_baselines(scenes::Condition condition, const RunSettings& settings) {
  const bool unmarked = condition == scenes::Condition::grid_unmarked;
  const ChartDefinition chart = unmarked ? scenes::grid_chart() : find_chart("frame-a5").value();
  const bool linear = scenes::random_scene(condition, settings.first_seed, settings.pool).linear;
  std::vector<BaselineRun> runs;
  for (const auto& baseline : all_baselines(linear)) runs.push_back({baseline, {}});
  std::mutex guard;
  std::atomic<int> next{0};
  const auto work = [&] {
    for (int index = next++; index < settings.scenes; index = next++) {
      const auto scene_settings = scenes::random_scene(
          condition, settings.first_seed + static_cast<std::uint64_t>(index), settings.pool);
      const scenes::Scene scene = scenes::render(scene_settings, chart);
      const bool foil = scene_settings.substrate == scenes::Substrate::foil;
      for (const bool flat : {false, true}) {
        const Samples plain = samples_of(scene, chart, linear, flat, foil);
        Samples straight = plain;
        if (!linear) straighten(straight);
        for (auto& run : runs) {
          if (run.baseline.flat_field != flat) continue;
          const Samples& samples = run.baseline.linearisation == Linearisation::grey_ramp ? straight : plain;
          const auto errors =
              errors_of(samples, run.baseline.regression, scene.photo.encoding().native_to_srgb);
          const std::lock_guard lock(guard);
          run.de00.insert(run.de00.end(), errors.begin(), errors.end());
        }
      }
    }
  };
  std::vector<std::thread> threads;
  for (unsigned i = 1; i < std::max(1u, std::min(4u, std::thread::hardware_concurrency())); ++i)
    threads.emplace_back(work);
  work();
  for (auto& thread : threads) thread.join();
  return runs;
}

}  // namespace colorlib::accuracy
