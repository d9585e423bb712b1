#pragma once
/// Repeatability and reproducibility of one quantity over several collectors [ISO5725, part 2].

#include <colorlib/base/result.hpp>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// One collector's repeats of one item, in the unit of the quantity.
struct PrecisionCell {
  std::size_t readings = 0;
  double mean = 0;
  std::optional<double> standard_deviation;  ///< with two readings or more
  double bias = 0;                           ///< mean - general mean
  std::optional<double> mandel_h;            ///< with three collectors or more, when their means differ
  std::optional<double> mandel_k;            ///< where there is a standard deviation
  std::optional<double> k_critical_5,
      k_critical_1;  ///< two-collector rounds and more; by this cell's readings
};

struct Precision {
  std::vector<PrecisionCell> cells;  ///< in the order given
  double general_mean = 0;           ///< of the cell means
  double repeatability_sd = 0;       ///< s_r
  double between_sd = 0;             ///< s_L, 0 when the means scatter less than the repeats explain
  double reproducibility_sd = 0;     ///< s_R
  double repeatability_limit =
      0;  ///< r = 2.8 s_r: what two repeats of one collector differ by at most (95 %)
  double reproducibility_limit = 0;  ///< R = 2.8 s_R: the same for two collectors
  double repeatability_dof = 0;      ///< sum of n - 1
  std::optional<double> h_critical_5, h_critical_1;
  std::optional<double> cochran;  ///< largest variance / sum of variances, over the cells with one
  std::optional<double> cochran_critical_5, cochran_critical_1;  ///< for the mean number of repeats
};

/// `cells[j]` holds the readings of collector j (none empty; numbers need not be equal). Means of groups of
/// unequal size are weighted as [ISO5725, part 2] says: s_L^2 = (s_d^2 - s_r^2) / n', n' = (N - sum n^2 / N)
/// / (p - 1). Critical values at 5 % and 1 % are computed from the t and F distributions. Errors: bad_call
/// with fewer than two collectors, an empty cell, or no cell with two readings.
Result<Precision> precision_of(const std::vector<std::vector<double>>& cells);

/// "1.438, critical 1.431": two decimals, and as many more as tell the statistic from its critical value (at
/// most six).
std::string beside_critical(double statistic, double critical);

/// The 95 % interval of a true standard deviation, as factors on an estimate with `degrees_of_freedom` >= 1.
struct DeviationFactors {
  double low = 0, high = 0;
};
DeviationFactors deviation_interval(double degrees_of_freedom);

}  // namespace colorlib
