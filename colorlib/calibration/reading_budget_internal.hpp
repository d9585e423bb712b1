#pragma once
/// The parts of the covariance of one reading, from what the fit left unknown and from the reading's own
/// pixels.

#include <Eigen/Dense>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/calibration/light_rest_internal.hpp>
#include <colorlib/calibration/patch_spread_internal.hpp>
#include <colorlib/calibration/region_color_internal.hpp>
#include <vector>

namespace colorlib {

/// What all readings through one calibration share.
struct ReadingBudget {
  BudgetConstants constants;
  bool developed = true;                 ///< by a camera, not linear
  bool nominal = false;                  ///< no patch of the sheet was measured
  Eigen::MatrixXd covariance;            ///< of the parameters
  Eigen::MatrixXd light_covariance;      ///< the part of it that knowing the light would remove
  Eigen::MatrixXd reference_covariance;  ///< of the parameters, from the references' own uncertainties
  PatchSpread patches;
  LightRest light_rest;

  /// The parts, of a reading that came to the colour `lab` from the mean `mean`. Of the summary: the light's
  /// kind, the paper, local tone mapping.
  std::vector<BudgetComponent> of(const CalibrationSummary& summary, const Lab& lab,
                                  const RegionMean& mean) const;
};

ReadingBudget reading_budget(const UsableSamples& usable, const FitOutcome& fit, ReferenceKind reference);

}  // namespace colorlib
