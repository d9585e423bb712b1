#pragma once
/// CGATS text as rows of cells, for scales: the inner part of color_scale.

#include <colorlib/base/result.hpp>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// The first table of a CGATS file. Cells are the text as written, so that numbers can be read strictly.
struct CgatsRows {
  struct Row {
    std::size_t line = 0;  ///< counted from 1
    std::vector<std::string> cells;
  };
  std::vector<std::string> header;   ///< lines before the table's column names
  std::vector<std::string> columns;  ///< upper case
  std::vector<Row> rows;             ///< each with as many cells as columns
};

/// Whether a text looks like CGATS and not like a separated table.
bool looks_like_cgats(std::string_view text);
/// Errors: unreadable_table, naming the line. The library that parses CGATS elsewhere turns "01" into "1" and
/// a decimal comma into something else unless every cell is quoted first, which is already the whole reading.
Result<CgatsRows> cgats_rows_from(std::string_view text, std::string_view name);

}  // namespace colorlib
