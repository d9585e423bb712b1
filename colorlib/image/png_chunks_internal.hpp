#pragma once
/// Chunks that libpng 1.6 cannot give: cICP always, eXIf when it stands behind the pixels.

#include <cstdint>
#include <optional>
#include <string_view>

namespace colorlib {

struct PngChunks {
  std::string_view exif;                  ///< a bare EXIF block
  std::optional<std::uint8_t> primaries;  ///< of cICP, code points of ITU-T H.273
  std::optional<std::uint8_t> transfer;
  bool has_profile = false;  ///< an iCCP chunk is there, sound or not
};

/// Walks the chunks of a PNG file up to its end, or to where it stops making sense. Chunks with a wrong
/// checksum are left out. Source: PNG third edition, 5.3 and 11.3.2.
PngChunks read_png_chunks(std::string_view bytes);

}  // namespace colorlib
