#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/catalogue_rows_internal.hpp>

namespace colorlib {
namespace {

using Database = Catalogue::Database;

constexpr std::size_t shortest_content =
    8;  ///< digits of a record's hash that tell it from others of a collection

/// A collection by its number.
struct Found {
  long long id = 0;
  std::string removed;
  Collection collection;
};

tl::unexpected<Error> no_such(std::string_view number) {
  return fail(ErrorCode::bad_call,
              fmt::format("There is no collection '{}' in the catalogue.", quotable(number)),
              "'tintfall catalogue list' shows the numbers there are.");
}

Result<Found> collection_by(Database& database, std::string_view number) {
  Found found;
  soci::indicator is_removed = soci::i_null;
  CollectionRow row;
  Parameters parameters;
  parameters.text("number", std::string(number));
  soci::statement statement(database.sql);
  statement.exchange(soci::into(found.id));
  statement.exchange(soci::into(found.removed, is_removed));
  row.receive(statement);
  start(statement,
        fmt::format("SELECT c.id, c.removed, {} FROM collections c WHERE c.number = :number",
                    collection_select()),
        parameters);
  if (!statement.fetch()) return no_such(number);
  if (is_removed != soci::i_ok) found.removed.clear();
  found.collection = row.collection();
  return found;
}

std::vector<CatalogueRecord> records_of(Database& database, long long collection_id, bool removed) {
  std::vector<CatalogueRecord> records;
  std::vector<long long> ids;
  {
    long long id = 0;
    CatalogueRecord record;
    soci::indicator is_removed = soci::i_null;
    Parameters parameters;
    parameters.integer("collection", collection_id);
    soci::statement statement(database.sql);
    statement.exchange(soci::into(id));
    for (std::string* text :
         {&record.content, &record.item, &record.read_by, &record.tissue, &record.state, &record.reagent,
          &record.captured, &record.photo_name, &record.photo_sha256, &record.chart, &record.json})
      statement.exchange(soci::into(*text));
    statement.exchange(soci::into(record.removed, is_removed));
    start(statement,
          fmt::format("SELECT d.id, d.content, d.item, d.read_by, d.tissue, d.state, d.reagent, d.captured, "
                      "d.photo_name, d.photo_sha256, d.chart, d.json, d.removed FROM records d "
                      "WHERE d.collection_id = :collection{} ORDER BY d.id",
                      removed ? "" : " AND d.removed IS NULL"),
          parameters);
    while (statement.fetch()) {
      if (is_removed != soci::i_ok) record.removed.clear();
      ids.push_back(id);
      records.push_back(record);
    }
  }
  ReadingRow row;
  long long record_id = 0;
  soci::statement statement(database.sql);
  row.receive(statement);
  statement.exchange(soci::use(record_id, "record"));
  statement.alloc();
  statement.prepare(fmt::format("SELECT {} FROM readings r WHERE r.record_id = :record ORDER BY r.position",
                                reading_select));
  statement.define_and_bind();
  for (std::size_t i = 0; i < ids.size(); ++i) {
    record_id = ids[i];
    statement.execute(false);
    std::vector<CatalogueReading>& readings = records[i].readings;
    while (statement.fetch()) {
      readings.push_back(row.reading());
      if (row.mixes_terms()) take_terms_apart(readings.back(), records[i], readings.size() - 1);
    }
  }
  return records;
}

void note_change(Database& database, long long collection_id, const CatalogueChange& change) {
  Parameters parameters;
  parameters.integer("id", database.new_ids("changes", 1).front());
  parameters.integer("collection", collection_id);
  parameters.text("changed", Database::now());
  parameters.text("who", database.user());
  parameters.text("what", change.what);
  parameters.text("old", change.before);
  parameters.text("new", change.after);
  carry_out(database,
            "INSERT INTO changes (id, collection_id, changed, changed_by, what, value_before, value_after) "
            "VALUES (:id, "
            ":collection, :changed, :who, :what, :old, :new)",
            parameters);
}

void write_field(Database& database, long long id, const CollectionField& field,
                 const Collection& collection) {
  Parameters parameters;
  parameters.integer("id", id);
  std::string value = ":value";
  if (field.kind != FieldKind::number)
    parameters.text("value", field_text(collection, field));
  else if (const auto& number = collection.*(std::get<std::optional<double> Collection::*>(field.place)))
    parameters.real("value", *number);
  else
    value = "NULL";
  carry_out(database, fmt::format("UPDATE collections SET {} = {} WHERE id = :id", field.name, value),
            parameters);
}

/// The full hash of the one record of the collection whose hash begins so.
Result<std::string> record_by(Database& database, const Found& found, std::string_view content) {
  if (content.size() < shortest_content ||
      content.find_first_not_of("0123456789abcdef") != std::string_view::npos)
    return fail(ErrorCode::bad_call,
                fmt::format("'{}' is no record's hash; its first {} digits or more are needed.",
                            quotable(content), shortest_content),
                "'tintfall catalogue show' prints the hash of each record.");
  std::vector<std::string> matches;
  for (const CatalogueRecord& record : records_of(database, found.id, true))
    if (record.content.starts_with(content)) matches.push_back(record.content);
  if (matches.size() == 1) return matches.front();
  return fail(ErrorCode::bad_call,
              fmt::format("{} records of '{}' have a hash that begins with '{}'; one is needed.",
                          matches.size(), quotable(found.collection.number), content),
              "'tintfall catalogue show' prints the hash of each record.");
}

/// Sets or clears `removed` of the collection, or of one record.
Result<std::monostate> mark(Database& database, std::string_view number, std::string_view content,
                            bool removed) {
  return database.in_transaction("Changing the catalogue", [&]() -> Result<std::monostate> {
    const auto found = collection_by(database, number);
    if (!found) return fail(found.error());
    Parameters parameters;
    if (removed) parameters.text("at", Database::now());
    const char* value = removed ? ":at" : "NULL";
    std::string text = fmt::format("UPDATE collections SET removed = {} WHERE id = :id", value);
    std::string what = removed ? "removed" : "restored";
    if (content.empty()) {
      if (removed != found->removed.empty())
        return fail(ErrorCode::bad_call,
                    fmt::format("The collection '{}' {} removed.", quotable(number),
                                removed ? "is already" : "was not"),
                    "'tintfall catalogue list --removed' shows what was removed.");
      parameters.integer("id", found->id);
    } else {
      const auto hash = record_by(database, *found, content);
      if (!hash) return fail(hash.error());
      text = fmt::format("UPDATE records SET removed = {} WHERE content = :content", value);
      parameters.text("content", *hash);
      what += " record " + hash->substr(0, shortest_content);
    }
    carry_out(database, text, parameters);
    note_change(database, found->id, {{}, {}, what, {}, {}});
    return std::monostate{};
  });
}

}  // namespace

Result<CatalogueEntry> Catalogue::show(std::string_view number, bool removed) {
  return database_->guarded("Reading the catalogue", [&]() -> Result<CatalogueEntry> {
    auto found = collection_by(*database_, number);
    if (!found) return fail(found.error());
    return CatalogueEntry{std::move(found->collection), records_of(*database_, found->id, removed),
                          std::move(found->removed)};
  });
}

Result<std::vector<CatalogueChange>> Catalogue::history(std::string_view number) {
  return database_->guarded("Reading the catalogue", [&]() -> Result<std::vector<CatalogueChange>> {
    const auto found = collection_by(*database_, number);
    if (!found) return fail(found.error());
    std::vector<CatalogueChange> changes;
    CatalogueChange change;
    Parameters parameters;
    parameters.integer("id", found->id);
    soci::statement statement(database_->sql);
    for (std::string* text : {&change.when, &change.who, &change.what, &change.before, &change.after})
      statement.exchange(soci::into(*text));
    start(statement,
          "SELECT changed, changed_by, what, value_before, value_after FROM changes WHERE collection_id = "
          ":id ORDER BY id",
          parameters);
    while (statement.fetch()) changes.push_back(change);
    return changes;
  });
}

Result<std::monostate> Catalogue::each(
    const std::vector<std::string>& numbers, bool removed,
    const std::function<Result<std::monostate>(const CatalogueEntry&)>& take) {
  if (!numbers.empty()) {
    for (const std::string& number : numbers) {
      const auto entry = show(number, removed);
      if (!entry) return fail(entry.error());
      if (const auto taken = take(*entry); !taken) return taken;
    }
    return std::monostate{};
  }
  constexpr long long page = 500;
  std::string last;
  for (;;) {
    std::vector<std::string> next;
    const auto listed = database_->guarded("Reading the catalogue", [&]() -> Result<std::monostate> {
      std::string number;
      Parameters parameters;
      parameters.text("last", last);
      parameters.integer("most", page);
      soci::statement statement(database_->sql);
      statement.exchange(soci::into(number));
      start(statement,
            fmt::format("SELECT number FROM collections WHERE number > :last{} ORDER BY number LIMIT :most",
                        removed ? "" : " AND removed IS NULL"),
            parameters);
      while (statement.fetch()) next.push_back(number);
      return std::monostate{};
    });
    if (!listed) return listed;
    if (next.empty()) return std::monostate{};
    last = next.back();
    if (const auto taken = each(next, removed, take); !taken) return taken;
  }
}

Result<std::monostate> Catalogue::edit(std::string_view number,
                                       const std::vector<std::pair<std::string, std::string>>& fields) {
  return database_->in_transaction("Editing the catalogue", [&]() -> Result<std::monostate> {
    const auto found = collection_by(*database_, number);
    if (!found) return fail(found.error());
    Collection changed = found->collection;
    for (const auto& [name, value] : fields) {
      const CollectionField* field = find_collection_field(name);
      if (field == nullptr)
        return fail(ErrorCode::bad_call, fmt::format("'{}' is no field of a collection.", quotable(name)),
                    "'tintfall catalogue edit --help' lists the fields.");
      if (const auto set = set_field(changed, *field, value); !set)
        return fail(ErrorCode::bad_call, fmt::format("Editing {}: {}.", name, set.error().message),
                    set.error().advice);
    }
    if (const auto sound = check_collection(changed); !sound) return sound;
    if (changed.number != found->collection.number && collection_by(*database_, changed.number))
      return fail(ErrorCode::bad_call,
                  fmt::format("There is a collection '{}' already.", quotable(changed.number)),
                  "Choose another number.");
    for (const CollectionField& field : collection_fields()) {
      const std::string before = field_text(found->collection, field), after = field_text(changed, field);
      if (before == after) continue;
      write_field(*database_, found->id, field, changed);
      note_change(*database_, found->id, {{}, {}, std::string(field.name), before, after});
    }
    return std::monostate{};
  });
}

Result<std::monostate> Catalogue::remove(std::string_view number, std::string_view content) {
  return mark(*database_, number, content, true);
}

Result<std::monostate> Catalogue::restore(std::string_view number, std::string_view content) {
  return mark(*database_, number, content, false);
}

}  // namespace colorlib
