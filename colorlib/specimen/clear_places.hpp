#pragma once
/// Where a deposit that was found shows its colour alone: not at its rim, nor beside gaps, where blur and
/// thinning mix the ground's colour into it.

#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/cell_mask.hpp>
#include <colorlib/specimen/regions.hpp>
#include <optional>

namespace colorlib {

/// How clear places are looked for; the project's own choice, on simulated deposits.
struct ClearOptions {
  double cell_mm = 0.1;               ///< of the map; never finer than the photo's pixels
  double most_cells = 150'000;        ///< of the map: wider cells for larger regions
  double layer_mm = 0.25;             ///< along the edges colours are compared layer by layer
  double widest_rim_mm = 2;           ///< how far in a rim may thin out, blur apart
  double blur_reach = 3;              ///< standard deviations of the blur over which an edge spreads
  double like_core_de00 = 1;          ///< a layer so near the core's colour is clear of the edge
  double spare_px = 1.5;              ///< kept away from the edge beyond that
  double least_core_share = 0.3;      ///< of the region: its deepest places, whatever their depth
  double bare_share_of_way = 0.6;     ///< from the core's colour to the ground's: ground lies bare there
  double least_ground_contrast = 15;  ///< Lab units: a ground less unlike the core is not looked for in gaps
};

struct ClearPlaces {
  CellMask mask;             ///< in the region's frame
  double clear_share = 1;    ///< of the region
  double bare_share = 0;     ///< of the region: ground in gaps
  double rim_mm = 0;         ///< how far from the edges the clear places begin
  Matrix3 lab_covariance{};  ///< what is left of the edges in the mean of the clear places

  bool contains(double x, double y) const;
};

/// The distance from the outline and from bare gaps at which the colour has become that of the deposit's
/// core, and what lies so deep. At least `least_core_share` of the region is kept; what the edges may then
/// still do to the mean colour is in `lab_covariance`. `blur_px`: standard deviation of the spread of sharp
/// borders in the photo; `ground`: what the deposit lies on, where that is known and matt.
ClearPlaces clear_places(const Photo& photo, const Placement& placement, const Calibration& calibration,
                         const Region& region, RegionFrame frame, double blur_px,
                         const std::optional<Xyz>& ground, const ClearOptions& options = {});

}  // namespace colorlib
