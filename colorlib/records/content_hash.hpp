#pragma once
/// The name of a file's content: how photographs are referred to without copying them.

#include <colorlib/base/result.hpp>
#include <filesystem>
#include <string>
#include <string_view>

namespace colorlib {

/// SHA-256 as 64 lower-case hexadecimal digits [FIPS180].
std::string sha256_of(std::string_view bytes);
/// Whether `text` has that form.
bool is_sha256(std::string_view text);
/// The same of a file, read in blocks; bounded by the file only. Errors: unreadable_photo.
Result<std::string> sha256_of_file(const std::filesystem::path& path);

}  // namespace colorlib
