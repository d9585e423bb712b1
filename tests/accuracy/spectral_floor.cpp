#include "tests/accuracy/spectral_floor.hpp"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/chart/chart_definition.hpp>
#include <map>

#include "tests/scenes/exposure.hpp"
#include "tests/scenes/printed_sheet.hpp"
#include "tests/support/quantile.hpp"

namespace colorlib::accuracy {
namespace {

using scenes::Spectrum;
using Correction = Eigen::Matrix<double, 3, 6>;

struct Sample {
  Eigen::Vector3d camera;  ///< white = 1
  Lab lab;                 ///< D50
};

Eigen::Matrix<double, 6, 1> root_terms(const Eigen::Vector3d& c) {
  Eigen::Matrix<double, 6, 1> terms;
  terms << c[0], c[1], c[2], std::sqrt(c[0] * c[1]), std::sqrt(c[1] * c[2]), std::sqrt(c[0] * c[2]);
  return terms;
}

Lab corrected(const Correction& correction, const Eigen::Vector3d& camera) {
  const Eigen::Vector3d xyz = (correction * root_terms(camera)).cwiseMax(1e-4);
  return scenes::lab_of({xyz[0], xyz[1], xyz[2]}, white_d50);
}

/// Errors of all samples, each axis divided by its weight in ΔE00.
Eigen::VectorXd errors(const Correction& correction, const std::vector<Sample>& samples) {
  Eigen::VectorXd e(3 * static_cast<Eigen::Index>(samples.size()));
  for (std::size_t i = 0; i < samples.size(); ++i) {
    const Lab got = corrected(correction, samples[i].camera), &wanted = samples[i].lab;
    const double chroma_weight = 1 + 0.045 * std::hypot(wanted.a, wanted.b);
    e.segment<3>(3 * static_cast<Eigen::Index>(i)) << got.l - wanted.l, (got.a - wanted.a) / chroma_weight,
        (got.b - wanted.b) / chroma_weight;
  }
  return e;
}

/// Root polynomial of degree 2 [Finlayson 2015], least squares in weighted Lab by Gauss-Newton with numerical
/// derivatives.
Correction fitted(const std::vector<Sample>& samples) {
  const auto rows = static_cast<Eigen::Index>(samples.size());
  Eigen::MatrixXd terms(rows, 6), wanted(rows, 3);
  for (Eigen::Index i = 0; i < rows; ++i) {
    const Sample& s = samples[static_cast<std::size_t>(i)];
    const Xyz xyz = scenes::xyz_of(s.lab, white_d50);
    const double weight = std::pow(xyz.y, -2.0 / 3);
    terms.row(i) = weight * root_terms(s.camera).transpose();
    wanted.row(i) = weight * Eigen::RowVector3d(xyz.x, xyz.y, xyz.z);
  }
  Correction correction = terms.colPivHouseholderQr().solve(wanted).transpose();
  for (int round = 0; round < 6; ++round) {
    const Eigen::VectorXd now = errors(correction, samples);
    Eigen::MatrixXd jacobian(now.size(), 18);
    for (int k = 0; k < 18; ++k) {
      constexpr double step = 1e-5;
      Correction moved = correction;
      moved(k / 6, k % 6) += step;
      jacobian.col(k) = (errors(moved, samples) - now) / step;
    }
    Eigen::MatrixXd normal = jacobian.transpose() * jacobian;
    normal.diagonal().array() += 1e-6;
    const Eigen::VectorXd move = normal.ldlt().solve(-jacobian.transpose() * now);
    for (int k = 0; k < 18; ++k) correction(k / 6, k % 6) += move[k];
  }
  return correction;
}

/// Colours to be learnt from under one scene's lamp and camera.
class Scenery {
 public:
  explicit Scenery(const scenes::SceneSettings& settings)
      : settings_(settings),
        light_(mix_of(settings)),
        white_(scenes::camera_response(settings.camera, scenes::constant_spectrum(1), light_)) {}

