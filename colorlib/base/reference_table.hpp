#pragma once
/// Tables of figures: CSV with `# key: value` lines, then one line of column names, then rows.

#include <colorlib/base/result.hpp>
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// A table as read: every cell is text, numbers are asked for by `number`.
/// Taken as well: a byte-order mark; `;` or tab as separator; a decimal comma where the separator is not a
/// comma. Refused: what is no text; by line: ragged rows, open quotes, a missing heading, two columns of one
/// name, more than the limits below.
class ReferenceTable {
 public:
  static constexpr std::size_t limit_bytes = 16u << 20;
  static constexpr std::size_t limit_rows = 200'000;
  static constexpr std::size_t limit_columns = 1'000;

  /// `what` names the table in messages; errors carry `code`.
  static Result<ReferenceTable> read(const std::filesystem::path& path, std::string_view what,
                                     ErrorCode code = ErrorCode::unreadable_table);
  static Result<ReferenceTable> parse(std::string_view text, std::string name, std::string_view what,
                                      ErrorCode code = ErrorCode::unreadable_table);

  std::size_t rows() const { return cells_.size(); }
  const std::vector<std::string>& columns() const { return columns_; }
  const std::vector<std::string>& comments() const { return comments_; }
  std::optional<std::size_t> column(std::string_view name) const;
  /// The columns of these names in this order, or an error that names the missing ones.
  Result<std::vector<std::size_t>> require(const std::vector<std::string_view>& names) const;
  const std::string& text(std::size_t row, std::size_t column) const { return cells_[row][column]; }
  /// A finite number, or an error that names line and column.
  Result<double> number(std::size_t row, std::size_t column) const;
  /// The line of `row` in the file, counted from 1.
  std::size_t line(std::size_t row) const { return lines_[row]; }
  const std::string& name() const { return name_; }

 private:
  std::string name_, what_;
  ErrorCode code_ = ErrorCode::unreadable_table;
  bool decimal_comma_ = false;
  std::vector<std::string> columns_, comments_;
  std::vector<std::vector<std::string>> cells_;
  std::vector<std::size_t> lines_;
};

}  // namespace colorlib
