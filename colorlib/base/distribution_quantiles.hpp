#pragma once
/// Quantiles and tails of the distributions that tests and intervals stand on (computed by Boost.Math).

namespace colorlib {

/// x with P(X <= x) = `probability`, for 0 < probability < 1 and positive degrees of freedom (they need not
/// be whole). Relative error below 1e-10 (checked against published tables and an independent
/// implementation).
double normal_quantile(double probability);
double student_quantile(double probability, double degrees_of_freedom);
double chi_squared_quantile(double probability, double degrees_of_freedom);
double fisher_quantile(double probability, double numerator_dof, double denominator_dof);

/// P(X > x) for x >= 0; infinite x gives 0.
double chi_squared_upper_tail(double x, double degrees_of_freedom);

}  // namespace colorlib
