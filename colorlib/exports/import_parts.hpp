#pragma once
/// Large files of an export, read part by part: a survey's million readings do not fit into memory as
/// entries.

#include <colorlib/base/result.hpp>
#include <colorlib/records/catalogue_entry.hpp>
#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace colorlib {

/// Rows of a table, or lines of JSON, in one part; fewer come as a whole.
inline constexpr std::size_t rows_an_import_part = 50'000;

using TakeEntries = std::function<Result<std::monostate>(std::vector<CatalogueEntry>)>;

/// As `imported`, but CSV and JSON lines of more than `rows_a_part` rows come in parts, in their order. A
/// table is parted only where the collection's number changes, so the rows of one collection have to stand
/// together in a file of that size, as they do in every export. Stops at the first error, of the file or of
/// `take`.
Result<std::monostate> import_in_parts(std::string_view bytes, const std::string& name,
                                       const TakeEntries& take,
                                       std::size_t rows_a_part = rows_an_import_part);

}  // namespace colorlib
