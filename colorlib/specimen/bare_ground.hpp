#pragma once
/// The bare ground that a deposit lies on, as the photo shows it beside the deposit.

#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/regions.hpp>
#include <vector>

namespace colorlib {

struct BareGround {
  CalibratedColor color;
  /// Standard deviation of the narrow responses' cube roots from noise alone, in one cell.
  Vector3 noise{};
};

/// How the ground is looked for.
struct GroundOptions {
  double cell_mm = 0.4;  ///< pixels are averaged over such cells, against noise
  double ring_mm = 15;   ///< how far beside the region
  double spread = 4;     ///< Lab units: cells so near the commonest colour are ground
  double most_unevenness =
      4;  ///< Lab units, median distance of the ground's cells: more is no matt, even ground
  std::size_t least_cells = 40;
  double most_cells = 6000;  ///< about: wider steps for larger rings
};

/// The commonest colour in a ring round the region, inside the opening or the backing that holds it and
/// outside `others`. Errors (untrustworthy): no bare ground, or one that mirrors or is unevenly lit.
Result<BareGround> bare_ground(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                               const Calibration& calibration, const Region& region, RegionFrame frame,
                               const std::vector<Region>& others, const GroundOptions& options);

}  // namespace colorlib
