#pragma once
/// Several photos of one specimen: one estimate, how well they agree, and the one that does not belong.

#include <colorlib/specimen/reading.hpp>
#include <span>
#include <vector>

namespace colorlib {

/// The part of a colour's covariance that another photo of the same specimen and sheet has, too: reference,
/// lack of fit and whatever else has no name of its own below. Noise, light, coefficients, glint and black
/// level differ from photo to photo.
bool shared_between_photos(std::string_view component);

struct TogetherOptions {
  /// A photo is an outlier when it lies this many standard deviations of what photos differ by from the
  /// others: three degrees of freedom, 1 in 1000 good ones.
  double outlier_distance = 4.03;
  /// Photos differ by at least this much, dE00 units a coordinate: placement of the region, the hand that
  /// held the camera.
  double least_difference = 0.15;
};

/// The same region read in several photos. `readings` that were refused are passed over; at least two must
/// stand. The mean of the photos that agree; its covariance is the shared part plus what differs, divided by
/// the number of photos: the larger of what the budgets say and what the photos show (JCGM 100, 4.2 and 5.1).
/// With three or more photos the farthest is left out while it lies beyond the limit from the median of the
/// others and most photos remain; of two none is. Words are left to the caller. Errors: untrustworthy, when
/// fewer than two stand.
Result<Reading> combined(std::span<const Reading* const> readings, const TogetherOptions& options);

}  // namespace colorlib
