#pragma once
/// Darwin Core archives: collections as occurrences, readings as measurements, for record systems [DwC].

#include <colorlib/records/catalogue_entry.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// A ZIP archive of occurrence.csv (core, one row a collection), measurementorfact.csv (extension), meta.xml
/// that says which term each column holds, and tintfall.jsonl, the same collections to the letter, which
/// readers of Darwin Core pass over. A reading is one row of the extension with its name, and three below it
/// (parentMeasurementID) with L*, a*, b*: unit 1, accuracy as expanded uncertainty with its coverage factor.
/// Working names stand as verbatimIdentification: a colour identifies nothing. Errors: cannot_write.
Result<std::string> darwin_core_archive(const std::vector<CatalogueEntry>& entries);

/// From an archive that darwin_core_archive wrote. Errors: unreadable_table, unreadable_record.
Result<std::vector<CatalogueEntry>> entries_from_darwin_core(std::string_view archive, std::string_view name);

}  // namespace colorlib
