#pragma once
/// A reaction filmed: every frame is decoded and looked at, a thinned set of them is read.

#include <colorlib/base/progress.hpp>
#include <colorlib/reaction/first_frame.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <colorlib/video/thinning_pace.hpp>
#include <colorlib/video/video_frames.hpp>
#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace colorlib {

struct VideoOptions {
  ThinningRule thinning;
  double least_tracking_quality = 0.8;  ///< below, the sheet is looked for again
  double retry_s = 0.5;                 ///< between attempts to find a sheet that is not seen
  double longest_carry_s = 30;          ///< from the nearest frame with a sheet; beyond, a frame is dropped
  int threads = 0;                      ///< of the decoder; 0: as many as there are cores
};

/// One frame that was read.
struct VideoFrameOutcome {
  std::int64_t number = 0;
  double seconds = 0;  ///< from the first frame, by the stream's time stamps
  std::string name;    ///< "frame 123"
  const Photo* photo = nullptr;
  const PhotoReading* reading = nullptr;  ///< with its own sheet; null for a carried or dropped frame
  std::vector<Reading> carried;  ///< readings through the calibration of the nearest frames with a sheet
  double carried_s = 0;          ///< from the nearest such frame
  std::optional<Error> dropped;
  FrameComparison comparison;
};

struct VideoSummary {
  std::int64_t frames_decoded = 0, frames_read = 0, frames_carried = 0, out_of_order = 0, damaged = 0,
               of_other_size = 0;
  double seconds = 0;  ///< of the last frame
  int paces = 1;       ///< by how much step and pace were widened in the end
  VideoDescription description;
};

using VideoSink = std::function<Result<std::monostate>(const VideoFrameOutcome&)>;

/// One pass over the video, a handful of frames in memory. The sink gets the frames in the order in which
/// they could be finished: carried frames wait for the next frame with a sheet. Errors: of VideoFrames::open;
/// bad_call (no regions in mm); chart_not_found (the sheet is in no frame); cancelled; what the sink returns.
Result<VideoSummary> read_video(const std::filesystem::path& path, const ReadRequest& request,
                                const Namer& namer, const VideoOptions& options, const VideoSink& sink,
                                Progress& progress);

}  // namespace colorlib
