#include <fmt/format.h>

#include <colorlib/base/file_access.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/records/record_lines.hpp>

namespace colorlib {
namespace {

/// Several lines, of which the first is an object of its own.
bool is_one_a_line(const std::vector<std::string_view>& lines) {
  return lines.size() > 1 && lines.front().starts_with('{') && lines.front().ends_with('}');
}

}  // namespace

Result<std::vector<Record>> parse_records(std::string_view text, std::string_view name) {
  std::vector<std::string_view> lines;
  for (const auto line : lines_of(without_byte_order_mark(text)))
    if (const auto kept = trimmed(line); !kept.empty()) lines.push_back(kept);
  std::vector<Record> records;
  if (!is_one_a_line(lines)) {
    auto record = parse_record(text, name);
    if (!record) return fail(record.error());
    records.push_back(std::move(*record));
    return records;
  }
  if (lines.size() > most_records)
    return fail(ErrorCode::unreadable_record,
                fmt::format("Reading the records '{}': it holds {} lines, at most {} are taken.", name,
                            lines.size(), most_records),
                "Split the file.");
  for (std::size_t i = 0; i < lines.size(); ++i) {
    auto record = parse_record(lines[i], fmt::format("{} (record {})", name, i + 1));
    if (!record) return fail(record.error());
    records.push_back(std::move(*record));
  }
  return records;
}

Result<std::vector<Record>> read_records(const std::filesystem::path& path) {
  const auto bytes = read_file(path, "the record", ErrorCode::unreadable_record, RecordLimits::bytes);
  if (!bytes) return fail(bytes.error());
  return parse_records(*bytes, path.filename().string());
}

}  // namespace colorlib
