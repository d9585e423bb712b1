#pragma once
/// What a photo shows of a deposit as a film of uneven thickness, and of the bare ground beside it.

#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/bare_ground.hpp>
#include <colorlib/specimen/narrow_responses.hpp>
#include <colorlib/specimen/regions.hpp>
#include <vector>

namespace colorlib {

struct ClearPlaces;
class OwnColors;

struct FilmSample {
  /// Mean responses of equal shares of the film, from the share that looks most like the ground to the one
  /// least like it.
  std::vector<Vector3> shares;
  /// Standard deviation of the responses' cube roots from noise alone in one cell of the size that was
  /// sorted.
  Vector3 noise{};
  Lab seen;  ///< as read
  Matrix3 seen_covariance{};
  Lab ground;  ///< of the bare ground, as read
  Matrix3 ground_covariance{};
};

/// How a film and its ground are looked at.
struct FilmOptions {
  double cell_mm = 0.4;  ///< pixels are averaged over such cells before they are sorted, against noise
  std::size_t shares = 9;
  GroundOptions ground;
  std::size_t least_cells = 40;
  double most_cells = 5000;  ///< about: wider steps for larger films
};

/// `seen` and its covariance are the reading of `region`; `others` are left out of the ground. The ground is
/// the commonest colour in a ring round the region, inside the opening or the backing that holds it. `clear`:
/// of the region only these places were read; null: all.
/// `own`: what lies on the film is left out; null: nothing does. Errors (untrustworthy): too small a film, no
/// bare ground beside it, a ground that mirrors or is unevenly lit.
Result<FilmSample> sample_film(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                               const Calibration& calibration, const Region& region, RegionFrame frame,
                               const std::vector<Region>& others, const Lab& seen,
                               const Matrix3& seen_covariance, const FilmOptions& options,
                               const ClearPlaces* clear = nullptr, const OwnColors* own = nullptr);

}  // namespace colorlib
