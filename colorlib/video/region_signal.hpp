#pragma once
/// What a video frame shows of each region, cheaply: means of luma and colour differences.

#include <array>
#include <colorlib/chart/placement.hpp>
#include <colorlib/specimen/regions.hpp>
#include <colorlib/video/video_frames.hpp>
#include <vector>

namespace colorlib {

/// Means of Y, Cb, Cr in levels of 256, one a region.
using RegionSignal = std::vector<std::array<double, 3>>;

/// Looks at some sixty places of each region.
class RegionProbe {
 public:
  explicit RegionProbe(const Regions& regions);
  RegionSignal signal(const VideoFrame& frame, const Placement& placement) const;

 private:
  std::vector<std::vector<PointMm>> places_;
};

/// The largest difference of any mean.
double signal_step(const RegionSignal& a, const RegionSignal& b);

}  // namespace colorlib
