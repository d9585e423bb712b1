#pragma once
/// What a file is, told from its first bytes and never from its name.

#include <string_view>

namespace colorlib {

enum class FileKind {
  jpeg,
  png,
  tiff,  ///< maybe camera raw: see tiff_holds_raw
  raw,   ///< camera raw that does not begin as a plain TIFF
  heif,
  known_other,
  unknown,
};

struct FileFinding {
  FileKind kind = FileKind::unknown;
  std::string_view what;  ///< of known_other: "a video", "a PDF document", ...
};

FileFinding find_file_kind(std::string_view bytes);

}  // namespace colorlib
