#include <algorithm>
#include <colorlib/video/frames_ahead.hpp>

namespace colorlib {

namespace {

std::size_t most_waiting(const VideoDescription& about) {
  constexpr double most_frames = 24, most_bytes = 96e6;
  const double bytes = 1.5 * std::max(1, about.width_px) * std::max(1, about.height_px);
  return static_cast<std::size_t>(std::clamp(most_bytes / bytes, 1.0, most_frames));
}

}  // namespace

FramesAhead::FramesAhead(VideoFrames& frames)
    : frames_(frames), most_waiting_(most_waiting(frames.description())), thread_([this] {
        try {
          decode();
        } catch (...) {
          const std::lock_guard guard(lock_);
          thrown_ = std::current_exception();
          ended_ = true;
          changed_.notify_all();
        }
      }) {}

FramesAhead::~FramesAhead() {
  {
    const std::lock_guard guard(lock_);
    stopped_ = true;
  }
  changed_.notify_all();
  thread_.join();
}

void FramesAhead::decode() {
  for (;;) {
    auto frame = frames_.next();
    std::unique_lock guard(lock_);
    if (!frame) problem_ = frame.error();
    ended_ = !frame || !*frame;
    if (!ended_) {
      changed_.wait(guard, [&] { return stopped_ || waiting_.size() < most_waiting_; });
      if (!stopped_) waiting_.push_back(std::move(**frame));
    }
    changed_.notify_all();
    if (ended_ || stopped_) return;
  }
}

Result<std::optional<VideoFrame>> FramesAhead::next() {
  std::unique_lock guard(lock_);
  changed_.wait(guard, [&] { return ended_ || !waiting_.empty(); });
  if (waiting_.empty()) {
    if (thrown_) std::rethrow_exception(thrown_);
    if (problem_) return fail(*problem_);
    return std::optional<VideoFrame>();
  }
  std::optional<VideoFrame> frame(std::move(waiting_.front()));
  waiting_.pop_front();
  changed_.notify_all();
  return frame;
}

}  // namespace colorlib
