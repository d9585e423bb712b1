#pragma once
/// Finds the specimen in each opening of the sheet.

#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/regions.hpp>
#include <string>
#include <vector>

namespace colorlib {

struct FoundSpecimen {
  Region region;                ///< kind deposit, a polygon in mm on the sheet, drawn in from the rim
  double area_mm2 = 0;          ///< of the specimen up to its rim
  bool fills_opening = false;   ///< no ground was seen: the whole opening was taken
  bool two_grounds = false;     ///< the opening shows two cards: what is like either was taken for card
  bool across_grounds = false;  ///< it lies on both, and where they meet under it is not known
};

struct FinderOptions {
  double cell_mm = 0.5;
  double ring_mm = 5;          ///< along the opening's edge, where the bare ground is looked for
  double edge_gap_mm = 1.5;    ///< left out along the opening's edge: cut edge, shadow
  double least_contrast = 5;   ///< Lab distance from the ground
  double least_spreads = 4;    ///< and in robust standard deviations of the ground
  double least_area_mm2 = 12;  ///< smaller finds are dirt
  double rim_mm = 1.0;         ///< drawn in from the rim: thin edge of a deposit, shadow of a raised one
  double least_hole_mm2 =
      3;  ///< bare spots such as the stem's are left out; smaller gaps are part of the deposit
  std::size_t most_specimens = 12;
};

/// Specimens of all openings, largest first within each; ids are the opening's, with "-1", "-2", ... when
/// there are several. On a sheet with backings each backing is searched for itself; what lies
/// across two loose cards is parted where they meet. Empty when nothing stands
/// out from the ground.
std::vector<FoundSpecimen> find_specimens(const Photo& photo, const ChartDefinition& chart,
                                          const Placement& placement, const Calibration& calibration,
                                          const FinderOptions& options);

}  // namespace colorlib
