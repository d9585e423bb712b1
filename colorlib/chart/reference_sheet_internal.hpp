#pragma once
/// A file of reference values as a plain table of text; private to reference_values.cpp.

#include <colorlib/base/result.hpp>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace colorlib {

/// Bounds on a file of reference values.
struct ReferenceLimits {
  static constexpr std::size_t bytes = 4u << 20;
  static constexpr std::size_t columns = 1'000;
  static constexpr std::size_t rows = 20'000;
};

/// Cells exactly as the file spells them: nothing is converted on the way.
struct ReferenceSheet {
  struct Row {
    std::size_t line = 0;  ///< in the file, counted from 1
    std::vector<std::string> cells;
  };
  std::string name;                  ///< of the file, for messages
  std::vector<std::string> columns;  ///< as spelled
  std::vector<Row> rows;             ///< each with as many cells as there are columns
  /// What the file says of itself: KEYWORD (upper case) and text without quotes, in the file's order.
  std::vector<std::pair<std::string, std::string>> statements;
  std::vector<std::string> remarks;

  /// The place of a column whose name equals `name` whatever the case.
  std::optional<std::size_t> column(std::string_view name) const;
  /// The first text of a keyword; empty when it is not there.
  std::string statement(std::string_view keyword) const;
};

/// CGATS.17 text when it has a BEGIN_DATA line, else a table (comma, semicolon or tab) with `# keyword: text`
/// lines. Errors: unreadable_reference.
Result<ReferenceSheet> read_reference_sheet(std::string_view text, std::string_view name);

/// `text` in ASCII capitals.
std::string upper_case(std::string_view text);

}  // namespace colorlib
