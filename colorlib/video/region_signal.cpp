#include <algorithm>
#include <cmath>
#include <colorlib/video/region_signal.hpp>

namespace colorlib {

RegionProbe::RegionProbe(const Regions& regions) {
  constexpr int lattice = 9;
  for (const Region& region : regions.items) {
    const auto [left, top, right, bottom] = region.bounds();
    std::vector<PointMm> places;
    for (int r = 0; r < lattice; ++r)
      for (int c = 0; c < lattice; ++c) {
        const PointMm p{left + (c + 0.5) * (right - left) / lattice,
                        top + (r + 0.5) * (bottom - top) / lattice};
        if (region.contains(p.x, p.y)) places.push_back(p);
      }
    places_.push_back(std::move(places));
  }
}

RegionSignal RegionProbe::signal(const VideoFrame& frame, const Placement& placement) const {
  const FramePlane luma = frame.luma(), blue = frame.blue_difference(), red = frame.red_difference();
  const auto value = [](const FramePlane& plane, double x, double y) {
    const int c = std::clamp(static_cast<int>(x), 0, plane.width - 1),
              r = std::clamp(static_cast<int>(y), 0, plane.height - 1);
    return static_cast<double>(plane.data[static_cast<std::ptrdiff_t>(r) * plane.stride + c * plane.step]);
  };
  RegionSignal signal;
  for (const auto& places : places_) {
    std::array<double, 3> sum{};
    for (const PointMm& place : places) {
      const PointPx p = placement.px_from_mm(place);
      const auto [x, y] = frame.stored(p.x, p.y);
      sum[0] += value(luma, x, y);
      sum[1] += value(blue, 0.5 * x, 0.5 * y);
      sum[2] += value(red, 0.5 * x, 0.5 * y);
    }
    for (double& v : sum) v /= std::max<double>(1, static_cast<double>(places.size()));
    signal.push_back(sum);
  }
  return signal;
}

double signal_step(const RegionSignal& a, const RegionSignal& b) {
  double largest = 0;
  for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i)
    for (std::size_t k = 0; k < 3; ++k) largest = std::max(largest, std::abs(a[i][k] - b[i][k]));
  return largest;
}

}  // namespace colorlib
