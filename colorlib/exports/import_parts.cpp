#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/exports/catalogue_files.hpp>
#include <colorlib/exports/import_parts.hpp>
#include <colorlib/exports/json_lines.hpp>
#include <colorlib/exports/row_files.hpp>

namespace colorlib {
namespace {

enum class Kind { whole, table, json_lines };

Kind kind_of(std::string_view bytes) {
  const std::string_view text = trimmed(without_byte_order_mark(bytes.substr(0, 4096)));
  if (bytes.starts_with("PK") || text.starts_with("CGATS") || text.starts_with(text_block_heading))
    return Kind::whole;
  return text.starts_with('{') ? Kind::json_lines : Kind::table;
}

/// Where a table's heading ends, and how to find a row's collection.
struct Heading {
  std::size_t line = 0;
  char separator = ',';
  std::optional<std::size_t> number;  ///< column
};

std::optional<Heading> heading_of(const std::vector<std::string_view>& lines) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto line = trimmed(lines[i]);
    if (line.empty() || line.front() == '#') continue;
    Heading heading{i, ',', {}};
    if (line.find('\t') != std::string_view::npos) heading.separator = '\t';
    if (line.find(';') != std::string_view::npos) heading.separator = ';';
    if (const auto names = fields_of(lines[i], heading.separator)) {
      const auto place = std::find(names->begin(), names->end(), "number");
      if (place != names->end()) heading.number = static_cast<std::size_t>(place - names->begin());
    }
    return heading;
  }
  return std::nullopt;
}

/// The collection that a row is of; empty when it cannot be told, which parsing the row will say better.
std::string number_of(std::string_view line, const Heading& heading) {
  const auto cells = fields_of(line, heading.separator);
  return cells && *heading.number < cells->size() ? (*cells)[*heading.number] : std::string();
}

std::string_view span_of(const std::vector<std::string_view>& lines, std::size_t begin, std::size_t end) {
  if (begin == end) return {};
  return {lines[begin].data(),
          static_cast<std::size_t>(lines[end - 1].data() + lines[end - 1].size() - lines[begin].data())};
}

Result<std::monostate> table_in_parts(const std::vector<std::string_view>& lines, const Heading& heading,
                                      const std::string& name, const TakeEntries& take,
                                      std::size_t rows_a_part) {
  std::string head(lines[heading.line]);
  head += '\n';
  for (std::size_t begin = heading.line + 1; begin < lines.size();) {
    std::size_t end = std::min(lines.size(), begin + rows_a_part);
    while (end > begin && end < lines.size() &&
           number_of(lines[end], heading) == number_of(lines[end - 1], heading))
      ++end;
    auto entries =
        imported(head + std::string(span_of(lines, begin, end)),
                 begin == heading.line + 1 ? name : fmt::format("{}, after line {}", name, begin - 1));
    if (!entries) return fail(entries.error());
    if (const auto taken = take(std::move(*entries)); !taken) return taken;
    begin = end;
  }
  return std::monostate{};
}

}  // namespace

Result<std::monostate> import_in_parts(std::string_view bytes, const std::string& name,
                                       const TakeEntries& take, std::size_t rows_a_part) {
  const auto whole = [&]() -> Result<std::monostate> {
    auto entries = imported(bytes, name);
    if (!entries) return fail(entries.error());
    return take(std::move(*entries));
  };
  const Kind kind = kind_of(bytes);
  if (kind == Kind::whole) return whole();
  const auto lines = lines_of(without_byte_order_mark(bytes));
  if (lines.size() <= rows_a_part) return whole();
  if (kind == Kind::table) {
    const auto heading = heading_of(lines);
    if (!heading || !heading->number) return whole();
    return table_in_parts(lines, *heading, name, take, rows_a_part);
  }
  for (std::size_t begin = 0; begin < lines.size(); begin += rows_a_part) {
    const std::size_t end = std::min(lines.size(), begin + rows_a_part);
    auto entries = entries_from_json_lines(span_of(lines, begin, end), name, begin + 1);
    if (!entries) return fail(entries.error());
    if (const auto taken = take(std::move(*entries)); !taken) return taken;
  }
  return std::monostate{};
}

}  // namespace colorlib
