#pragma once
/// Frames of a video file, one after another. The only header and source that know FFmpeg.

#include <colorlib/base/result.hpp>
#include <colorlib/image/photo.hpp>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

namespace colorlib {

/// What the file says of itself.
struct VideoDescription {
  std::string name;                 ///< file name without folder
  int width_px = 0, height_px = 0;  ///< upright
  double duration_s = 0;            ///< 0: not known
  std::int64_t frames = 0;          ///< about; 0: not known
  std::string codec;
  std::optional<CaptureTime> recorded;  ///< when the recording began, UTC, when the file says so
};

/// One 8-bit plane of a frame as stored (not turned upright); owned by the frame.
struct FramePlane {
  const std::uint8_t* data = nullptr;
  int width = 0, height = 0, stride = 0, step = 1;  ///< `step` bytes from one value to the next
};

/// A decoded frame; cheap to copy, its pixels are shared.
class VideoFrame {
 public:
  struct State;
  VideoFrame() = default;
  explicit VideoFrame(std::shared_ptr<const State> state) : state_(std::move(state)) {}

  std::int64_t number() const;  ///< counted from 0
  double seconds() const;       ///< by the stream's own time stamps, from its first frame
  /// Luma, and the two colour differences at half resolution, as stored. Places are asked for upright: see
  /// `stored`.
  FramePlane luma() const;
  FramePlane blue_difference() const;
  FramePlane red_difference() const;
  /// Where an upright pixel lies in the stored luma.
  std::array<double, 2> stored(double x, double y) const;
  /// The whole frame as a photo: RGB by the stream's own matrix and range, upright.
  Result<Photo> photo() const;

 private:
  std::shared_ptr<const State> state_;
};

/// An open video. Reads forward only; holds a handful of frames.
class VideoFrames {
 public:
  /// Errors: unreadable_photo (missing, damaged, no video in it), unsupported_photo (high dynamic range,
  /// beyond 8192 x 8192 px, no decoder).
  static Result<VideoFrames> open(const std::filesystem::path& path, int threads = 0);
  ~VideoFrames();
  VideoFrames(VideoFrames&&) noexcept;
  VideoFrames& operator=(VideoFrames&&) noexcept;

  const VideoDescription& description() const;
  /// The next frame; nothing at the end. Frames whose time stamp does not lie after the one before, and those
  /// of another size than the first, are left out and counted. Errors: unreadable_photo: nothing could be
  /// decoded at all; unsupported_photo: the first frame is larger than the file said, beyond 8192 x 8192 px.
  Result<std::optional<VideoFrame>> next();
  std::int64_t out_of_order() const;
  std::int64_t of_other_size() const;
  std::int64_t damaged() const;  ///< packets the decoder could not use

 private:
  VideoFrames();
  struct State;
  std::unique_ptr<State> state_;
};

/// Whether a file begins like a video container (MP4 and its kin, Matroska, AVI, MPEG transport stream). By
/// content.
bool looks_like_video(const std::filesystem::path& path);

}  // namespace colorlib
