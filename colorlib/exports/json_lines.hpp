#pragma once
/// Collections with their records as JSON, one collection a line: everything, to the letter.

#include <colorlib/records/catalogue_entry.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// Format "tintfall-collection", version 1 (docs/reference/catalogue_formats.md). Records stand in it as they
/// were added.
std::string json_lines_from(const std::vector<CatalogueEntry>& entries);

/// The inverse. `first_line` is the number of the first line in its file, for sentences. Errors:
/// unreadable_record, naming the line.
Result<std::vector<CatalogueEntry>> entries_from_json_lines(std::string_view text, std::string_view name,
                                                            std::size_t first_line = 1);

}  // namespace colorlib
