#include <fmt/format.h>

#include <colorlib/records/catalogue_entry.hpp>
#include <colorlib/records/content_hash.hpp>
#include <colorlib/records/record_json.hpp>
#include <nlohmann/json.hpp>

namespace colorlib {
namespace {

using Json = nlohmann::ordered_json;

/// A text member of an object member, empty where there is none.
std::string text_at(const Json& json, const char* object, const char* key) {
  const auto part = json.find(object);
  if (part == json.end() || !part->is_object()) return {};
  const auto value = part->find(key);
  return value == part->end() || !value->is_string() ? std::string() : value->get<std::string>();
}

void write_addition(Json& json, const char* object, const char* key, const std::string& value) {
  if (value.empty() || !text_at(json, object, key).empty()) return;
  json[object][key] = value;
}

CatalogueReading reading_from(const Reading& from) {
  CatalogueReading reading;
  reading.region = from.id;
  reading.kind = region_kind_name(from.kind);
  for (const Flag& flag : from.flags) reading.flags.push_back(flag.code);
  if (from.refused) {
    reading.refused = from.refused->message;
    return reading;
  }
  reading.name = from.words.name.name;
  reading.terms = from.words.trade_terms;
  reading.deposit_classes = from.words.deposit_classes;
  reading.munsell = from.words.munsell;
  reading.lab = from.lab;
  reading.lab_covariance = from.lab_covariance;
  reading.de00_expanded = from.de00_expanded;
  return reading;
}

/// The photo that a record is catalogued under. Early records of several photos hold the first of them as
/// `photo`, even when it was left out as an outlier.
const RecordPhoto& photo_of(const Record& record) {
  const std::size_t used = first_used_photo(record.readings);
  return used < record.photos.size() ? record.photos[used] : record.photo;
}

}  // namespace

Result<CatalogueRecord> catalogue_record_from(std::string_view text, std::string_view name,
                                              const RecordAdditions& additions) {
  const auto record = parse_record(text, name);
  if (!record) return fail(record.error());
  // Sound JSON of bounded depth: parse_record has seen to that.
  Json json = Json::parse(text.substr(0, 3) == "\xEF\xBB\xBF" ? text.substr(3) : text, nullptr, false);
  // Of use beside the photo alone: a record with it and one without are one reading.
  json.erase("options_sha256");
  // A series says it in its protocol.
  if (text_at(json, "protocol", "reagent").empty())
    write_addition(json, "subject", "reagent", additions.reagent);
  write_addition(json, "photo", "sha256", additions.photo_sha256);

  CatalogueRecord kept;
  kept.json = json.dump(-1, ' ', false, Json::error_handler_t::replace);
  // A record that came back from a table is the one it was taken from.
  const auto origin = json.find("reduced_from");
  kept.content = origin != json.end() && origin->is_string() && is_sha256(origin->get<std::string>())
                     ? origin->get<std::string>()
                     : sha256_of(kept.json);
  kept.item = record->subject.item;
  kept.read_by = record->subject.collector;
  kept.tissue = record->subject.tissue;
  kept.state = record->subject.state;
  kept.reagent = text_at(json, "subject", "reagent");
  if (kept.reagent.empty()) {
    kept.reagent = text_at(json, "protocol", "reagent");
    if (const std::string strength = text_at(json, "protocol", "strength");
        !strength.empty() && !kept.reagent.empty())
      kept.reagent += " " + strength;
  }
  if (kept.tissue.empty()) kept.tissue = text_at(json, "protocol", "tissue");
  if (kept.state.empty()) kept.state = text_at(json, "protocol", "state");
  const RecordPhoto& photo = photo_of(*record);
  kept.captured = photo.captured;
  kept.photo_name = photo.name;
  kept.photo_sha256 = photo.sha256;
  if (kept.photo_sha256.empty() && photo.name == record->photo.name)
    kept.photo_sha256 = text_at(json, "photo", "sha256");
  kept.chart = record->chart.name;
  for (const Reading& reading : record->readings) kept.readings.push_back(reading_from(reading));
  return kept;
}

Collection collection_of(const CatalogueRecord& record) {
  Collection collection;
  collection.number = record.item;
  collection.collector = record.read_by;
  collection.tissue = record.tissue;
  collection.state = record.state;
  const Json json = Json::parse(record.json, nullptr, false);
  if (json.is_object()) collection.surface = text_at(json, "subject", "surface");
  return collection;
}

Result<CatalogueEntry> entry_of(CatalogueRecord record, std::string_view number) {
  CatalogueEntry entry;
  entry.collection = collection_of(record);
  if (!number.empty()) entry.collection.number = number;
  if (entry.collection.number.empty())
    return fail(ErrorCode::bad_call,
                fmt::format("The record of '{}' does not say which collection it is of.", record.photo_name),
                "Say the collection's number, or read the photo with its item.");
  for (std::string* of_record :
       {&entry.collection.collector, &entry.collection.tissue, &entry.collection.state})
    of_record->clear();
  entry.records.push_back(std::move(record));
  return entry;
}

}  // namespace colorlib
