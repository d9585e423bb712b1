#pragma once
/// The frame that all others of a series are compared with: what moved on the sheet, and what changed.

#include <colorlib/reaction/change_map.hpp>
#include <colorlib/reaction/frame_alignment.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// How one region moved.
struct RegionMovement {
  std::string id;
  Movement movement;
  bool followed = false;  ///< the region was moved along and read again
};

/// One frame beside the first.
struct FrameComparison {
  std::vector<RegionMovement> movements;  ///< of the regions with something to hold on to
  std::vector<ChangedArea> areas;         ///< one a spot or bruise
  std::optional<Error> untrusted;         ///< why the frame should be dropped
};

struct FirstFrameOptions {
  double px_per_mm = 4;
  double margin_share = 2.0;  ///< of a region's size, looked at around it on every side
  double least_margin_mm = 4;
  double least_movement_mm = 0.25;  ///< less is placing error
  double least_turn_deg = 1.5;
  double trusted_quality = 0.6;  ///< correlation above which a movement is believed
  double quality_gain = 0.1;     ///< over standing still
  double lost_quality =
      0.2;  ///< below, in every region that can be followed: something else is in the picture
  AlignmentOptions alignment;
  ChangedAreaOptions area;
};

/// Holds windows of the first frame, a few hundred kilobytes; its methods may be called from several threads.
class FirstFrame {
 public:
  /// Regions in millimetres only: without them it compares nothing.
  FirstFrame(const Photo& photo, const PhotoReading& reading, const ReadRequest& request,
             FirstFrameOptions options = {});

  /// Follows the regions; those that moved are read again where they are now, in `reading`.
  FrameComparison compare(const Photo& photo, PhotoReading& reading, const ReadRequest& request,
                          const Namer& namer) const;

 private:
  struct Part {
    Region region;
    Xyz xyz;                 ///< of its reading; 0 when refused
    RectifiedWindow window;  ///< with the margin in which it may move
    RectifiedWindow look;    ///< the same at half the resolution, enough to see that nothing moved
    RectifiedWindow core;    ///< the region alone
    MovementFinder finder, look_finder;
  };
  /// What light did to the spot's controls of a kind since the first frame: factors of X, Y, Z; 1 without
  /// any.
  Vector3 control_factor(const PhotoReading& reading, const Region& spot, RegionKind kind) const;
  /// By how much water alone would have changed the spot.
  double wetting_de00(const PhotoReading& reading, const Region& spot, const Vector3& light) const;
  bool in_treated(const PointMm& p, double grown) const;

  FirstFrameOptions options_;
  std::vector<Part> parts_;
};

}  // namespace colorlib
