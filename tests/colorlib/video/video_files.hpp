#pragma once
/// Videos that tests make themselves.

#include <colorlib/base/image.hpp>
#include <filesystem>
#include <memory>
#include <string>

namespace colorlib {

struct VideoFileSettings {
  int width_px = 640, height_px = 360;
  std::string codec = "libx264";  ///< as the library names its encoders
  /// As the library names them; "yuvj...", of full range and JPEG's matrix, for "mjpeg".
  std::string pixel_format = "yuv420p";
  int quality = 20;      ///< constant rate factor of H.264
  int rotation_deg = 0;  ///< clockwise, to stand upright; written into the file, the pixels stay
  bool high_dynamic_range = false;
  std::string creation_time;  ///< ISO 8601, UTC
};

/// Writes MP4 or Matroska by the file's ending. Throws std::runtime_error on every failure.
class VideoWriter {
 public:
  VideoWriter(const std::filesystem::path& path, const VideoFileSettings& settings);
  ~VideoWriter();
  /// Time stamps in milliseconds, rising, with any steps.
  void add(const Image8& rgb, long milliseconds);
  /// What is added from here on is encoded anew, with another size or pixel format; the file's head stays as
  /// it was begun. For "mjpeg", whose every frame says what it is.
  void change(const VideoFileSettings& settings);
  void finish();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace colorlib
