#pragma once
/// The parts of a reading's Lab covariance, and what they come to as one colour difference.

#include <colorlib/colorimetry/color_types.hpp>
#include <string>
#include <vector>

namespace colorlib {

/// One part of the error budget (JCGM 100: a component of the combined standard uncertainty, here 3x3).
struct BudgetComponent {
  std::string name;      ///< "lack-of-fit", "light", "coefficients", "reference", "glint", "black-level", "noise", "off-plane"
  Matrix3 covariance{};  ///< of (L*, a*, b*)
};

/// Constants of the budget, calibrated as a set on simulated scenes: do not change one alone.
/// See docs/explanation/uncertainty.md.
struct BudgetConstants {
  double lack_of_fit_l = 0.50, lack_of_fit_ab = 0.53;  ///< of a leave-one-out residual, in dE00 units
  double floor_de00 = 0.05;
  double pooled_patches = 3;            ///< how many patches the plain mean counts for beside the near ones
  double near_lab = 30;                 ///< how near is near
  double clip_robust_sd = 4;            ///< of leave-one-out residuals
  double coefficients = 0.52;           ///< of the coefficients' standard uncertainty
  double glint_de00 = 2.8;              ///< L* error, in S_L, at a glint share of 1
  double black_level = 3.5e-4;          ///< relative to white
  double nominal_cast = 1.0;            ///< Lab units: a printer's common cast, when no patch was measured
};

/// The square roots of the diagonal, times 2: expanded uncertainty (k = 2) of each coordinate.
Vector3 expanded_uncertainty(const Matrix3& lab_covariance);

/// 95 % quantile of dE00 between truth and reading when truth - reading ~ N(0, covariance): the quadratic form is
/// approximated by a gamma distribution of the same mean and variance (Satterthwaite); within 3 % of Monte Carlo for
/// uncertainties below 5.
double expanded_de00(const Lab& lab, const Matrix3& lab_covariance);

/// `K`: dLab/d(X, Y, Z) of a proportional change of light by 1: the direction that height and slope move a reading in.
Vector3 proportional_light_direction(const Lab& lab);

/// v v^T.
Matrix3 outer(const Vector3& v);

}  // namespace colorlib
