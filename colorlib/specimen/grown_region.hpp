#pragma once
/// A region grown from one place: what has its colour and hangs together with it.

#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <colorlib/specimen/regions.hpp>

namespace colorlib {

struct GrowOptions {
  double tolerance_de00 = 5;   ///< from the mean colour round the start
  double cell_mm = 0.4;        ///< of the lattice; the outline is no finer
  double start_radius_mm = 1;  ///< over which the start's colour is averaged
  double least_area_mm2 = 3;
  double least_hole_mm2 = 3;  ///< smaller gaps are filled
};

/// The cells of a lattice over the sheet (clipped to the opening that holds `start`, if one does) whose
/// calibrated colour is within the tolerance of that at `start` and which hang together with it, as a polygon
/// in mm; kind and id are the caller's. Errors: bad_call (start off the sheet or outside the photo),
/// untrustworthy (less than `least_area_mm2` hangs together; the advice says what to change), cancelled.
Result<Region> grow_region(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                           const Calibration& calibration, const PointMm& start, const GrowOptions& options,
                           Progress& progress);

}  // namespace colorlib
