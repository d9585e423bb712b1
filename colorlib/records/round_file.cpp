#include <fmt/format.h>

#include <cmath>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/json_fields_internal.hpp>
#include <colorlib/records/json_layout_internal.hpp>
#include <colorlib/records/round_file.hpp>
#include <set>
#include <tuple>

namespace colorlib {
namespace {

using Json = nlohmann::json;
using Ids = std::set<std::string>;

constexpr double most_tolerance_de00 = 50;
constexpr double least_expanded = 0.001, most_expanded = 1000;  // of one coordinate

/// Expanded from a variance, in few enough digits to read back as the same.
nlohmann::ordered_json expanded_from(double variance) {
  return rounded_significant(2 * std::sqrt(variance), 9);
}

std::string entry_of(const char* list, std::size_t i) { return fmt::format("{}[{}]", list, i); }

/// The list's entries, at most `most`; anything that is no object is noted.
std::vector<const Json*> entries_of(JsonFields& fields, const Json& json, const char* key, std::size_t most) {
  std::vector<const Json*> entries;
  const Json* list = fields.list(json, key, "");
  if (list == nullptr) {
    fields.missing("", key);
    return entries;
  }
  if (list->size() > most) {
    fields.wrong(key, fmt::format("holds {} entries, at most {} are taken", list->size(), most));
    return entries;
  }
  for (std::size_t i = 0; i < list->size(); ++i) {
    if (!(*list)[i].is_object()) fields.wrong(entry_of(key, i), "must be an object in { }");
    entries.push_back(&(*list)[i]);
  }
  return entries;
}

/// A new id: there, and not seen before.
std::string new_id(JsonFields& fields, const Json& json, const std::string& where, Ids& known) {
  std::string id = fields.text(json, "id", where, true);
  if (id.empty())
    fields.wrong(where + ".id", "is empty");
  else if (!known.insert(id).second)
    fields.wrong(where + ".id", fmt::format("'{}' stands twice", quotable(id)));
  return id;
}

std::string known_id(JsonFields& fields, const Json& json, const char* key, const std::string& where,
                     const Ids& known) {
  std::string id = fields.text(json, key, where, true);
  if (!known.contains(id))
    fields.wrong(JsonFields::path(where, key),
                 fmt::format("'{}' is not among the round's {}s", quotable(id), key));
  return id;
}

std::string record_path(JsonFields& fields, const Json& json, const std::string& where) {
  std::string text = fields.text(json, "record", where, true);
  const std::filesystem::path path(text);
  bool leaves = path.is_absolute();
  for (const auto& part : path) leaves = leaves || part == "..";
  const std::string place = where + ".record";
  if (text.empty() || text.find('\0') != std::string::npos)
    fields.wrong(place, "is empty");
  else if (leaves)
    fields.wrong(place,
                 fmt::format("'{}' leads out of the round's folder; paths are relative to the round file",
                             quotable(text)));
  return path.lexically_normal().generic_string();
}

RoundReference reference_from(JsonFields& fields, const Json& json, const std::string& where) {
  RoundReference reference;
  reference.source = fields.text(json, "source", where);
  if (json.contains("record")) {
    reference.record = record_path(fields, json, where);
    reference.reading = fields.text(json, "reading", where);
    return reference;
  }
  const auto lab = fields.numbers<3>(json, "lab", where),
             expanded = fields.numbers<3>(json, "lab_expanded", where);
  if (!lab) fields.missing(where, "lab");
  if (!expanded) fields.missing(where, "lab_expanded");
  if (!lab || !expanded) return reference;
  reference.lab = lab_from(*lab);
  for (int i = 0; i < 3; ++i) {
    const double u = (*expanded)[static_cast<std::size_t>(i)] / 2;
    if (!(2 * u >= least_expanded && 2 * u <= most_expanded))
      fields.wrong(where + ".lab_expanded",
                   fmt::format("must be {} to {}: no value is known exactly", least_expanded, most_expanded));
    reference.covariance(i, i) = u * u;
  }
  return reference;
}

}  // namespace

Result<Round> parse_round(std::string_view text, std::string_view name) {
  auto json = parse_json(text, name, "the round file", ErrorCode::unreadable_record, RoundLimits::nesting);
  if (!json) return fail(json.error());
  JsonFields fields("the round file", std::string(name), ErrorCode::unreadable_record,
                    "Correct that place; docs/reference/round_format.md says what stands where.");
  Round round;
  if (!json->is_object() || fields.text(*json, "format", "") != "tintfall-round") {
    fields.wrong("format", "must be \"tintfall-round\"");
    return fail(*fields.problem());
  }
  if (fields.count(*json, "version", "") != 1) {
    fields.wrong("version", "must be 1, the only version known here");
    return fail(*fields.problem());
  }
  round.title = fields.text(*json, "title", "");
  round.remark = fields.text(*json, "remark", "");
  round.tolerance_de00 = fields.number(*json, "tolerance_de00", "");
  if (round.tolerance_de00 && !(*round.tolerance_de00 > 0 && *round.tolerance_de00 <= most_tolerance_de00))
    fields.wrong("tolerance_de00", fmt::format("must be above 0 and at most {}", most_tolerance_de00));

  Ids items, collectors;
  for (const Json* entry : entries_of(fields, *json, "items", RoundLimits::items)) {
    const std::string where = entry_of("items", round.items.size());
    RoundItem item{new_id(fields, *entry, where, items), fields.text(*entry, "title", where), {}};
    if (const Json* reference = fields.object(*entry, "reference", where))
      item.reference = reference_from(fields, *reference, where + ".reference");
    round.items.push_back(std::move(item));
  }
  for (const Json* entry : entries_of(fields, *json, "collectors", RoundLimits::collectors)) {
    const std::string where = entry_of("collectors", round.collectors.size());
    round.collectors.push_back({new_id(fields, *entry, where, collectors), fields.text(*entry, "name", where),
                                fields.text(*entry, "camera", where), fields.text(*entry, "light", where)});
  }
  std::set<std::pair<std::string, std::string>> listed;
  for (const Json* entry : entries_of(fields, *json, "readings", RoundLimits::entries)) {
    const std::string where = entry_of("readings", round.entries.size());
    round.entries.push_back({known_id(fields, *entry, "item", where, items),
                             known_id(fields, *entry, "collector", where, collectors),
                             record_path(fields, *entry, where), fields.text(*entry, "reading", where)});
    const RoundEntry& added = round.entries.back();
    if (!listed.emplace(added.record, added.reading).second)
      fields.wrong(where,
                   fmt::format("lists '{}' a second time: a reading counts once", quotable(added.record)));
  }
  if (round.entries.empty()) fields.wrong("readings", "holds no reading");
  if (fields.problem()) return fail(*fields.problem());
  return round;
}

Result<Round> read_round(const std::filesystem::path& path) {
  const auto bytes = read_file(path, "the round file", ErrorCode::unreadable_record, RoundLimits::bytes);
  if (!bytes) return fail(bytes.error());
  return parse_round(*bytes, path.filename().string());
}

std::string round_json(const Round& round) {
  nlohmann::ordered_json json{{"format", "tintfall-round"}, {"version", 1}, {"title", round.title}};
  if (!round.remark.empty()) json["remark"] = round.remark;
  if (round.tolerance_de00) json["tolerance_de00"] = *round.tolerance_de00;
  json["items"] = json["collectors"] = json["readings"] = nlohmann::ordered_json::array();
  for (const RoundItem& item : round.items) {
    nlohmann::ordered_json entry{{"id", item.id}, {"title", item.title}};
    if (const auto& known = item.reference) {
      auto& reference = entry["reference"];
      reference["source"] = known->source;
      if (known->record.empty()) {
        reference["lab"] = vector_from(known->lab);
        reference["lab_expanded"] = {expanded_from(known->covariance(0, 0)),
                                     expanded_from(known->covariance(1, 1)),
                                     expanded_from(known->covariance(2, 2))};
      } else {
        reference["record"] = known->record;
        reference["reading"] = known->reading;
      }
    }
    json["items"].push_back(std::move(entry));
  }
  for (const RoundCollector& collector : round.collectors)
    json["collectors"].push_back({{"id", collector.id},
                                  {"name", collector.name},
                                  {"camera", collector.camera},
                                  {"light", collector.light}});
  for (const RoundEntry& entry : round.entries)
    json["readings"].push_back({{"item", entry.item},
                                {"collector", entry.collector},
                                {"record", entry.record},
                                {"reading", entry.reading}});
  return json_text(json, 2);
}

}  // namespace colorlib
