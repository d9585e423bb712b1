#include <fmt/format.h>
#include <lcms2.h>

#include <algorithm>
#include <charconv>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/chart/reference_sheet_internal.hpp>
#include <memory>

namespace colorlib {
namespace {

constexpr std::string_view what = "the reference values";

tl::unexpected<Error> refuse(std::string_view name, const std::string& found, std::string advice) {
  return fail(ErrorCode::unreadable_reference,
              fmt::format("Reading {} '{}': {}.", what, quotable(name, 120), found), std::move(advice));
}

/// A word of CGATS text: its spelling without quotes, and where it stands.
struct Word {
  std::string text;
  std::size_t line = 0;
};

/// Words of one line, parted by spaces and tabs; quoted ones keep their spaces; `#` begins a comment.
void words_of(std::string_view line, std::size_t number, std::vector<Word>& words) {
  std::size_t i = 0;
  while (i < line.size()) {
    const char c = line[i];
    if (c == ' ' || c == '\t') {
      ++i;
    } else if (c == '#') {
      return;
    } else if (c == '"' || c == '\'') {
      const std::size_t end = std::min(line.find(c, i + 1), line.size());
      words.push_back({std::string(line.substr(i + 1, end - i - 1)), number});
      i = end + 1;
    } else {
      const std::size_t end = std::min(line.find_first_of(" \t#", i), line.size());
      words.push_back({std::string(line.substr(i, end - i)), number});
      i = end;
    }
  }
}

/// The three parts of the first table of CGATS text.
struct CgatsParts {
  std::vector<std::pair<std::size_t, std::string>> header;  ///< line number and line
  std::vector<Word> format, data;
  std::optional<std::size_t> stated_fields, stated_sets;
  bool format_begun = false, format_ended = false, data_ended = false, more_tables = false;
};

std::string_view first_word(std::string_view line) {
  line = trimmed(line);
  return line.substr(0, line.find_first_of(" \t"));
}

CgatsParts parts_of(std::string_view text) {
  enum class Section { header, format, data, rest } section = Section::header;
  CgatsParts parts;
  std::size_t number = 0;
  for (const std::string_view line : lines_of(text)) {
    ++number;
    const auto word = first_word(line);
    if (section == Section::rest) {
      parts.more_tables = parts.more_tables || word == "BEGIN_DATA";
    } else if (word == "BEGIN_DATA_FORMAT") {
      section = Section::format;
      parts.format_begun = true;
      words_of(trimmed(line).substr(word.size()), number, parts.format);
    } else if (word == "END_DATA_FORMAT") {
      section = Section::header;
      parts.format_ended = true;
    } else if (word == "BEGIN_DATA") {
      section = Section::data;
      words_of(trimmed(line).substr(word.size()), number, parts.data);
    } else if (word == "END_DATA") {
      section = Section::rest;
      parts.data_ended = true;
    } else if (section == Section::format) {
      words_of(line, number, parts.format);
    } else if (section == Section::data) {
      words_of(line, number, parts.data);
    } else if (word == "NUMBER_OF_FIELDS" || word == "NUMBER_OF_SETS") {
      std::vector<Word> words;
      words_of(line, number, words);
      std::size_t count = 0;
      const std::string figure = words.size() > 1 ? words[1].text : std::string();
      std::from_chars(figure.data(), figure.data() + figure.size(), count);
      (word == "NUMBER_OF_FIELDS" ? parts.stated_fields : parts.stated_sets) = count;
    } else {
      parts.header.emplace_back(number, std::string(line));
    }
  }
  return parts;
}

/// `KEYWORD "text"` lines of the header as pairs.
std::vector<std::pair<std::string, std::string>> statements_of(const CgatsParts& parts) {
  std::vector<std::pair<std::string, std::string>> statements;
  for (const auto& [number, line] : parts.header) {
    std::vector<Word> words;
    words_of(line, number, words);
    if (words.size() < 2) continue;
    std::string text = words[1].text;
    for (std::size_t i = 2; i < words.size(); ++i) text += " " + words[i].text;
    statements.emplace_back(upper_case(words[0].text), std::move(text));
  }
  return statements;
}

/// True when the first header line cannot be the sheet type that LittleCMS takes it for.
bool lacks_sheet_type(const CgatsParts& parts) {
  for (const auto& [number, line] : parts.header) {
    const auto content = trimmed(line);
    if (content.empty()) continue;
    std::vector<Word> words;
    words_of(content, number, words);
    return words.size() != 1 || content.front() == '"';
  }
  return true;
}

/// The text that LittleCMS gets. Every cell goes in quotes: unquoted, it would rewrite numbers on the way
/// ("-0,5" to "0,5", "01" to "1"). Weighting functions stay out, since their free forms stop it; they are
/// read from the header. `lines_before` counts what stands before the first header line.
std::string text_for_library(const CgatsParts& parts, std::size_t fields, std::size_t sets) {
  std::string text = lacks_sheet_type(parts) ? "CGATS.17\n" : "";
  for (const auto& [number, line] : parts.header)
    if (first_word(line) != "WEIGHTING_FUNCTION") text += line + "\n";
  text += fmt::format("NUMBER_OF_FIELDS {}\nBEGIN_DATA_FORMAT\n", fields);
  for (const Word& word : parts.format) text += word.text + " ";
  text += fmt::format("\nEND_DATA_FORMAT\nNUMBER_OF_SETS {}\nBEGIN_DATA\n", sets);
  for (std::size_t i = 0; i < parts.data.size(); ++i) {
    const std::string& cell = parts.data[i].text;
    const char quote = cell.find('"') == std::string::npos ? '"' : '\'';
    // For an empty string the library hands out the cell before it.
    text += quote + (cell.empty() ? " " : cell) + quote + ((i + 1) % fields == 0 ? "\n" : " ");
  }
  return text + "END_DATA\n";
}

struct ContextDeleter {
  void operator()(cmsContext context) const { cmsDeleteContext(context); }
};
struct SheetDeleter {
  void operator()(void* sheet) const { cmsIT8Free(sheet); }
};

void keep_reason(cmsContext context, cmsUInt32Number, const char* reason) {
  auto* kept = static_cast<std::string*>(cmsGetContextUserData(context));
  if (kept && kept->empty()) *kept = reason;
}

/// LittleCMS says "Memory: Line 3, ...": only what follows is of use, its line counts our text.
std::string reason_alone(const std::string& reason) {
  const auto line = reason.find("Line ");
  const auto comma = line == std::string::npos ? line : reason.find(", ", line);
  return quotable(comma == std::string::npos ? reason : reason.substr(comma + 2), 120);
}

Result<ReferenceSheet> read_cgats(std::string_view text, std::string_view name) {
  const std::string advice = "Export it again as CGATS.17 text, or as CSV with the same column names.";
  if (upper_case(text).find(".INCLUDE") != std::string::npos)
    return refuse(name, "it asks for another file by .INCLUDE, the values must all stand in one file",
                  advice);
  const CgatsParts parts = parts_of(text);
  const std::size_t fields = parts.format.size();
  if (!parts.format_begun || !parts.format_ended || fields == 0)
    return refuse(name, "it has no column names between BEGIN_DATA_FORMAT and END_DATA_FORMAT", advice);
  if (!parts.data_ended)
    return refuse(name, "END_DATA is missing, so it was probably cut off", "Copy or export the file again.");
  if (fields > ReferenceLimits::columns)
    return refuse(name,
                  fmt::format("it has {} columns, at most {} are taken", fields, ReferenceLimits::columns),
                  advice);
  if (parts.stated_fields && *parts.stated_fields != fields)
    return refuse(
        name, fmt::format("NUMBER_OF_FIELDS says {}, but {} columns are named", *parts.stated_fields, fields),
        advice);
  const std::size_t sets = parts.data.size() / fields;
  if (parts.data.size() % fields != 0 || sets == 0 || (parts.stated_sets && *parts.stated_sets != sets))
    return refuse(
        name,
        fmt::format("{} cells stand between BEGIN_DATA and END_DATA, {} were needed", parts.data.size(),
                    parts.stated_sets
                        ? fmt::format("NUMBER_OF_SETS {} times {} columns", *parts.stated_sets, fields)
                        : fmt::format("a multiple of the {} columns", fields)),
        "Look for a missing or an extra cell; put text with spaces in double quotes.");
  if (sets > ReferenceLimits::rows)
    return refuse(name, fmt::format("it has {} rows, at most {} are taken", sets, ReferenceLimits::rows),
                  advice);

  std::string reason;
  const std::unique_ptr<std::remove_pointer_t<cmsContext>, ContextDeleter> context(
      cmsCreateContext(nullptr, &reason));
  cmsSetLogErrorHandlerTHR(context.get(), keep_reason);
  const std::string cleaned = text_for_library(parts, fields, sets);
  const std::unique_ptr<void, SheetDeleter> it8(
      cmsIT8LoadFromMem(context.get(), cleaned.data(), static_cast<cmsUInt32Number>(cleaned.size())));
  if (!it8)
    return refuse(name,
                  fmt::format("its CGATS text is malformed ({})",
                              reason.empty() ? "no reason given" : reason_alone(reason)),
                  advice);

  ReferenceSheet sheet;
  sheet.name = name;
  sheet.statements = statements_of(parts);
  if (parts.more_tables) sheet.remarks.emplace_back("only the first table of the file was read");
  char** names = nullptr;
  const int named = cmsIT8EnumDataFormat(it8.get(), &names);
  for (int i = 0; i < named; ++i) sheet.columns.emplace_back(names[i]);
  for (std::size_t row = 0; row < sets; ++row) {
    ReferenceSheet::Row cells{parts.data[row * fields].line, {}};
    for (std::size_t column = 0; column < sheet.columns.size(); ++column) {
      const char* cell = cmsIT8GetDataRowCol(it8.get(), static_cast<int>(row), static_cast<int>(column));
      cells.cells.emplace_back(trimmed(cell ? cell : ""));
    }
    sheet.rows.push_back(std::move(cells));
  }
  return sheet;
}

Result<ReferenceSheet> read_table(std::string_view text, std::string_view name) {
  const auto table = ReferenceTable::parse(text, std::string(name), what, ErrorCode::unreadable_reference);
  if (!table) return fail(table.error());
  if (table->rows() > ReferenceLimits::rows)
    return refuse(name,
                  fmt::format("it has {} rows, at most {} are taken", table->rows(), ReferenceLimits::rows),
                  "Make sure that it is the right file.");
  ReferenceSheet sheet;
  sheet.name = name;
  sheet.columns = table->columns();
  for (const std::string& comment : table->comments())
    if (const auto colon = comment.find(':'); colon != std::string::npos)
      sheet.statements.emplace_back(upper_case(trimmed(std::string_view(comment).substr(0, colon))),
                                    trimmed(std::string_view(comment).substr(colon + 1)));
  for (std::size_t row = 0; row < table->rows(); ++row) {
    ReferenceSheet::Row cells{table->line(row), {}};
    for (std::size_t column = 0; column < sheet.columns.size(); ++column)
      cells.cells.emplace_back(trimmed(table->text(row, column)));
    sheet.rows.push_back(std::move(cells));
  }
  return sheet;
}

}  // namespace

std::string upper_case(std::string_view text) {
  std::string upper(text);
  for (char& c : upper)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return upper;
}

std::optional<std::size_t> ReferenceSheet::column(std::string_view column_name) const {
  const std::string wanted = upper_case(column_name);
  for (std::size_t i = 0; i < columns.size(); ++i)
    if (upper_case(columns[i]) == wanted) return i;
  return std::nullopt;
}

std::string ReferenceSheet::statement(std::string_view keyword) const {
  for (const auto& [key, text] : statements)
    if (key == keyword) return text;
  return {};
}

Result<ReferenceSheet> read_reference_sheet(std::string_view text, std::string_view name) {
  if (text.size() > ReferenceLimits::bytes)
    return refuse(name,
                  fmt::format("it has {} bytes, at most {} are taken", text.size(), ReferenceLimits::bytes),
                  "Make sure that it is the right file.");
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF"))
    return refuse(name, "it is UTF-16 text, plain or UTF-8 text is needed",
                  "Save it as UTF-8 or as plain text.");
  if (text.find('\0') != std::string_view::npos)
    return refuse(name, "it is no text but binary, with NUL bytes in it",
                  "Give the CGATS or CSV file of the measurements.");
  text = without_byte_order_mark(text);
  if (trimmed(text).empty()) return refuse(name, "it is empty", "Export the measurements again.");
  for (const std::string_view line : lines_of(text))
    if (const auto word = first_word(line); word == "BEGIN_DATA" || word == "BEGIN_DATA_FORMAT")
      return read_cgats(text, name);
  return read_table(text, name);
}

}  // namespace colorlib
