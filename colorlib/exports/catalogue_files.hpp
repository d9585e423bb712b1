#pragma once
/// Everything a catalogue is exported to, and what of it is read back.

#include <colorlib/records/catalogue_entry.hpp>
#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

enum class CatalogueFormat {
  csv,          ///< one row a reading
  cgats,        ///< ISO 28178
  darwin_core,  ///< a Darwin Core archive
  text,         ///< blocks to paste into notes
  json_lines,   ///< everything, to the letter
  pdf,          ///< a report, one page a collection; not read back
};

/// "csv", "cgats", "dwca", "text", "jsonl", "pdf". Errors: bad_call.
Result<CatalogueFormat> catalogue_format_from(std::string_view name);
/// By the ending of a file's name: .csv, .cgats, .zip, .txt, .jsonl, .pdf. Errors: bad_call.
Result<CatalogueFormat> catalogue_format_of_file(const std::filesystem::path& path);

/// The bytes of the file. Entries are taken as they are: places were coarsened before, or not. `pictures`,
/// for a report, is a folder with overlays or photographs; empty: none. `pictures_found`, when given, is set
/// to how many records found theirs; of other formats 0. Errors: cannot_write, bad_call.
Result<std::string> exported(const std::vector<CatalogueEntry>& entries, CatalogueFormat format,
                             const std::filesystem::path& pictures = {},
                             std::size_t* pictures_found = nullptr);

/// What a file of this format does not hold of `entries`: CGATS holds colours only.
struct NotExported {
  std::vector<std::string> collections;  ///< numbers of those without a colour
  std::size_t refused = 0;               ///< readings without one, of the others
};
NotExported not_exported(const std::vector<CatalogueEntry>& entries, CatalogueFormat format);

/// The inverse of everything but the report, told by content. What comes back is exported the same, byte by
/// byte; CSV, CGATS and text keep of a record what their columns say. Errors: unreadable_table,
/// unreadable_record.
Result<std::vector<CatalogueEntry>> imported(std::string_view bytes, const std::string& name);

}  // namespace colorlib
