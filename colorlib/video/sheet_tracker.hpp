#pragma once
/// Keeps a sheet's placement from frame to frame of a video, between the frames in which it is found anew.

#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/video/video_frames.hpp>
#include <vector>

namespace colorlib {

/// Follows a small picture round each marker (of a sheet without markers: each corner patch) by Lucas and
/// Kanade's method [Lucas1981] on luma, and moves the placement by the affine map that fits their shifts
/// best.
class SheetTracker {
 public:
  /// Starts anew from a frame in which the sheet was found.
  void start(const VideoFrame& frame, const ChartDefinition& chart, const Placement& placement);
  bool started() const { return !anchors_.empty(); }
  /// Where the sheet lies in this frame. False when too few anchors are found again: the placement is then
  /// that of before.
  bool follow(const VideoFrame& frame);
  const Placement& placement() const { return placement_; }
  /// Mean correlation of the anchors followed in the last frame, -1 to 1.
  double quality() const { return quality_; }

 private:
  struct Anchor {
    PointPx start, now;          ///< upright px
    std::vector<float> picture;  ///< luma round it, `side` x `side`, normalised
  };
  static constexpr int side = 13, spacing_px = 2;

  bool follow(const VideoFrame& frame, Anchor& anchor, double& correlation) const;

  Placement first_, placement_;
  std::vector<Anchor> anchors_;
  double quality_ = 0;
};

}  // namespace colorlib
