#pragma once
/// Which of several photos of one specimen do not belong to the others.

#include <colorlib/specimen/together.hpp>
#include <span>
#include <vector>

namespace colorlib {

/// How far a photo lies from the median of the others, in standard deviations of what photos differ by.
double distance_from(const Reading& reading, const std::vector<const Reading*>& others,
                     const TogetherOptions& options);

/// Indices of the photos that stand, in rising order: those whose mean counts, and those left out.
struct OutlierPhotos {
  std::vector<std::size_t> used, left_out;
};
OutlierPhotos outlier_photos(std::span<const Reading* const> readings, const TogetherOptions& options);

}  // namespace colorlib
