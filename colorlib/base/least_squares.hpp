#pragma once
/// Nonlinear least squares: parameters, their standard errors, and why the search ended.

#include <colorlib/base/result.hpp>
#include <cstddef>
#include <functional>
#include <string_view>
#include <vector>

namespace colorlib {

/// The sum of squares of `residual_count` residuals over the parameters of `start` is to be made small.
/// Residuals count in units of their standard deviation, or all in one unknown unit. A Gaussian prior on a
/// parameter is one residual more: (parameter - mean) / sd.
struct LeastSquaresProblem {
  std::size_t residual_count = 0;
  /// Fills `residuals` (already of size `residual_count`). A value that is not finite says: not defined here.
  std::function<void(const std::vector<double>& parameters, std::vector<double>& residuals)> residuals;
  /// Fills `jacobian`, row-major, residual_count x parameters: d residual / d parameter. Left out: central
  /// differences.
  std::function<void(const std::vector<double>& parameters, std::vector<double>& jacobian)> jacobian;
  std::vector<double> start;
  std::vector<double> lower, upper;  ///< bounds, one each parameter; empty for none
};

struct LeastSquaresOptions {
  int most_iterations = 1000;      ///< steps tried; the certified sets need up to some 200
  double step_tolerance = 1e-12;   ///< relative to the parameters; 1e-6 serves where 3 digits do
  double slope_tolerance = 1e-10;  ///< largest cosine between the residuals and a column of the Jacobian
};

enum class LeastSquaresStop {
  slope,            ///< the residuals are at right angles to every column of the Jacobian: a minimum
  small_step,       ///< the next step changes nothing that counts
  no_better_step,   ///< rounding hides any further descent
  exact,            ///< the residuals are zero
  iteration_limit,  ///< not at a minimum
  undefined_start,  ///< the residuals are not finite at the start
};
/// "at a minimum: ...", for a person.
std::string_view stop_sentence(LeastSquaresStop stop);

struct LeastSquaresFit {
  std::vector<double> parameters;
  double residual_sum_of_squares = 0;
  double residual_sd = 0;  ///< s = sqrt(RSS / (residuals - parameters)); 0 with no residual to spare
  /// s^2 (J^T J)^-1, row-major; a parameter at its bound, and one that no residual feels, has zero rows.
  /// Valid where the model is nearly linear within the errors: check by profile where it matters.
  std::vector<double> covariance;
  std::vector<double> standard_errors;
  int iterations = 0;
  LeastSquaresStop stop = LeastSquaresStop::undefined_start;
  bool converged() const {
    return stop != LeastSquaresStop::iteration_limit && stop != LeastSquaresStop::undefined_start;
  }
};

/// A local minimum downhill of `start`, by Levenberg and Marquardt [Marquardt1963] on an orthogonal
/// factorisation, damping each parameter by its own scale, steps cut off at the bounds. Meets the ten
/// certified sets of [StRD2003] from both starts to 6 digits or more, in parameters and standard errors.
/// Errors: bad_call (no residuals or parameters, bounds of another size or crossed, a start outside of them).
Result<LeastSquaresFit> least_squares(const LeastSquaresProblem& problem,
                                      const LeastSquaresOptions& options = {});

}  // namespace colorlib