  Sample seen(const Spectrum& reflectance) const {
    const Vector3 c = scenes::camera_response(settings_.camera, reflectance, light_);
    return {{c[0] / white_[0], c[1] / white_[1], c[2] / white_[2]}, scenes::lab_d50(reflectance)};
  }
  std::vector<Sample> patches(const ChartDefinition& chart, const scenes::SheetSettings& sheet,
                              std::uint64_t stream) const {
    scenes::Random random(settings_.seed, stream);
    const scenes::Press press(sheet.inks, sheet.paper);
    std::vector<Sample> samples;
    for (const auto& patch : chart.patches) {
      const auto off = [&](double at) { return at + random.normal(0, sheet.print_random_sd); };
      const Lab wanted{off(patch.nominal_lab.l), off(patch.nominal_lab.a), off(patch.nominal_lab.b)};
      samples.push_back(seen(press.print(press.amounts_for(wanted))));
    }
    return samples;
  }
  std::vector<Sample> pigments(scenes::Pool pool, int count) const {
    scenes::Random random(settings_.seed, 22);
    std::vector<Sample> samples;
    for (int i = 0; i < count; ++i)
      samples.push_back(seen(scenes::random_pigment(random, pool, i % 2 == 0).masstone));
    return samples;
  }

 private:
  /// Of the lights at the sheet's centre.
  static Spectrum mix_of(const scenes::SceneSettings& settings) {
    const auto lights = scenes::unit_lights(settings);
    Spectrum mix;
    for (std::size_t l = 0; l < lights.size(); ++l) mix = mix + settings.lights[l].share * lights[l];
    return mix;
  }

  const scenes::SceneSettings& settings_;
  Spectrum light_;
  Vector3 white_;
};

}  // namespace

std::vector<FloorRow> spectral_floor(scenes::Condition condition, scenes::Pool pool, std::uint64_t first_seed,
                                     int scene_count) {
  constexpr int learnt_pigments = 200;
  const ChartDefinition chart = find_chart("frame-a5").value();
  const scenes::Pool other = scenes::held_out_materials(pool) ? scenes::Pool::tuning : scenes::Pool::held_out;
  std::map<Learnt, std::vector<double>> de00;
  for (int i = 0; i < scene_count; ++i) {
    const std::uint64_t seed = first_seed + static_cast<std::uint64_t>(i);
    const auto settings = scenes::random_scene(condition, seed, pool);
    const Scenery scenery(settings);
    const Correction from_inks = fitted(scenery.patches(chart, settings.sheet, 21));
    const std::map<Learnt, Correction> corrections{
        {Learnt::inks, from_inks},
        {Learnt::own_pigments, fitted(scenery.pigments(pool, learnt_pigments))},
        {Learnt::other_pigments, fitted(scenery.pigments(other, learnt_pigments))}};
    const auto off = [](const Sample& sample, const Correction& correction) {
      return scenes::de00(sample.lab, corrected(correction, sample.camera));
    };
    for (const auto& specimen : settings.specimens)
      for (const auto& [learnt, correction] : corrections)
        de00[learnt].push_back(off(scenery.seen(specimen.pigment.masstone), correction));
    const auto other_print = scenes::random_scene(condition, seed + 20'000, pool).sheet;
    for (const Sample& patch : scenery.patches(chart, other_print, 23))
      de00[Learnt::inks_for_print].push_back(off(patch, from_inks));
  }
  std::vector<FloorRow> rows;
  for (const auto& [learnt, errors] : de00)
    rows.push_back(
        {scenes::condition_name(condition), learnt, quantile(errors, 0.5), quantile(errors, 0.95)});
  return rows;
}

std::string floor_head() {
  return "| spectra | light | learnt from the chart's inks | from other pigments | from the same pigments | "
         "another press's print, learnt from the chart's inks |\n| --- | --- | --- | --- | --- | --- |\n";
}

std::string floor_row(const std::string& pool, const std::vector<FloorRow>& rows) {
  const auto cell = [&](Learnt learnt) {
    for (const auto& row : rows)
      if (row.learnt == learnt) return fmt::format("{:.2f} / {:.2f}", row.median, row.p95);
    return std::string("-");
  };
  return fmt::format("| {} | {} | {} | {} | {} | {} |\n", pool, rows.front().light, cell(Learnt::inks),
                     cell(Learnt::other_pigments), cell(Learnt::own_pigments), cell(Learnt::inks_for_print));
}

}  // namespace colorlib::accuracy
