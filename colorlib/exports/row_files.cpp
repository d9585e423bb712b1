#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <colorlib/base/cautions.hpp>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/exports/row_files.hpp>

namespace colorlib {
namespace {

std::string csv_cell(const std::string& text) {
  if (text.find_first_of(",;\t\"") == std::string::npos && !text.starts_with('#')) return text;
  std::string cell = "\"";
  for (const char c : text) {
    if (c == '"') cell += '"';
    cell += c;
  }
  cell += '"';
  return cell;
}

void append_csv_line(std::string& text, const std::vector<std::string>& cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) text += ',';
    text += csv_cell(cells[i]);
  }
  text += '\n';
}

}  // namespace

std::string csv_from(const ReadingRows& rows) {
  std::string text;
  append_csv_line(text, rows.columns);
  for (const auto& cells : rows.cells) append_csv_line(text, cells);
  return text;
}

Result<ReadingRows> rows_from_csv(std::string_view text, std::string name) {
  const auto table =
      ReferenceTable::parse(text, std::move(name), "the readings", ErrorCode::unreadable_table);
  if (!table) return fail(table.error());
  ReadingRows rows;
  rows.columns = table->columns();
  for (std::size_t row = 0; row < table->rows(); ++row) {
    std::vector<std::string> cells;
    for (std::size_t column = 0; column < rows.columns.size(); ++column)
      cells.push_back(table->text(row, column));
    rows.cells.push_back(std::move(cells));
  }
  return rows;
}

std::string text_blocks_from(const ReadingRows& rows) {
  std::string text;
  for (const auto& cells : rows.cells) {
    const auto cell = [&](std::string_view column) -> const std::string& {
      static const std::string none;
      const auto found = std::find(rows.columns.begin(), rows.columns.end(), column);
      return found == rows.columns.end() ? none
                                         : cells[static_cast<std::size_t>(found - rows.columns.begin())];
    };
    text.append(text_block_heading).append("\n");
    if (!cell("lab_l").empty())
      text += fmt::format("# {} {}: {}, L* {} ± {}, a* {} ± {}, b* {} ± {} (CIELAB, D50, 2°; ± is k = 2)\n",
                          cell("number"), cell("region"), cell("name").empty() ? "no name" : cell("name"),
                          cell("lab_l"), cell("u_l_k2"), cell("lab_a"), cell("u_a_k2"), cell("lab_b"),
                          cell("u_b_k2"));
    text.append("# ").append(caution_safety).append("\n");
    for (std::size_t i = 0; i < cells.size(); ++i)
      if (!cells[i].empty()) text += fmt::format("{}: {}\n", rows.columns[i], cells[i]);
    text += '\n';
  }
  return text;
}

Result<ReadingRows> rows_from_text_blocks(std::string_view text, std::string_view name) {
  ReadingRows rows;
  rows.columns = reading_columns();
  constexpr std::size_t most_rows = 200'000;
  std::size_t number = 0;
  for (const std::string_view raw : lines_of(without_byte_order_mark(text))) {
    const std::string_view line = trimmed(raw);
    ++number;
    const auto wrong = [&](std::string_view what) {
      return fail(ErrorCode::unreadable_table, fmt::format("Reading '{}', line {}: {}.", name, number, what),
                  "Keep the lines of a block as they were exported, one 'name: value' each.");
    };
    if (line == text_block_heading) {
      if (rows.cells.size() == most_rows) return wrong(fmt::format("more than {} readings", most_rows));
      rows.cells.emplace_back(rows.columns.size());
      continue;
    }
    if (line.empty() || line.front() == '#') continue;
    const auto colon = line.find(':');
    const auto place = std::find(rows.columns.begin(), rows.columns.end(), trimmed(line.substr(0, colon)));
    if (colon == std::string_view::npos || place == rows.columns.end())
      return wrong(fmt::format("'{}' is no 'name: value' of a reading", quotable(line)));
    if (rows.cells.empty()) return wrong(fmt::format("a block begins with '{}'", text_block_heading));
    rows.cells.back()[static_cast<std::size_t>(place - rows.columns.begin())] =
        trimmed(line.substr(colon + 1));
  }
  return rows;
}

}  // namespace colorlib
