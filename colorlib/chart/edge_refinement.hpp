#pragma once
/// Where a straight border between two colours lies, to a few hundredths of a pixel, in linear light.

#include <colorlib/chart/geometry.hpp>
#include <colorlib/image/photo.hpp>
#include <optional>

namespace colorlib {

/// One spot of a border, as expected.
struct EdgeSearch {
  PointPx at;      ///< where the border is expected
  PointPx normal;  ///< across it, unit length, pointing outward
  double reach_px =
      6;  ///< the profile runs from -reach to +reach along the normal; no other border may lie inside
  double clear_px =
      1e9;  ///< from the border to the next ones beside it: their blur must not be taken for this one's
  double half_length_px = 3;  ///< profiles are averaged over this far to either side along the border
  double spread_px = 1;      ///< of the photo's edges, as far as known: slopes are taken over a quarter of it
  int brighter_outside = 0;  ///< +1 or -1 demands that the outside is brighter or darker; 0 takes either
};

/// The same spot, as seen.
struct EdgeFound {
  double offset_px = 0;  ///< along the normal, positive outward, from EdgeSearch::at
  double sd_px = 0;      ///< standard uncertainty of `offset_px` from the profile's noise
  double spread_px = 0;  ///< standard deviation of the photo's edge spread (blur and pixel together)
  /// The same from where the step is a tenth and nine tenths done: for wide blurs, as it leans less on their
  /// shape. Within a tenth for a Gaussian, a lens out of focus, motion and a peak with long tails.
  double wide_spread_px = 0;
  double contrast = 0;  ///< linear light, outside minus inside, in the channel mix of strongest contrast
};

/// Measures one spot. Undone tone curve first: blur is symmetric in linear light only, in encoded values a
/// dark square shrinks by up to 0.7 px. The channels are mixed in proportion to their contrast, the profile's
/// position is the balance of areas about the step, which no symmetric blur and no pixel phase shifts. Error
/// bound: 0.05 px rms for a step of 20 times the noise and a blur of 0.6 to 2 px. Nothing when the spot
/// leaves the photo, the contrast drowns in noise, the profile is not one step, or the step runs the wrong
/// way.
std::optional<EdgeFound> locate_edge(const Photo& photo, const EdgeSearch& search);

}  // namespace colorlib
