#pragma once
/// Files that hold one record, or several: one a line, as `read` writes them for several photos.

#include <colorlib/base/result.hpp>
#include <colorlib/records/record.hpp>
#include <filesystem>
#include <string_view>
#include <vector>

namespace colorlib {

/// At most this many records are taken from one file.
inline constexpr std::size_t most_records = 10'000;

/// All records of `text`, in its order. Lines that are empty are passed over. Errors: unreadable_record,
/// naming the line when there are several.
Result<std::vector<Record>> parse_records(std::string_view text, std::string_view name);
/// The same from a file of at most RecordLimits::bytes.
Result<std::vector<Record>> read_records(const std::filesystem::path& path);

}  // namespace colorlib
