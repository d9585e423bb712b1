#pragma once
/// Which frames of a video are read, and how much fewer of them as more have been.

#include <cstdint>

namespace colorlib {

/// A frame is read when the mean luma or colour difference of any region has moved by `step_levels` since the
/// last frame that was read, at most every `fastest_s` - and then the frame just before the move as well;
/// else when `slowest_s` have passed. Once `most_frames` / 2 were read with their sheet, step and pace are
/// doubled, and so on: there are seldom many more than `most_frames`. Frames in which the sheet was looked
/// for in vain do not count.
struct ThinningRule {
  bool every_frame = false;
  double step_levels = 1.5;  ///< of 256: about 0.6 L*
  double fastest_s = 0.2;
  double slowest_s = 5.0;
  int most_frames = 240;
  /// Step and pace are widened no further: 96 levels, a frame every 13 s to 5 min by the values above, so
  /// that the end of a long video is not passed over.
  static constexpr int widest_pace = 64;
};

/// By how much step and pace are widened once `with_sheet` frames were read: 1, 2, 4, ... up to the widest.
int thinning_pace(const ThinningRule& rule, std::int64_t with_sheet);

}  // namespace colorlib
