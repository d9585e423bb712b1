#pragma once
/// One region of a calibrated photo to one reading.

#include <colorlib/specimen/reading.hpp>
#include <colorlib/specimen/region_pixels.hpp>
#include <optional>

namespace colorlib {

/// How a specimen may lie off the sheet's plane, where the light is not the paper's.
struct OffPlane {
  /// Relative light a cap or stem of unknown height and slope may get more or less of: slopes of about 12 degrees and
  /// heights of a centimetre or two under a mostly direct light from 45 degrees, one standard deviation. The project's own choice.
  static constexpr double unknown_light_share = 0.18;
  /// Distance of a near lamp: a height of h mm changes its light by 2 h / distance.
  static constexpr double lamp_distance_mm = 500;

  /// Standard deviation of the relative light for a kind of region; `height_mm` as the user stated it.
  static double light_share(RegionKind kind, std::optional<double> height_mm);
};

/// Whose trade terms fit a kind of region: reactions' for spots, bruises' for bruises, else deposits'.
TermKind trade_terms_for(RegionKind kind);

/// Never fails: a region that cannot be read honestly comes back refused, with cause and cure.
Reading read_region(const Photo& photo, const Placement& placement, const Calibration& calibration,
                    const ChartDefinition& chart, const Region& region, RegionFrame frame,
                    std::optional<double> height_mm, const Namer& namer);

}  // namespace colorlib
