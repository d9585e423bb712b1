#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/naming/scale_cgats.hpp>
#include <optional>

namespace colorlib {
namespace {

constexpr std::size_t most_columns = 1000;
constexpr const char* advice = "Export it again as CGATS text, or as CSV with the columns name,L,a,b.";

std::string upper_case(std::string_view text) {
  std::string upper(text);
  for (char& c : upper) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return upper;
}

/// The words of a line, double quotes enclosing one; nothing when a quote is left open.
std::optional<std::vector<std::string>> words_of(std::string_view line) {
  std::vector<std::string> words;
  std::size_t at = 0;
  while (true) {
    at = line.find_first_not_of(" \t", at);
    if (at == std::string_view::npos) return words;
    std::size_t end = 0;
    if (line[at] == '"') {
      end = line.find('"', ++at);
      if (end == std::string_view::npos) return std::nullopt;
      words.emplace_back(line.substr(at, end - at));
      at = end + 1;
    } else {
      end = std::min(line.find_first_of(" \t", at), line.size());
      words.emplace_back(line.substr(at, end - at));
      at = end;
    }
  }
}

}  // namespace

bool looks_like_cgats(std::string_view text) {
  return upper_case(text).find("BEGIN_DATA_FORMAT") != std::string::npos;
}

Result<CgatsRows> cgats_rows_from(std::string_view text, std::string_view name) {
  const auto refused = [&](std::size_t line, const std::string& found) {
    return fail(ErrorCode::unreadable_table,
                fmt::format("Reading the scale '{}', line {}: {}.", name, line, found), advice);
  };
  enum class Part { header, format, between, data, end };
  Part part = Part::header;
  CgatsRows table;
  std::optional<double> stated_rows;
  std::size_t number = 0;
  for (const auto raw : lines_of(without_byte_order_mark(text))) {
    ++number;
    const auto line = trimmed(raw);
    if (line.empty()) continue;
    const auto words = words_of(line);
    if (!words) return refused(number, "a double quote is not closed");
    const std::string keyword = upper_case(words->front());
    if (keyword == "BEGIN_DATA_FORMAT") {
      if (part != Part::header) break;  // a second table
      part = Part::format;
    } else if (keyword == "END_DATA_FORMAT") {
      part = Part::between;
    } else if (keyword == "BEGIN_DATA") {
      if (table.columns.empty()) return refused(number, "the data begin before their columns are named");
      part = Part::data;
    } else if (keyword == "END_DATA") {
      part = Part::end;
      break;
    } else if (part == Part::format) {
      for (const auto& word : *words) table.columns.push_back(upper_case(word));
      if (table.columns.size() > most_columns)
        return refused(number, fmt::format("more than {} columns", most_columns));
    } else if (part == Part::data) {
      if (words->size() != table.columns.size())
        return refused(
            number, fmt::format("{} cells found, {} columns are named; text with spaces needs double quotes",
                                words->size(), table.columns.size()));
      table.rows.push_back({number, *words});
    } else {
      if (keyword == "NUMBER_OF_SETS" && words->size() > 1) stated_rows = number_from((*words)[1]);
      table.header.emplace_back(line);
    }
  }
  if (part != Part::end) return refused(number, "END_DATA is missing, so the file was probably cut off");
  if (stated_rows && *stated_rows != static_cast<double>(table.rows.size()))
    return refused(number,
                   fmt::format("{} rows found, NUMBER_OF_SETS says {}", table.rows.size(), *stated_rows));
  return table;
}

}  // namespace colorlib
