#pragma once
/// From places seen in the photo to the sheet's placement.

#include <array>
#include <colorlib/chart/placement.hpp>
#include <optional>
#include <span>
#include <vector>

namespace colorlib {

struct PointPair {
  PointMm sheet;
  PointPx photo;
};

/// The homography sheet mm -> photo px of least algebraic error (DLT with Hartley's normalisation: Hartley &
/// Zisserman, Multiple View Geometry, 2nd ed., algorithm 4.2). Scaled so that the third coordinate is 1 at
/// the pairs' mean. Nothing when fewer than four pairs, they are degenerate, or a pair ends up behind the
/// camera.
std::optional<Matrix3> homography_from_pairs(std::span<const PointPair> pairs);

/// A sheet point that was seen to lie on the line through `photo` across `normal` (unit): one equation. A
/// point seen in both coordinates is two of these.
struct EdgeObservation {
  PointMm sheet;
  PointPx photo;
  PointPx normal;
  double sd_px = 0.1;
};

struct PlacementFitOptions {
  double radial_mean = 0,
         radial_sd = 0.03;  ///< prior: lenses of phones and cameras after their own correction
  /// Whether observations may lose all their weight (Tukey) after the first rounds. Not when little else
  /// would hold the sheet.
  bool reject = true;
  /// Added in squares to every sd: print, paper and lens are not exact.
  double model_sd_px = 0.08;
};

struct PlacementFit {
  Placement placement;
  std::vector<double> residuals_px;  ///< along the normals, seen minus fitted; one per observation
  std::vector<double> weights;       ///< robust, 0 to 1; 0: not believed
  double rms_px = 0;                 ///< of the residuals with weight above 0
  double scale = 1;                  ///< robust size of residual / sd, at least 1
  /// Of the nine parameters in the fit's own normalised units, for `placement_sd_px`.
  std::array<double, 81> covariance{};
  PointMm sheet_centre;  ///< the normalisation used
  double sheet_unit_mm = 1;
};

/// Gauss-Newton with Levenberg's damping over homography and radial term, iteratively reweighted (Huber
/// at 1.345, then Tukey at 4.685 robust standard deviations). `start` gives the first guess, the photo's
/// centre and its half diagonal. Nothing when there are fewer than eight observations or the fit does not
/// settle on a sheet in front of the camera.
std::optional<PlacementFit> fit_placement(const Placement& start,
                                          std::span<const EdgeObservation> observations,
                                          const PlacementFitOptions& options);

/// Standard uncertainty of where `p` lies in the photo, px, in its worst direction: what the observations
/// leave open.
double placement_sd_px(const PlacementFit& fit, const PointMm& p);

}  // namespace colorlib
