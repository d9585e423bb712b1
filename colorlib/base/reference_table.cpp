#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/base/strict_text.hpp>

namespace colorlib {

Result<ReferenceTable> ReferenceTable::read(const std::filesystem::path& path, std::string_view what,
                                            ErrorCode code) {
  const auto bytes = read_file(path, what, code, limit_bytes);
  if (!bytes) return fail(bytes.error());
  return parse(*bytes, path.filename().string(), what, code);
}

Result<ReferenceTable> ReferenceTable::parse(std::string_view text, std::string name, std::string_view what,
                                             ErrorCode code) {
  ReferenceTable table;
  table.name_ = std::move(name);
  table.what_ = what;
  table.code_ = code;
  const auto refuse = [&](std::size_t line, const std::string& found, std::string advice) {
    return fail(code, fmt::format("Reading {} '{}', line {}: {}.", what, table.name_, line, found),
                std::move(advice));
  };
  // No table of text holds a NUL byte; photos, archives and tables in UTF-16 do, and soon.
  if (text.find('\0') != std::string_view::npos)
    return fail(code,
                fmt::format("Reading {} '{}': it is no table of text but binary, with NUL bytes in it.", what,
                            table.name_),
                "Name a CSV file, in UTF-8; programs for spreadsheets save one.");
  char separator = ',';
  // Before the fields are made: a line of nothing but separators would take much memory.
  const auto crowded = [&separator](std::string_view line) {
    std::size_t columns = 1;
    bool quoted = false;
    for (const char c : line) {
      quoted ^= c == '"';
      columns += c == separator && !quoted;
    }
    return columns > limit_columns;
  };
  std::size_t number = 0;
  for (const std::string_view raw : lines_of(without_byte_order_mark(text))) {
    ++number;
    const auto line = trimmed(raw);
    if (line.empty()) continue;
    if (line.front() == '#') {
      table.comments_.emplace_back(trimmed(line.substr(1)));
      continue;
    }
    if (table.columns_.empty()) {
      if (line.find('\t') != std::string_view::npos) separator = '\t';
      if (line.find(';') != std::string_view::npos) separator = ';';
    }
    if (crowded(raw))
      return refuse(number, fmt::format("more than {} columns", limit_columns),
                    "Make sure that it is the right file.");
    auto fields = fields_of(raw, separator);
    if (!fields) return refuse(number, "a double quote is not closed", "Close the quote.");
    if (table.columns_.empty()) {
      table.columns_ = std::move(*fields);
      for (std::size_t i = 0; i < table.columns_.size(); ++i) {
        const auto& heading = table.columns_[i];
        if (std::count(table.columns_.begin(), table.columns_.end(), heading) > 1)
          return refuse(number, fmt::format("two columns are called '{}'", quotable(heading)),
                        "Give each column its own name.");
      }
      continue;
    }
    if (fields->size() != table.columns_.size())
      return refuse(
          number, fmt::format("{} fields found, the heading names {}", fields->size(), table.columns_.size()),
          "Write one value for each column; put text that holds the separator in double quotes.");
    if (table.cells_.size() == limit_rows)
      return refuse(number, fmt::format("more than {} rows", limit_rows),
                    "Make sure that it is the right file.");
    table.cells_.push_back(std::move(*fields));
    table.lines_.push_back(number);
  }
  if (table.columns_.empty()) return refuse(number, "no line of column names found", "Add a heading line.");
  table.decimal_comma_ = separator != ',';
  return table;
}

std::optional<std::size_t> ReferenceTable::column(std::string_view name) const {
  const auto place = std::find(columns_.begin(), columns_.end(), name);
  if (place == columns_.end()) return std::nullopt;
  return static_cast<std::size_t>(place - columns_.begin());
}

Result<std::vector<std::size_t>> ReferenceTable::require(const std::vector<std::string_view>& names) const {
  std::vector<std::size_t> places;
  std::string missing;
  for (const auto name : names) {
    if (const auto place = column(name))
      places.push_back(*place);
    else
      missing += fmt::format("{}'{}'", missing.empty() ? "" : ", ", name);
  }
  if (!missing.empty())
    return fail(code_,
                fmt::format("Reading {} '{}': no column {} among '{}'.", what_, name_, missing,
                            quotable(fmt::format("{}", fmt::join(columns_, "', '")), 200)),
                "Add the column to the heading line.");
  return places;
}

Result<double> ReferenceTable::number(std::size_t row, std::size_t column) const {
  const auto& cell = cells_[row][column];
  const auto value = decimal_comma_ ? number_from_with_decimal_comma(cell) : number_from(cell);
  if (!value)
    return fail(code_,
                fmt::format("Reading {} '{}', line {}, column '{}': '{}' is not a number.", what_, name_,
                            lines_[row], quotable(columns_[column]), quotable(cell)),
                "Write a plain number with a decimal point.");
  return *value;
}

}  // namespace colorlib
