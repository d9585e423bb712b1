#include "tests/accuracy/baseline_table.hpp"

#include "tests/support/quantile.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

namespace colorlib::accuracy {
namespace {}  // namespace

Comparison compare_with_baselines(scenes::Condition condition, const RunSettings& settings) {
  Comparison c;
  const ConditionRun ours = run_condition(condition, settings);
  const Figures figures = figures_of({ours});
  c.condition = ours.condition;
  c.our_median = figures.median;
  c.our_p95 = figures.p95;
  c.best_median = c.best_p95 = c.flat_median = c.flat_p95 = std::numeric_limits<double>::infinity();
  for (const auto& run : run_baselines(condition, settings)) {
    const double median = quantile(run.de00, 0.5), p95 = quantile(run.de00, 0.95);
    double& best_median = run.baseline.flat_field ? c.flat_median : c.best_median;
    double& best_p95 = run.baseline.flat_field ? c.flat_p95 : c.best_p95;
    if (median < best_median) {
      best_median = median;
      (run.baseline.flat_field ? c.flat_method : c.best_method) = baseline_name(run.baseline);
    }
    best_p95 = std::min(best_p95, p95);
  }
  return c;
}

std::string comparison_head() {
  return "| condition | ours | best as it comes | which | ours / it | best after true paper | which | "
         "median, p95 over it |\n"
         "| --- | --- | --- | --- | --- | --- | --- | --- |\n";
}

std::string comparison_row(const Comparison& c) {
  return fmt::format(
      "| {} | {:.2f} / {:.2f} | {:.2f} / {:.2f} | {} | {:.2f} | {:.2f} / {:.2f} | {} | {:.2f}, {:.2f} |\n",
      c.condition, c.our_median, c.our_p95, c.best_median, c.best_p95, c.best_method,
      c.our_median / c.best_median, c.flat_median, c.flat_p95, c.flat_method, c.our_median / c.flat_median,
      c.our_p95 / c.flat_p95);
}

}  // namespace colorlib::accuracy
