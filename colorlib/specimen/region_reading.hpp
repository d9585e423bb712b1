#pragma once
/// One region of a calibrated photo to one reading.

#include <colorlib/specimen/reading.hpp>
#include <colorlib/specimen/region_pixels.hpp>
#include <optional>

namespace colorlib {

/// A tolerance (`de00_expanded`) beyond this says nothing: colours ΔE00 20 apart, as brown from olive or pink
/// from red, bear different names in every list. Applied where the cause is the caller's to mend: a stated
/// height, or photos that do not show the same thing.
inline constexpr double says_nothing_de00 = 20;

/// How a specimen may lie off the sheet's plane, where the light is not the paper's.
struct OffPlane {
  /// Relative light a cap or stem of unknown height and slope may get more or less of, one standard
  /// deviation: under light so even that it comes from all round or from far above, and under light whose
  /// evenness over the sheet tells of a near or slanting lamp. Between the two it grows in step with
  /// `CalibrationSummary::lighting_spread_de00`. The project's own choice, on simulated scenes
  /// (docs/explanation/uncertainty.md).
  static constexpr double even_light_share = 0.12, slanting_light_share = 0.27;
  static constexpr double even_spread_de00 = 3, slanting_spread_de00 = 6;
  /// Distance of a near lamp: a height of h mm changes its light by 2 h / distance.
  static constexpr double lamp_distance_mm = 500;

  /// Standard deviation of the relative light for a kind of region; `height_mm` as the user stated it.
  /// `spread_de00`: of the light over the sheet.
  static double light_share(RegionKind kind, std::optional<double> height_mm, double spread_de00);
};

/// Whose trade terms fit a kind of region: reactions' for spots, bruises' for bruises, else deposits'.
TermKind trade_terms_for(RegionKind kind);

/// Never fails: a region that cannot be read honestly comes back refused, with cause and cure. `blur_px`:
/// standard deviation of the spread of sharp borders (`LocatedSheet::blur_px`), for a region that was found.
Reading read_region(const Photo& photo, const Placement& placement, const Calibration& calibration,
                    const ChartDefinition& chart, const Region& region, RegionFrame frame,
                    std::optional<double> height_mm, double blur_px, const Namer& namer);

}  // namespace colorlib
