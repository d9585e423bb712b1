#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/exports/catalogue_files.hpp>
#include <colorlib/exports/darwin_core.hpp>
#include <colorlib/exports/json_lines.hpp>
#include <colorlib/exports/report_pdf.hpp>
#include <colorlib/exports/row_files.hpp>

namespace colorlib {
namespace {

struct NamedFormat {
  std::string_view name, ending;
  CatalogueFormat format;
};
constexpr std::array formats{NamedFormat{"csv", ".csv", CatalogueFormat::csv},
                             NamedFormat{"cgats", ".cgats", CatalogueFormat::cgats},
                             NamedFormat{"dwca", ".zip", CatalogueFormat::darwin_core},
                             NamedFormat{"text", ".txt", CatalogueFormat::text},
                             NamedFormat{"jsonl", ".jsonl", CatalogueFormat::json_lines},
                             NamedFormat{"pdf", ".pdf", CatalogueFormat::pdf}};

}  // namespace

Result<CatalogueFormat> catalogue_format_from(std::string_view name) {
  for (const NamedFormat& format : formats)
    if (format.name == name) return format.format;
  return fail(ErrorCode::bad_call, fmt::format("'{}' is no format that is written.", quotable(name)),
              "There are csv, cgats, dwca, text, jsonl and pdf.");
}

Result<CatalogueFormat> catalogue_format_of_file(const std::filesystem::path& path) {
  std::string ending = path.extension().string();
  std::transform(ending.begin(), ending.end(), ending.begin(),
                 [](unsigned char c) { return std::tolower(c); });
  for (const NamedFormat& format : formats)
    if (format.ending == ending) return format.format;
  return fail(ErrorCode::bad_call,
              fmt::format("The name '{}' does not tell which format to write.", path.string()),
              "End it with .csv, .cgats, .zip (Darwin Core archive), .txt, .jsonl or .pdf, or add --format.");
}

Result<std::string> exported(const std::vector<CatalogueEntry>& entries, CatalogueFormat format,
                             const std::filesystem::path& pictures, std::size_t* pictures_found) {
  if (pictures_found != nullptr) *pictures_found = 0;
  switch (format) {
    case CatalogueFormat::csv:
      return csv_from(rows_from(entries));
    case CatalogueFormat::cgats:
      return cgats_from(rows_from(entries));
    case CatalogueFormat::darwin_core:
      return darwin_core_archive(entries);
    case CatalogueFormat::text:
      return text_blocks_from(rows_from(entries));
    case CatalogueFormat::json_lines:
      return json_lines_from(entries);
    case CatalogueFormat::pdf:
      return report_pdf(entries, pictures, pictures_found);
  }
  return fail(ErrorCode::bad_call, "Unknown format.", "There are csv, cgats, dwca, text, jsonl and pdf.");
}

NotExported not_exported(const std::vector<CatalogueEntry>& entries, CatalogueFormat format) {
  NotExported left;
  if (format != CatalogueFormat::cgats) return left;
  for (const CatalogueEntry& entry : entries) {
    std::size_t colours = 0, refused = 0;
    for (const CatalogueRecord& record : entry.records)
      for (const CatalogueReading& reading : record.readings) ++(reading.lab ? colours : refused);
    if (colours == 0)
      left.collections.push_back(entry.collection.number);
    else
      left.refused += refused;
  }
  return left;
}

Result<std::vector<CatalogueEntry>> imported(std::string_view bytes, const std::string& name) {
  const std::string_view text = trimmed(without_byte_order_mark(bytes.substr(0, 4096)));
  const std::string where = fmt::format("Reading '{}'", name);
  if (bytes.starts_with("PK")) return entries_from_darwin_core(bytes, name);
  if (text.starts_with('{')) return entries_from_json_lines(bytes, name);
  if (text.starts_with("%PDF") || bytes.substr(0, 4096).find('\0') != std::string_view::npos)
    return fail(
        ErrorCode::unreadable_table,
        fmt::format("{}: {}.", where,
                    text.starts_with("%PDF") ? "a report in PDF is for people and not read back"
                                             : "it is no table of text but binary, with NUL bytes in it"),
        "Name what 'tintfall catalogue export' wrote as .csv, .cgats, .zip (Darwin Core archive), .txt or "
        ".jsonl.");
  Result<ReadingRows> rows = text.starts_with("CGATS")              ? rows_from_cgats(bytes, name)
                             : text.starts_with(text_block_heading) ? rows_from_text_blocks(bytes, name)
                                                                    : rows_from_csv(bytes, name);
  if (!rows) return fail(rows.error());
  return entries_from(*rows, where);
}

}  // namespace colorlib
