#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/distribution_quantiles.hpp>
#include <colorlib/comparison/precision.hpp>

namespace colorlib {
namespace {

constexpr double limit_factor = 2.8;  // [ISO5725]: 1.96 sqrt(2), rounded

double mean_of(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

PrecisionCell cell_from(const std::vector<double>& values) {
  PrecisionCell cell;
  cell.readings = values.size();
  cell.mean = mean_of(values);
  if (values.size() < 2) return cell;
  double squares = 0;
  for (const double value : values) squares += std::pow(value - cell.mean, 2);
  cell.standard_deviation = std::sqrt(squares / static_cast<double>(values.size() - 1));
  return cell;
}

double h_critical(double collectors, double risk) {
  const double t = student_quantile(1 - risk / 2, collectors - 2);
  return (collectors - 1) * t / std::sqrt(collectors * (t * t + collectors - 2));
}

double k_critical(double collectors, double readings, double risk) {
  const double f = fisher_quantile(1 - risk, readings - 1, (collectors - 1) * (readings - 1));
  return std::sqrt(collectors / (1 + (collectors - 1) / f));
}

double cochran_critical(double collectors, double readings, double risk) {
  const double f = fisher_quantile(1 - risk / collectors, readings - 1, (collectors - 1) * (readings - 1));
  return 1 / (1 + (collectors - 1) / f);
}

/// h: how far each mean lies from the others; k: how each scatter compares with the others.
void add_mandel(Precision& precision) {
  const double collectors = static_cast<double>(precision.cells.size());
  double squares = 0, variances = 0, with_variance = 0;
  for (const auto& cell : precision.cells) {
    squares += cell.bias * cell.bias;
    if (!cell.standard_deviation) continue;
    variances += std::pow(*cell.standard_deviation, 2);
    ++with_variance;
  }
  const double deviation = std::sqrt(squares / (collectors - 1)),
               pooled = std::sqrt(variances / with_variance);
  if (collectors >= 3 && deviation > 0) {
    for (auto& cell : precision.cells) cell.mandel_h = cell.bias / deviation;
    precision.h_critical_5 = h_critical(collectors, 0.05);
    precision.h_critical_1 = h_critical(collectors, 0.01);
  }
  if (with_variance < 2 || !(pooled > 0)) return;
  for (auto& cell : precision.cells) {
    if (!cell.standard_deviation) continue;
    cell.mandel_k = *cell.standard_deviation / pooled;
    cell.k_critical_5 = k_critical(with_variance, static_cast<double>(cell.readings), 0.05);
    cell.k_critical_1 = k_critical(with_variance, static_cast<double>(cell.readings), 0.01);
  }
}

void add_cochran(Precision& precision) {
  double largest = 0, sum = 0, cells = 0, readings = 0;
  for (const auto& cell : precision.cells) {
    if (!cell.standard_deviation) continue;
    largest = std::max(largest, std::pow(*cell.standard_deviation, 2));
    sum += std::pow(*cell.standard_deviation, 2);
    ++cells;
    readings += static_cast<double>(cell.readings);
  }
  if (cells < 2 || !(sum > 0)) return;
  precision.cochran = largest / sum;
  precision.cochran_critical_5 = cochran_critical(cells, readings / cells, 0.05);
  precision.cochran_critical_1 = cochran_critical(cells, readings / cells, 0.01);
}

}  // namespace

Result<Precision> precision_of(const std::vector<std::vector<double>>& cells) {
  constexpr std::string_view what = "Estimating repeatability and reproducibility";
  if (cells.size() < 2)
    return fail(
        ErrorCode::bad_call,
        fmt::format("{}: {} collector{}, two are needed.", what, cells.size(), cells.size() == 1 ? "" : "s"),
        "Add readings of another collector.");
  if (std::any_of(cells.begin(), cells.end(), [](const auto& cell) { return cell.empty(); }))
    return fail(ErrorCode::bad_call, fmt::format("{}: a collector has no reading.", what),
                "Leave that collector out.");
  Precision result;
  double total = 0, sizes_squared = 0, within = 0, grand = 0;
  for (const auto& cell : cells) {
    result.cells.push_back(cell_from(cell));
    const auto& added = result.cells.back();
    const double n = static_cast<double>(cell.size());
    total += n;
    sizes_squared += n * n;
    grand += n * added.mean;
    result.general_mean += added.mean / static_cast<double>(cells.size());
    if (!added.standard_deviation) continue;
    within += (n - 1) * std::pow(*added.standard_deviation, 2);
    result.repeatability_dof += n - 1;
  }
  if (result.repeatability_dof == 0)
    return fail(ErrorCode::bad_call, fmt::format("{}: no collector read an item twice.", what),
                "Repeat the photograph from scratch, two or three times a collector.");
  grand /= total;
  double between = 0;
  for (std::size_t j = 0; j < cells.size(); ++j) {
    result.cells[j].bias = result.cells[j].mean - result.general_mean;
    between += static_cast<double>(cells[j].size()) * std::pow(result.cells[j].mean - grand, 2);
  }
  const double others = static_cast<double>(cells.size() - 1);
  const double repeatability = within / result.repeatability_dof;
  const double mean_size = (total - sizes_squared / total) / others;
  const double between_variance = std::max(0.0, (between / others - repeatability) / mean_size);
  result.repeatability_sd = std::sqrt(repeatability);
  result.between_sd = std::sqrt(between_variance);
  result.reproducibility_sd = std::sqrt(repeatability + between_variance);
  result.repeatability_limit = limit_factor * result.repeatability_sd;
  result.reproducibility_limit = limit_factor * result.reproducibility_sd;
  add_mandel(result);
  add_cochran(result);
  return result;
}

DeviationFactors deviation_interval(double degrees_of_freedom) {
  return {std::sqrt(degrees_of_freedom / chi_squared_quantile(0.975, degrees_of_freedom)),
          std::sqrt(degrees_of_freedom / chi_squared_quantile(0.025, degrees_of_freedom))};
}

std::string beside_critical(double statistic, double critical) {
  constexpr int least = 2, most = 6;
  for (int decimals = least;; ++decimals) {
    const std::string a = fmt::format("{:.{}f}", statistic, decimals),
                      b = fmt::format("{:.{}f}", critical, decimals);
    if ((a != b && a != "-" + b) || decimals == most) return fmt::format("{}, critical {}", a, b);
  }
}

}  // namespace colorlib
