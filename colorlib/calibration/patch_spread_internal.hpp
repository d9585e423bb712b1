#pragma once
/// How far the patches of one photo lie from their reference values, over the colours: from this the lack of
/// fit near any colour is judged.

#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/calibration/model_fit_internal.hpp>
#include <colorlib/calibration/usable_samples_internal.hpp>
#include <vector>

namespace colorlib {

/// An entry for each patch used. "Scaled": in units of each Lab axis' own CIEDE2000 weight at the reference.
struct PatchSpread {
  std::vector<Lab> places;                ///< the reference values
  std::vector<Vector3> residual_scaled;   ///< leave-one-out, clipped at robust standard deviations
  std::vector<Vector3> reference_scaled;  ///< standard uncertainty of the references
  std::vector<double> weights;            ///< of the residuals' squares: 1, less for patches of uneven colour
                                          ///< or that the fit doubts
  Vector3 pooled_variance{}, pooled_reference_variance{};  ///< mean squares of the two over all patches
  std::vector<Vector3> transfer_variance;  ///< Lab; empty: the reference values were not carried over

  /// Variance of the scaled residuals near a colour, less what the references' own errors put into them.
  Vector3 variance_near(const Lab& lab, const BudgetConstants& budget) const;
  /// Covariance (Lab) of what carrying the reference over brought into every patch of like colour alike: the
  /// patches' own residuals cannot show it. Only where `transfer_variance` is not empty.
  Matrix3 transferred_near(const Lab& lab, const BudgetConstants& budget) const;
};

PatchSpread patch_spread(const UsableSamples& usable, const FitOutcome& fit, bool carried_over,
                         const BudgetConstants& budget);

}  // namespace colorlib
