#pragma once
/// Readings as rows of plain text cells, one a reading with all that is said of its collection: what CSV,
/// CGATS and text blocks have in common. It keeps the colour with its covariance and words, not the parts of
/// the uncertainty or how the sheet was placed: for those, JSON lines.

#include <colorlib/records/catalogue_entry.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

struct ReadingRows {
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> cells;  ///< rows of as many as there are columns
};

/// Units are the last word of a column's name; Lab values have unit 1 (D50, 2 degree); `u_..._k2` is the
/// expanded uncertainty, k = 2; `cov_...` the covariance. A collection without records, and a record without
/// readings, has a row with empty cells.
const std::vector<std::string>& reading_columns();
ReadingRows rows_from(const std::vector<CatalogueEntry>& entries);

/// The inverse: rows of one number and one record stand together. A record comes back reduced to its rows,
/// and remembers the hash of the one it was taken from, so that it is not added beside it. Columns may be
/// missing but for "number"; unknown ones are an error. `where` starts sentences. Errors: unreadable_table,
/// naming the row.
Result<std::vector<CatalogueEntry>> entries_from(const ReadingRows& rows, std::string_view where);

}  // namespace colorlib
