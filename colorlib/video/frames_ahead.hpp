#pragma once
/// Frames decoded ahead on a thread of their own, so that the decoder works on while one of them is read.

#include <colorlib/video/video_frames.hpp>
#include <condition_variable>
#include <cstddef>
#include <deque>
#include <exception>
#include <mutex>
#include <optional>
#include <thread>

namespace colorlib {

/// Hands on the same frames in the same order as `frames`, which must outlive it and may be used again once
/// this is gone or has come to its end. At most 24 frames wait, 96 MB of them: of 1080p each takes 3 MB.
class FramesAhead {
 public:
  explicit FramesAhead(VideoFrames& frames);
  ~FramesAhead();
  FramesAhead(const FramesAhead&) = delete;
  FramesAhead& operator=(const FramesAhead&) = delete;

  /// As VideoFrames::next; what decoding threw is thrown here.
  Result<std::optional<VideoFrame>> next();

 private:
  void decode();

  VideoFrames& frames_;
  std::size_t most_waiting_;
  std::mutex lock_;
  std::condition_variable changed_;
  std::deque<VideoFrame> waiting_;
  std::optional<Error> problem_;
  std::exception_ptr thrown_;
  bool ended_ = false, stopped_ = false;
  std::thread thread_;
};

}  // namespace colorlib
