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
  std::int64_t pixels = 160'000'000;        ///< 100 MP phones exist; 160 MP of 8-bit RGB is 480 MB
  std::size_t file_bytes = 600u << 20;      ///< raw files of 100 MP stay below 300 MB
  std::size_t memory_bytes = 1'600u << 20;  ///< decoder's working store and result together
};

/// Decodes by content, never by file name. Errors: unreadable_photo, unsupported_photo; each says the file,
/// what was found and what to do.
Result<Photo> decode_photo(const std::filesystem::path& path, const DecodeLimits& limits = {});
/// The same from memory; `name` is used in messages and kept in the photo.
Result<Photo> decode_photo(std::string_view bytes, std::string name, const DecodeLimits& limits = {});

/// The formats this build reads, e.g. {"JPEG", "PNG", "TIFF", "camera raw", "HEIF"}.
std::vector<std::string> readable_formats();

}  // namespace colorlib
