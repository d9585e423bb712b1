#include <algorithm>
#include <cmath>
#include <colorlib/specimen/same_regions.hpp>

namespace colorlib {
namespace {

struct Extent {
  double x = 0, y = 0, size = 0;
};

Extent extent_of(const Reading& reading) {
  const auto [left, top, right, bottom] = reading.region.bounds();
  return {(left + right) / 2, (top + bottom) / 2, std::min(right - left, bottom - top)};
}

const Reading& any_of(const RegionInPhotos& region) {
  return **std::find_if(region.begin(), region.end(), [](const Reading* r) { return r != nullptr; });
}

/// Distance of the centres in halves of the smaller extent: below 1 for one region.
double apart(const Reading& a, const Reading& b) {
  const Extent one = extent_of(a), other = extent_of(b);
  return 2 * std::hypot(one.x - other.x, one.y - other.y) / std::max(std::min(one.size, other.size), 1e-9);
}

}  // namespace

std::vector<RegionInPhotos> same_regions(std::span<const std::vector<Reading>> photos, bool by_id) {
  std::vector<RegionInPhotos> regions;
  for (std::size_t photo = 0; photo < photos.size(); ++photo)
    for (const Reading& reading : photos[photo]) {
      RegionInPhotos* best = nullptr;
      double nearest = 1;
      for (RegionInPhotos& region : regions) {
        if (region[photo] != nullptr) continue;
        const Reading& known = any_of(region);
        const double distance = by_id ? (known.id == reading.id ? 0 : 1) : apart(known, reading);
        if (distance >= nearest) continue;
        nearest = distance;
        best = &region;
      }
      if (best == nullptr) best = &regions.emplace_back(RegionInPhotos(photos.size(), nullptr));
      (*best)[photo] = &reading;
    }
  return regions;
}

}  // namespace colorlib
