#include "tests/accuracy/accuracy_run.hpp"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <atomic>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <map>
#include <mutex>
#include <optional>
#include <stdexcept>
#include <thread>

#include "tests/support/quantile.hpp"

namespace colorlib::accuracy {
namespace {

double placement_rms(const scenes::Scene& scene, const ChartDefinition& chart, const Placement& placement) {
  double sum = 0;
  int count = 0;
  for (int i = 0; i <= 10; ++i)
    for (int j = 0; j <= 10; ++j) {
      const PointMm p{chart.width_mm * i / 10, chart.height_mm * j / 10};
      const PointPx truth = scene.view.px_from_mm(p), found = placement.px_from_mm(p);
      sum += std::pow(truth.x - found.x, 2) + std::pow(truth.y - found.y, 2);
      ++count;
    }
  return std::sqrt(sum / count);
}

Outcome outcome_of(const Reading& reading, const scenes::SpecimenTruth& truth, std::uint64_t seed,
                   bool foil) {
  // A mirror has no colour of its own: on foil the deposit's colour is the truth, without the bare gaps.
  const Lab& wanted = foil ? truth.covered_mean : truth.as_seen;
  Outcome outcome;
  outcome.de00 = difference_ciede2000(wanted, reading.lab);
  outcome.de00_expanded = reading.de00_expanded;
  const Eigen::Vector3d error(reading.lab.l - wanted.l, reading.lab.a - wanted.a, reading.lab.b - wanted.b);
  const Eigen::Matrix3d covariance =
      Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(reading.lab_covariance.m.data());
  outcome.mahalanobis_squared = error.dot(covariance.ldlt().solve(error));
  for (int axis = 0; axis < 3; ++axis) {
    outcome.error[static_cast<std::size_t>(axis)] = error[axis];
    outcome.expanded[static_cast<std::size_t>(axis)] = reading.lab_expanded[static_cast<std::size_t>(axis)];
  }
  outcome.l = wanted.l;
  outcome.kind = truth.kind;
  outcome.family = truth.pigment_family;
  outcome.seed = seed;
  outcome.reading = reading.lab;
  outcome.glint_share = reading.glint_share;
  outcome.budget = reading.budget;
  return outcome;
}

std::string lights_of(const scenes::SceneSettings& settings) {
  std::string names;
  for (const auto& light : settings.lights) names += (names.empty() ? "" : " + ") + light.color.name;
  return names;
}

/// What a user would say the light was.
LightKind light_as_stated(const scenes::SceneSettings& settings) {
  return settings.lights.size() > 1 ? LightKind::mixed : settings.lights.front().kind;
}

void add_reading(const scenes::SceneSettings& settings, const scenes::Scene& scene,
                 const Result<PhotoReading>& reading, ConditionRun& run) {
  ++run.scenes;
  run.regions += static_cast<int>(scene.specimens.size());
  if (!reading) {
    ++run.refused_scenes;
    run.refusals.push_back(
        fmt::format("{} seed {}: {}", run.condition, settings.seed, reading.error().message));
    return;
  }
  run.placement_rms_px.push_back(placement_rms(scene, reading->chart, reading->sheet.placement));
  run.flagged_curled += reading->sheet.curled;
  for (std::size_t i = 0; i < reading->readings.size(); ++i) {
    const Reading& one = reading->readings[i];
    if (one.refused) {
      ++run.refused_regions;
      run.refusals.push_back(
          fmt::format("{} seed {}: {}", run.condition, settings.seed, one.refused->message));
      continue;
    }
    run.outcomes.push_back(
        outcome_of(one, scene.specimens[i], settings.seed, settings.substrate == scenes::Substrate::foil));
    run.outcomes.back().calibration = reading->calibration.summary();
    run.outcomes.back().light = lights_of(settings);
    run.outcomes.back().light_kind = light_as_stated(settings);
  }
}

/// Threads finish in any order; the report should not.
void put_in_order(ConditionRun& run) {
  std::sort(run.outcomes.begin(), run.outcomes.end(), [](const Outcome& a, const Outcome& b) {
    return std::pair(a.seed, a.de00) < std::pair(b.seed, b.de00);
  });
  std::sort(run.refusals.begin(), run.refusals.end());
}

enum class Asked { light_unstated, both };

TwoReadings run_scenes(scenes::Condition condition, const RunSettings& settings, Asked asked) {
  const Namer namer = Namer::load(data_folder()).value();
  const bool unmarked = condition == scenes::Condition::grid_unmarked;
  const ChartDefinition chart =
      unmarked
          ? scenes::grid_chart()
          : find_chart(condition == scenes::Condition::thin_two_backings ? "two-backings-a5" : "frame-a5")
                .value();
  TwoReadings runs;
  runs.light_unstated.condition = runs.light_stated.condition = scenes::condition_name(condition);
  std::mutex guard;
  std::atomic<int> next{0};
  const auto work = [&] {
    for (int index = next++; index < settings.scenes; index = next++) {
      const std::uint64_t seed = settings.first_seed + static_cast<std::uint64_t>(index);
      auto scene_settings = scenes::random_scene(condition, seed, settings.pool);
      scene_settings.linear |= settings.raw;
      const scenes::Scene scene = scenes::render(scene_settings, chart);
      ReadRequest request;
      request.candidates = {chart};
      request.reference_values = scene.reference;
      request.regions = scenes::true_regions(scene);
      if (unmarked) request.corners = scene.corners_px;
      if (condition != scenes::Condition::raised) request.height_mm = 0;
      Progress quiet;
      const auto plain = read_photo(scene.photo, request, namer, quiet);
      std::optional<Result<PhotoReading>> stated;
      if (asked == Asked::both) {
        request.light = light_as_stated(scene_settings);
        stated.emplace(read_photo(scene.photo, request, namer, quiet));
      }
      const std::lock_guard lock(guard);
      add_reading(scene_settings, scene, plain, runs.light_unstated);
      if (stated) add_reading(scene_settings, scene, *stated, runs.light_stated);
    }
  };
  std::vector<std::thread> threads;
  for (unsigned i = 1; i < std::max(1u, std::min(4u, std::thread::hardware_concurrency())); ++i)
    threads.emplace_back(work);
  work();
  for (auto& thread : threads) thread.join();
  put_in_order(runs.light_unstated);
  put_in_order(runs.light_stated);
  return runs;
}

}  // namespace

ConditionRun run_condition(scenes::Condition condition, const RunSettings& settings) {
  return run_scenes(condition, settings, Asked::light_unstated).light_unstated;
}

TwoReadings run_condition_twice(scenes::Condition condition, const RunSettings& settings) {
  return run_scenes(condition, settings, Asked::both);
}

Figures figures_of(const std::vector<ConditionRun>& runs) {
  Figures f;
  std::vector<double> errors, stated;
  bool usable = true;
  double covered = 0, joint = 0, regions = 0, refused = 0, scenes = 0, refused_scenes = 0;
  std::array<double, 3> axis{};
  std::map<std::pair<std::string, std::uint64_t>, std::pair<double, double>> by_scene;  // covered, readings
  for (const auto& run : runs) {
    // A hard shadow across the opening is to be refused.
    usable = usable && run.condition != scenes::condition_name(scenes::Condition::shadow_edge);
    regions += run.regions;
    scenes += run.scenes;
    refused_scenes += run.refused_scenes;
    for (const auto& o : run.outcomes) {
      errors.push_back(o.de00);
      stated.push_back(o.de00_expanded);
      const bool held = o.de00 <= o.de00_expanded;
      covered += held;
      auto& [held_there, there] = by_scene[{run.condition, o.seed}];
      held_there += held, ++there;
      joint += o.mahalanobis_squared <= 7.815;
      for (std::size_t k = 0; k < 3; ++k) axis[k] += std::abs(o.error[k]) <= o.expanded[k];
    }
  }
  f.readings = errors.size();
  refused = regions - static_cast<double>(errors.size());
  // Up to 3 % of the regions may be refused for free; the rest count as readings that missed.
  const double total =
      static_cast<double>(errors.size()) + (usable ? std::max(0.0, refused - 0.03 * regions) : 0);
  f.median = quantile(errors, 0.5);
  f.p95 = quantile(errors, 0.95);
  f.worst = quantile(errors, 1);
  f.covered = covered / total;
  f.covered_joint = joint / total;
  for (const auto& [scene, counts] : by_scene)
    f.covered_standard_error += std::pow(counts.first - f.covered * counts.second, 2);
  f.covered_standard_error = std::sqrt(f.covered_standard_error) / total;
  for (std::size_t k = 0; k < 3; ++k) f.covered_axis[k] = axis[k] / total;
  f.median_expanded = quantile(stated, 0.5);
  f.refused = regions > 0 ? refused / regions : 0;
  return f;
}

std::string table_head() {
  return "| condition | readings | median | p95 | max | covered | joint | L / a / b | median U | refused |\n"
         "| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
}

std::string table_row(const std::string& name, const Figures& f) {
  return fmt::format(
      "| {} | {} | {:.2f} | {:.2f} | {:.2f} | {:.1f} ± {:.1f} % | {:.1f} % | {:.0f} / {:.0f} / {:.0f} | "
      "{:.2f} | {:.1f} % |\n",
      name, f.readings, f.median, f.p95, f.worst, 100 * f.covered, 100 * f.covered_standard_error,
      100 * f.covered_joint, 100 * f.covered_axis[0], 100 * f.covered_axis[1], 100 * f.covered_axis[2],
      f.median_expanded, 100 * f.refused);
}

ConditionRun under_light(const ConditionRun& run, LightKind kind) {
  ConditionRun part;
  part.condition = run.condition;
  for (const auto& outcome : run.outcomes)
    if (outcome.light_kind == kind) part.outcomes.push_back(outcome);
  return part;
}

std::string light_said_head() {
  return "| condition | readings | median | covered, unsaid | median U | covered, said | L / a / b | median "
         "U | over median |\n"
         "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n";
}

std::string light_said_row(const std::string& name, const Figures& unsaid, const Figures& said) {
  return fmt::format(
      "| {} | {} | {:.2f} | {:.1f} ± {:.1f} % | {:.2f} | {:.1f} ± {:.1f} % | {:.0f} / {:.0f} / {:.0f} | "
      "{:.2f} | {:.1f} |\n",
      name, said.readings, said.median, 100 * unsaid.covered, 100 * unsaid.covered_standard_error,
      unsaid.median_expanded, 100 * said.covered, 100 * said.covered_standard_error,
      100 * said.covered_axis[0], 100 * said.covered_axis[1], 100 * said.covered_axis[2],
      said.median_expanded, said.median_expanded / said.median);
}

}  // namespace colorlib::accuracy
