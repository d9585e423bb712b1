#pragma once
/// Where on the sheet a colour has changed, and how far the stain reaches.

#include <colorlib/base/image.hpp>
#include <colorlib/reaction/rectified_window.hpp>
#include <colorlib/specimen/regions.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// dE00 of every pixel of a window against the same place before; NaN where either is unknown.
struct ChangeMap {
  RectangleMm place;
  double px_per_mm = 1;
  ImageF de00;
};

/// `now` against `before` (same size), after each pixel of `now` was freed of what untreated tissue did
/// since, which is the light's doing: factors of X, Y, Z (1, 1, 1 without controls). Both are smoothed over 3
/// x 3 pixels first.
ChangeMap change_map(const RectifiedWindow& before, const RectifiedWindow& now,
                     const Vector3& control_factor);

/// The changed area round a spot.
struct ChangedArea {
  std::string id;        ///< of the spot
  double area_mm2 = 0;   ///< connected, touching the spot, above `tolerance_de00`
  double radius_mm = 0;  ///< of a disc of that area
  PointMm centre;        ///< of the area, weighted by change
  bool ring =
      false;  ///< its rim has changed more than its middle: the reaction creeps outward or is used up inside
  double noise_de00 = 0;      ///< what the map shows by itself where nothing was done: 95 % quantile
  double tolerance_de00 = 0;  ///< used: never below the noise
  bool trusted = false;  ///< false: the map's own noise hides a change of the size looked for, and the rest
                         ///< means nothing
};

struct ChangedAreaOptions {
  double tolerance_de00 = 2.0;  ///< smaller changes are "the same colour" (default_tolerance_de00)
  double noise_factor = 2.0;    ///< the tolerance is at least this times the map's noise
  /// What water alone does to this tissue: only the wetted part shows it, so it cannot be taken out of the
  /// whole map and raises the tolerance instead.
  double wetting_de00 = 0;
  double most_noise_de00 = 5.0;  ///< above: no map is trusted
  double least_area_mm2 = 0.5;   ///< smaller stains are dirt and noise
};

/// 95 % quantile of dE00 over the pixels of `place`: what a map shows by itself where nothing was done. None
/// with fewer than 50 pixels.
std::optional<double> map_noise_de00(const ChangeMap& map, const Region& place);

/// `noise_de00` as measured where nothing was done; without it no map is trusted.
ChangedArea changed_area(const ChangeMap& map, const Region& spot, std::optional<double> noise_de00,
                         const ChangedAreaOptions& options = {});

/// One moment of a growing stain.
struct SpreadPoint {
  double seconds = 0, radius_mm = 0;
};
/// How fast a stain's radius grows while it grows, mm/s: the slope of a straight line through the moments
/// between a tenth and nine tenths of its largest radius, time from the first to the last of them included.
/// None with fewer than three such moments or a stain below 0.5 mm. `points` by time.
std::optional<double> spreading_speed_mm_s(const std::vector<SpreadPoint>& points);

}  // namespace colorlib
