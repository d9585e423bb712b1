#pragma once
/// Whole files, read with a bound and written atomically.

#include <colorlib/base/result.hpp>
#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <variant>

namespace colorlib {

/// The bytes of `path`. Errors carry `code`; directories, missing, unreadable and empty files, and files
/// over `limit_bytes`, are each named in words. `what` names the thing in the sentence ("the chart
/// definition").
Result<std::string> read_file(const std::filesystem::path& path, std::string_view what, ErrorCode code,
                              std::size_t limit_bytes);

/// Writes beside the target, flushes to disk, then renames: a failed write leaves the old file as it was, and
/// nothing else behind. An existing file keeps its permissions; a link stays and what it points to is
/// replaced. A device or pipe (/dev/stdout) is written straight through. Errors: cannot_write, with the
/// system's reason.
Result<std::monostate> write_file_atomically(const std::filesystem::path& path, std::string_view bytes);

}  // namespace colorlib
