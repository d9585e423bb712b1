#pragma once
/// Which readings of several photos are of the same region.

#include <colorlib/specimen/reading.hpp>
#include <span>
#include <vector>

namespace colorlib {

/// One region, in as many photos as there are; null where a photo does not have it.
using RegionInPhotos = std::vector<const Reading*>;

/// By id when the caller drew the regions. Otherwise, on the sheet (mm), by place: two regions are one when
/// the centre of one lies nearer to the other's than half of the smaller one's extent. In the order of first
/// appearance. The pointers are into `photos`.
std::vector<RegionInPhotos> same_regions(std::span<const std::vector<Reading>> photos, bool by_id);

}  // namespace colorlib
