/// Prints the accuracy table: accuracy_table [tuning|broad|held-out|measured] [scenes] [first seed]
/// [condition ...] [--stated] [--raw] [--list] [--budget]
/// --stated says what the light of each photo was; --raw takes every photo as raw values; --list adds one
/// line a reading, for looking into a condition; --budget one with the parts of its covariance, for
/// calibrating the constants of the error budget.

#include <fmt/format.h>

#include <cstdlib>
#include <cstring>

#include "tests/accuracy/accuracy_run.hpp"

int main(int count, char** words) {
  using namespace colorlib;
  accuracy::RunSettings settings;
  std::vector<scenes::Condition> conditions;
  bool list = false, budget = false, stated = false;
  int position = 0;
  for (int i = 1; i < count; ++i) {
    if (std::strcmp(words[i], "--list") == 0) {
      list = true;
    } else if (std::strcmp(words[i], "--raw") == 0) {
      settings.raw = true;
    } else if (std::strcmp(words[i], "--stated") == 0) {
      stated = true;
    } else if (std::strcmp(words[i], "--budget") == 0) {
      budget = true;
    } else if (const auto condition = scenes::condition_from(words[i])) {
      conditions.push_back(*condition);
    } else if (position == 0) {
      settings.pool = std::strcmp(words[i], "held-out") == 0   ? scenes::Pool::held_out
                      : std::strcmp(words[i], "broad") == 0    ? scenes::Pool::broad
                      : std::strcmp(words[i], "measured") == 0 ? scenes::Pool::measured
                                                               : scenes::Pool::tuning;
      ++position;
    } else if (position == 1) {
      settings.scenes = std::atoi(words[i]);
      ++position;
    } else {
      settings.first_seed = std::strtoull(words[i], nullptr, 10);
    }
  }
  if (conditions.empty()) conditions = scenes::all_conditions();
  fmt::print("{}", accuracy::table_head());
  std::vector<accuracy::ConditionRun> runs;
  for (const auto condition : conditions) {
    runs.push_back(stated ? accuracy::run_condition_twice(condition, settings).light_stated
                          : accuracy::run_condition(condition, settings));
    const auto& run = runs.back();
    fmt::print("{}", accuracy::table_row(run.condition, accuracy::figures_of({run})));
    std::fflush(stdout);
    if (budget)
      for (const auto& o : run.outcomes) {
        fmt::print("BUDGET {} {} {} {:.4f} {:.4f} {:.4f} {:.4f} {:.4f} {:.4f} {:.4f} {:.4f}", run.condition,
                   o.seed, region_kind_name(o.kind), o.reading.l, o.reading.a, o.reading.b, o.error[0],
                   o.error[1], o.error[2], o.glint_share, o.calibration.check_de00_mean);
        fmt::print(" {:.3f} {:.3f} {:.3f} {:.3f} {:.3f} {:.3f} {:.3f} {:.4f}",
                   o.calibration.check_de00_median, o.calibration.check_de00_p95, o.calibration.paper.l,
                   o.calibration.paper.a, o.calibration.paper.b, o.calibration.local_tone,
                   o.calibration.lighting_spread_de00, o.calibration.light_odds.unlike_daylight());
        for (const auto& share : o.calibration.channel_shares)
          fmt::print(" {:.5f} {:.5f} {:.5f}", share[0], share[1], share[2]);
        const auto white = o.calibration.white_from_daylight.value_or(std::array{0.0, 0.0});
        fmt::print(" {:.5f} {:.5f} {:.5f}", o.calibration.lighting_tint, white[0], white[1]);
        for (const auto& part : o.budget) {
          fmt::print(" {}", part.name);
          for (const int k : {0, 1, 2, 4, 5, 8})
            fmt::print(" {:.6g}", part.covariance.m[static_cast<std::size_t>(k)]);
        }
        fmt::print(" light '{}'\n", o.light);
      }
    if (!list) continue;
    for (const auto& o : run.outcomes)
      fmt::print(
          "{:>4} {:<10} {:<16} {:<24} L*{:5.1f} dE00 {:5.2f} U {:5.2f} {} err {:+.2f} {:+.2f} {:+.2f} exp "
          "{:.2f} {:.2f} {:.2f}\n",
          o.seed, region_kind_name(o.kind), o.family, o.light, o.l, o.de00, o.de00_expanded,
          o.de00 <= o.de00_expanded ? " " : "*", o.error[0], o.error[1], o.error[2], o.expanded[0],
          o.expanded[1], o.expanded[2]);
    for (const auto& sentence : run.refusals) fmt::print("refused: {}\n", sentence);
    if (!run.placement_rms_px.empty()) {
      double worst = 0;
      for (const double rms : run.placement_rms_px) worst = std::max(worst, rms);
      fmt::print("placement: worst rms {:.2f} px; curled said {} times\n", worst, run.flagged_curled);
    }
  }
  if (runs.size() > 1) fmt::print("{}", accuracy::table_row("all", accuracy::figures_of(runs)));
  for (const auto kind : {LightKind::daylight, LightKind::lamp, LightKind::tube, LightKind::mixed}) {
    std::vector<accuracy::ConditionRun> under;
    for (const auto& run : runs) under.push_back(accuracy::under_light(run, kind));
    if (const auto figures = accuracy::figures_of(under); figures.readings > 0)
      fmt::print("{}", accuracy::table_row(light_kind_name(kind), figures));
  }
  return 0;
}
