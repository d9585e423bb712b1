#pragma once
/// What must be known of a HEIF file before libheif 1.15 is let loose on it: it follows references in circles
/// until the stack ends, and allocates whatever picture size the coded data name, not the size that the file
/// announces.

#include <colorlib/base/result.hpp>
#include <cstdint>
#include <optional>
#include <string_view>

namespace colorlib {

struct HeifStructure {
  bool sound = false;     ///< the boxes can be followed and no item refers to itself, however indirectly
  bool all_hevc = false;  ///< every picture item is HEVC or a plain grid of such
  std::int64_t coded_width = 0;  ///< the largest that any HEVC header in the file names
  std::int64_t coded_height = 0;
};

/// Source: ISO/IEC 14496-12, 8.11 (boxes); ISO/IEC 23008-12, 6.4 and 6.6 (references, grids).
HeifStructure read_heif_structure(std::string_view bytes);

struct HevcSize {
  std::int64_t width = 0, height = 0;
};
/// The size in a sequence parameter set, `payload` being what follows its two header bytes; nothing when it
/// is none. Source: ITU-T H.265 (08/2021), 7.3.2.2 and 7.3.3.
std::optional<HevcSize> hevc_size(std::string_view payload);

}  // namespace colorlib
