#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/exports/reading_rows.hpp>
#include <colorlib/records/photo_names.hpp>
#include <colorlib/records/reagent_regions.hpp>
#include <map>
#include <nlohmann/json.hpp>

namespace colorlib {
namespace {

using Json = nlohmann::ordered_json;

/// Of the record and the reading; those of the collection go before.
constexpr std::array record_columns{"record",       "record_sha256", "photo_name", "photo_sha256",
                                    "other_photos", "captured",      "read_by",    "read_tissue",
                                    "read_state",   "reagent",       "chart"};
constexpr std::array colour_columns{
    "region",           "kind",    "lab_l",  "lab_a",  "lab_b",           "u_l_k2", "u_a_k2",
    "u_b_k2",           "cov_ll",  "cov_la", "cov_lb", "cov_aa",          "cov_ab", "cov_bb",
    "de00_expanded_95", "munsell", "name",   "terms",  "deposit_classes", "flags",  "refused"};

std::string joined(const std::vector<std::string>& words) {
  return fmt::format("{}", fmt::join(words, "; "));
}

std::vector<std::string> split(std::string_view text) {
  std::vector<std::string> words;
  while (!text.empty()) {
    const auto end = std::min(text.find(';'), text.size());
    if (const auto word = trimmed(text.substr(0, end)); !word.empty()) words.emplace_back(word);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

/// A hash that the record itself says it was reduced from is part of `content` already. `reagent`: of the
/// row's reading.
void append_record(std::vector<std::string>& row, const CatalogueRecord& record, std::size_t position,
                   const std::string& reagent) {
  auto others = photo_names(record);
  others.erase(others.begin());
  const std::string other_photos = joined(others);
  row.push_back(fmt::format("{}", position));
  for (const std::string* text :
       {&record.content, &record.photo_name, &record.photo_sha256, &other_photos, &record.captured,
        &record.read_by, &record.tissue, &record.state, &reagent, &record.chart})
    row.push_back(*text);
}

void append_reading(std::vector<std::string>& row, const CatalogueReading& reading) {
  row.push_back(reading.region);
  row.push_back(reading.kind);
  if (reading.lab) {
    const Matrix3& c = reading.lab_covariance;
    for (const double value : {reading.lab->l, reading.lab->a, reading.lab->b})
      row.push_back(fmt::format("{}", value));
    for (int i = 0; i < 3; ++i) row.push_back(fmt::format("{:.3f}", 2 * std::sqrt(std::max(0.0, c(i, i)))));
    for (const double value : {c(0, 0), c(0, 1), c(0, 2), c(1, 1), c(1, 2), c(2, 2), reading.de00_expanded})
      row.push_back(fmt::format("{}", value));
  } else {
    row.resize(row.size() + 13);
  }
  row.push_back(reading.munsell);
  row.push_back(reading.name);
  row.push_back(joined(reading.terms));
  row.push_back(joined(reading.deposit_classes));
  row.push_back(joined(reading.flags));
  row.push_back(reading.refused);
}

/// One row by column name.
class Cells {
 public:
  Cells(const std::map<std::string, std::size_t>& place, const std::vector<std::string>& cells)
      : place_(place), cells_(cells) {}
  const std::string& text(const std::string& column) const {
    static const std::string none;
    const auto found = place_.find(column);
    return found == place_.end() ? none : cells_[found->second];
  }
  std::optional<double> number(const std::string& column) const { return number_from(text(column)); }

 private:
  const std::map<std::string, std::size_t>& place_;
  const std::vector<std::string>& cells_;
};

tl::unexpected<Error> wrong(std::string where, std::string_view what) {
  return fail(
      ErrorCode::unreadable_table, fmt::format("{}: {}.", where, what),
      "Correct that row, or export the table again; docs/reference/catalogue_formats.md lists the columns.");
}

Result<Json> reading_json(const Cells& row, const std::string& where) {
  Json json;
  json["id"] = row.text("region").empty() ? "A" : row.text("region");
  json["kind"] = row.text("kind").empty() ? "other" : row.text("kind");
  json["flags"] = split(row.text("flags"));
  if (!row.text("refused").empty()) {
    json["refused"] = {{"code", "untrustworthy"}, {"message", row.text("refused")}, {"advice", ""}};
    return json;
  }
  std::array<double, 3> lab{};
  constexpr std::array lab_names{"lab_l", "lab_a", "lab_b"};
  constexpr std::array spread_names{"u_l_k2", "u_a_k2", "u_b_k2"};
  for (std::size_t i = 0; i < 3; ++i) {
    const auto value = row.number(lab_names[i]);
    if (!value)
      return wrong(where, fmt::format("'{}' in column {} is no number", quotable(row.text(lab_names[i])),
                                      lab_names[i]));
    lab[i] = *value;
  }
  json["lab"] = lab;
  if (!row.text("cov_ll").empty()) {
    std::array<double, 6> c{};
    constexpr std::array names{"cov_ll", "cov_la", "cov_lb", "cov_aa", "cov_ab", "cov_bb"};
    for (std::size_t i = 0; i < 6; ++i) {
      const auto value = row.number(names[i]);
      if (!value)
        return wrong(where,
                     fmt::format("'{}' in column {} is no number", quotable(row.text(names[i])), names[i]));
      c[i] = *value;
    }
    json["lab_covariance"] = {{c[0], c[1], c[2]}, {c[1], c[3], c[4]}, {c[2], c[4], c[5]}};
  } else {
    std::array<double, 3> expanded{};
    for (std::size_t i = 0; i < 3; ++i) {
      const auto value = row.number(spread_names[i]);
      if (!value)
        return wrong(where,
                     "the colour has no uncertainty: covariances or expanded uncertainties are needed");
      expanded[i] = *value;
    }
    json["lab_expanded"] = expanded;
  }
  if (const auto value = row.number("de00_expanded_95")) json["de00_expanded"] = *value;
  if (!row.text("munsell").empty()) json["munsell"] = row.text("munsell");
  if (!row.text("name").empty()) json["name"] = row.text("name");
  json["trade_terms"] = split(row.text("terms"));
  json["deposit_classes"] = split(row.text("deposit_classes"));
  return json;
}

Json record_head(const Cells& row, const std::string& number) {
  Json json;
  json["format"] = "tintfall-record";
  json["version"] = 1;
  if (!row.text("record_sha256").empty()) json["reduced_from"] = row.text("record_sha256");
  json["subject"] = {{"item", number},
                     {"collector", row.text("read_by")},
                     {"tissue", row.text("read_tissue")},
                     {"state", row.text("read_state")}};
  json["photo"] = {{"name", row.text("photo_name")}, {"captured", row.text("captured")}};
  if (!row.text("photo_sha256").empty()) json["photo"]["sha256"] = row.text("photo_sha256");
  if (const auto others = split(row.text("other_photos")); !others.empty()) {
    json["photos"] = Json::array({json["photo"]});
    for (const std::string& name : others) json["photos"].push_back({{"name", name}});
  }
  json["chart"] = {{"name", row.text("chart")}};
  json["readings"] = Json::array();
  return json;
}

Result<Collection> collection_from(const Cells& row, const std::string& where) {
  Collection collection;
  collection.uid = trimmed(row.text("uid"));
  for (const CollectionField& field : collection_fields())
    if (const auto set = set_field(collection, field, row.text(std::string(field.name))); !set)
      return wrong(where, fmt::format("column {}: {}", field.name, set.error().message));
  if (const auto sound = check_collection(collection); !sound)
    return fail(ErrorCode::unreadable_table, fmt::format("{}: {}", where, sound.error().message),
                sound.error().advice);
  return collection;
}

}  // namespace

const std::vector<std::string>& reading_columns() {
  static const std::vector<std::string> columns = [] {
    std::vector<std::string> names{"uid"};
    for (const CollectionField& field : collection_fields()) names.emplace_back(field.name);
    names.insert(names.end(), record_columns.begin(), record_columns.end());
    names.insert(names.end(), colour_columns.begin(), colour_columns.end());
    return names;
  }();
  return columns;
}

ReadingRows rows_from(const std::vector<CatalogueEntry>& entries) {
  ReadingRows rows;
  rows.columns = reading_columns();
  for (const CatalogueEntry& entry : entries) {
    std::vector<std::string> head{entry.collection.uid};
    for (const CollectionField& field : collection_fields())
      head.push_back(field_text(entry.collection, field));
    const auto finish = [&](std::vector<std::string> row) {
      row.resize(rows.columns.size());
      rows.cells.push_back(std::move(row));
    };
    if (entry.records.empty()) finish(head);
    for (std::size_t i = 0; i < entry.records.size(); ++i) {
      const CatalogueRecord& record = entry.records[i];
      const auto with_record = [&](const std::string& reagent) {
        std::vector<std::string> row = head;
        append_record(row, record, i + 1, reagent);
        return row;
      };
      if (record.readings.empty()) finish(with_record(record.reagent));
      for (const CatalogueReading& reading : record.readings) {
        std::vector<std::string> row = with_record(reagent_of(record, reading));
        append_reading(row, reading);
        finish(std::move(row));
      }
    }
  }
  return rows;
}

Result<std::vector<CatalogueEntry>> entries_from(const ReadingRows& rows, std::string_view name) {
  std::map<std::string, std::size_t> place;
  for (std::size_t i = 0; i < rows.columns.size(); ++i) {
    const auto& known = reading_columns();
    if (std::find(known.begin(), known.end(), rows.columns[i]) == known.end())
      return wrong(std::string(name), fmt::format("the column '{}' is not known", quotable(rows.columns[i])));
    place[rows.columns[i]] = i;
  }
  if (!place.contains("number")) return wrong(std::string(name), "there is no column 'number'");

  std::vector<CatalogueEntry> entries;
  std::vector<std::vector<Json>> records;  // of each entry
  std::map<std::string, std::size_t> entry_of;
  std::map<std::pair<std::size_t, std::string>, std::size_t> record_of;
  for (std::size_t i = 0; i < rows.cells.size(); ++i) {
    const Cells row(place, rows.cells[i]);
    const std::string where = fmt::format("{}, row {}", name, i + 1);
    auto collection = collection_from(row, where);
    if (!collection) return fail(collection.error());
    const auto [found, is_new] = entry_of.try_emplace(collection->number, entries.size());
    const std::size_t entry = found->second;
    if (is_new) {
      entries.push_back({std::move(*collection), {}, {}});
      records.emplace_back();
    } else if (!(entries[entry].collection == *collection)) {
      return wrong(where, fmt::format("it says something else of '{}' than a row before",
                                      quotable(collection->number)));
    }
    const bool has_record =
        !row.text("record").empty() || !row.text("lab_l").empty() || !row.text("refused").empty();
    if (!has_record) continue;
    // Without a number of its own every row is a record.
    const std::string key = row.text("record").empty() ? fmt::format("row {}", i) : row.text("record");
    const auto [record, record_is_new] = record_of.try_emplace({entry, key}, records[entry].size());
    if (record_is_new) records[entry].push_back(record_head(row, entries[entry].collection.number));
    // A row of a control names none; the rows of what was treated do.
    if (!row.text("reagent").empty())
      records[entry][record->second]["subject"]["reagent"] = row.text("reagent");
    const bool has_reading =
        !row.text("region").empty() || !row.text("lab_l").empty() || !row.text("refused").empty();
    if (!has_reading) continue;
    auto reading = reading_json(row, where);
    if (!reading) return fail(reading.error());
    records[entry][record->second]["readings"].push_back(std::move(*reading));
  }
  for (std::size_t i = 0; i < entries.size(); ++i)
    for (const Json& json : records[i]) {
      auto record = catalogue_record_from(json.dump(-1, ' ', false, Json::error_handler_t::replace), name);
      if (!record) return fail(ErrorCode::unreadable_table, record.error().message, record.error().advice);
      entries[i].records.push_back(std::move(*record));
    }
  return entries;
}

}  // namespace colorlib
