#pragma once
/// Reading photographs: one facade over the formats.

#include <colorlib/base/progress.hpp>
#include <colorlib/base/result.hpp>
#include <colorlib/image/photo.hpp>
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// Bounds on what is decoded, so that no file can take the machine down.
struct DecodeLimits {
  std::int64_t pixels =
      160'000'000;  ///< 100 MP phones exist; 160 MP of a JPEG are 960 MB, and 480 while it is read
  std::size_t file_bytes = 600u << 20;      ///< raw files of 100 MP stay below 300 MB
  std::size_t memory_bytes = 1'600u << 20;  ///< decoder's working store and result together
  /// Asked now and then whether to stop, HEIF excepted, whose library cannot; then the error is cancelled.
  /// Null: never.
  const Progress* progress = nullptr;
};

/// Decodes by content, never by file name. Errors: unreadable_photo, unsupported_photo; each says the file,
/// what was found and what to do.
Result<Photo> decode_photo(const std::filesystem::path& path, const DecodeLimits& limits = {});
/// The same from memory; `name` is used in messages and kept in the photo.
Result<Photo> decode_photo(std::string_view bytes, std::string name, const DecodeLimits& limits = {});

/// By how much a photo was made smaller as it was decoded. Place (x, y) of the file lies at ((x + 0.5) /
/// factor - 0.5, (y + 0.5) / factor - 0.5).
struct PhotoReduction {
  int factor = 1;
  int file_width_px = 0, file_height_px = 0;  ///< of the whole photo, upright
};

struct ReducedPhoto {
  Photo photo;
  PhotoReduction reduction;
};

/// Decodes a JPEG `factor` (1, 2, 4 or 8) times smaller: each pixel is the mean of the encoded values of
/// factor x factor of the whole photo's, within 0.01 level of 8 bits where the file holds colour at full
/// size, in a part of the time and memory that all of them take. Other formats come out whole.
Result<ReducedPhoto> decode_photo_reduced(const std::filesystem::path& path, int factor,
                                          const DecodeLimits& limits = {});
Result<ReducedPhoto> decode_photo_reduced(std::string_view bytes, std::string name, int factor,
                                          const DecodeLimits& limits = {});

/// The formats this build reads, e.g. {"JPEG", "PNG", "TIFF", "camera raw", "HEIF"}.
std::vector<std::string> readable_formats();

}  // namespace colorlib
