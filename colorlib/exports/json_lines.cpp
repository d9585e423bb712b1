#include <fmt/format.h>

#include <colorlib/base/json_nesting.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/exports/json_lines.hpp>
#include <colorlib/records/collection_text.hpp>
#include <colorlib/records/record_json.hpp>
#include <nlohmann/json.hpp>

namespace colorlib {
namespace {

using Json = nlohmann::ordered_json;

tl::unexpected<Error> wrong(const std::string& where, std::string_view what) {
  return fail(
      ErrorCode::unreadable_record, fmt::format("{}: {}.", where, what),
      "Export it again, or correct that line; docs/reference/catalogue_formats.md says what stands where.");
}

Result<CatalogueEntry> entry_from(std::string_view line, const std::string& where) {
  constexpr int deepest = RecordLimits::nesting + 4;
  if (line.size() > RecordLimits::bytes)
    return wrong(where, fmt::format("the line is longer than {} bytes", RecordLimits::bytes));
  const Json json =
      json_nesting(line) > deepest ? Json(Json::value_t::discarded) : Json::parse(line, nullptr, false);
  if (!json.is_object() || json.value("format", Json()) != "tintfall-collection")
    return wrong(where, "it is no collection of format \"tintfall-collection\"");
  if (json.value("version", Json()) != 1)
    return wrong(where, "the version must be 1, the only one known here");
  CatalogueEntry entry;
  const auto fields = json.find("collection");
  auto collection = collection_from_json(fields == json.end() ? Json() : *fields, where);
  if (!collection) return fail(collection.error());
  if (const auto sound = check_collection(*collection); !sound)
    return fail(ErrorCode::unreadable_record, fmt::format("{}: {}", where, sound.error().message),
                sound.error().advice);
  entry.collection = std::move(*collection);
  const auto records = json.find("records");
  if (records == json.end()) return entry;
  if (!records->is_array()) return wrong(where, "'records' is no list");
  for (const Json& record : *records) {
    auto kept = catalogue_record_from(record.dump(-1, ' ', false, Json::error_handler_t::replace), where);
    if (!kept) return fail(kept.error());
    entry.records.push_back(std::move(*kept));
  }
  return entry;
}

}  // namespace

std::string json_lines_from(const std::vector<CatalogueEntry>& entries) {
  std::string text;
  for (const CatalogueEntry& entry : entries) {
    text += R"({"format":"tintfall-collection","version":1,"collection":)";
    text += collection_json(entry.collection).dump(-1, ' ', false, Json::error_handler_t::replace);
    text += R"(,"records":[)";
    for (std::size_t i = 0; i < entry.records.size(); ++i) {
      if (i > 0) text += ',';
      text += entry.records[i].json;
    }
    text += "]}\n";
  }
  return text;
}

Result<std::vector<CatalogueEntry>> entries_from_json_lines(std::string_view text, std::string_view name,
                                                            std::size_t first_line) {
  std::vector<CatalogueEntry> entries;
  std::size_t number = first_line;
  for (const std::string_view line : lines_of(without_byte_order_mark(text))) {
    const std::string where = fmt::format("Reading '{}', line {}", name, number++);
    if (trimmed(line).empty()) continue;
    auto entry = entry_from(line, where);
    if (!entry) return fail(entry.error());
    entries.push_back(std::move(*entry));
  }
  return entries;
}

}  // namespace colorlib
