#pragma once
/// Which shape a path has, and which frames are not to be believed.

#include <colorlib/base/progress.hpp>
#include <colorlib/reaction/shape_fit_internal.hpp>

namespace colorlib {

/// One shape with its score, AICc [Hurvich1989]: lower is better; infinite when the frames are too few for
/// it.
struct ScoredFit {
  ShapeFit fit;
  double aicc = 0;
};

struct ModelChoice {
  std::vector<ScoredFit> tried;  ///< one each shape, in the order of PathShape
  std::size_t best = 0;          ///< into `tried`
  std::vector<std::size_t> bad_frames;
  std::vector<bool> left_out;  ///< one a frame
  /// Scale of the stated covariances and the residuals to spare that it stands on, for the best shape.
  double scale_squared = 1, degrees_of_freedom = 1;
};

/// By how much a score must fall besides before a frame is called bad, or a stated moment of application
/// wrong.
inline constexpr double beyond_doubt = 12;

/// Root mean square distance in dE00 of the frames in use from the curve.
double residual_de00(const PathRegression& regression, const std::vector<bool>& left_out,
                     const ShapeFit& fit);

/// Fits every shape. Two steps are not taken where one step misses the frames by no more than a calibration
/// may bend a path: 0.2 and a hundredth of the change, in dE00. A frame is bad when leaving it out, at the
/// price of three parameters and of having picked it among all, makes the best shape better beyond doubt: one
/// in a dozen frames may be. Those `left_out` from the beginning (one a frame) count among them, but for
/// `control_strays` of them. Once cancelled the choice means nothing.
ModelChoice choose_model(const CorrectedPath& path, const TimesRange& range,
                         const std::vector<bool>& left_out, std::size_t control_strays,
                         const Progress& progress);

/// The places of the frames that are left out, ascending.
std::vector<std::size_t> bad_frames_of(const std::vector<bool>& left_out);

/// Sum of squares up to which times belong to their 95 % interval.
double interval_limit(const ModelChoice& choice);

}  // namespace colorlib
