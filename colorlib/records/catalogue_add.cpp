#include <fmt/format.h>

#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/catalogue_rows_internal.hpp>
#include <unordered_map>
#include <unordered_set>

namespace colorlib {
namespace {

using Type = RowBatch::Type;
using Database = Catalogue::Database;

/// All that one transaction writes.
struct Rows {
  RowBatch collections{"collections", {{"id", Type::integer}, {"uid", Type::text}}};
  RowBatch records{"records",
                   {{"id", Type::integer},
                    {"collection_id", Type::integer},
                    {"content", Type::text},
                    {"item", Type::text},
                    {"read_by", Type::text},
                    {"tissue", Type::text},
                    {"state", Type::text},
                    {"reagent", Type::text},
                    {"captured", Type::text},
                    {"photo_name", Type::text},
                    {"photo_sha256", Type::text},
                    {"chart", Type::text},
                    {"json", Type::text},
                    {"added", Type::text},
                    {"added_by", Type::text},
                    {"removed", Type::text}}};
  RowBatch readings{"readings", {{"id", Type::integer},       {"record_id", Type::integer},
                                 {"position", Type::integer}, {"region", Type::text},
                                 {"kind", Type::text},        {"name", Type::text},
                                 {"terms", Type::text},       {"munsell", Type::text},
                                 {"l", Type::real},           {"a", Type::real},
                                 {"b", Type::real},           {"c_ll", Type::real},
                                 {"c_la", Type::real},        {"c_lb", Type::real},
                                 {"c_aa", Type::real},        {"c_ab", Type::real},
                                 {"c_bb", Type::real},        {"de00_expanded", Type::real},
                                 {"refused", Type::text},     {"flags", Type::text}}};
  RowBatch colours{"colours",
                   {{"id", Type::integer},
                    {"l0", Type::real},
                    {"l1", Type::real},
                    {"a0", Type::real},
                    {"a1", Type::real},
                    {"b0", Type::real},
                    {"b1", Type::real}}};
  std::string now, user;

  Rows() {
    for (const CollectionField& field : collection_fields())
      collections.add_column(std::string(field.name),
                             field.kind == FieldKind::number ? Type::real : Type::text);
    collections.add_column("created", Type::text);
    collections.add_column("removed", Type::text);
  }
};

void put_or_null(RowBatch& batch, const std::string& text) {
  if (text.empty())
    batch.put_null();
  else
    batch.put(text);
}

void put_collection(Rows& rows, const Collection& collection, const std::string& removed, long long id) {
  RowBatch& batch = rows.collections;
  batch.put(id);
  batch.put(collection.uid.empty() ? new_uid() : collection.uid);
  for (const CollectionField& field : collection_fields()) {
    if (field.kind != FieldKind::number) {
      batch.put(collection.*(std::get<std::string Collection::*>(field.place)));
    } else if (const auto& number =
                   collection.*(std::get<std::optional<double> Collection::*>(field.place))) {
      batch.put(*number);
    } else {
      batch.put_null();
    }
  }
  batch.put(rows.now);
  put_or_null(batch, removed);
}

void put_record(Rows& rows, const CatalogueRecord& record, long long id, long long collection_id) {
  RowBatch& batch = rows.records;
  batch.put(id);
  batch.put(collection_id);
  for (const std::string* text :
       {&record.content, &record.item, &record.read_by, &record.tissue, &record.state, &record.reagent,
        &record.captured, &record.photo_name, &record.photo_sha256, &record.chart, &record.json})
    batch.put(*text);
  batch.put(rows.now);
  batch.put(rows.user);
  put_or_null(batch, record.removed);
}

void put_reading(Rows& rows, const CatalogueReading& reading, long long id, long long record_id,
                 long long position, bool server) {
  RowBatch& batch = rows.readings;
  batch.put(id);
  batch.put(record_id);
  batch.put(position);
  batch.put(reading.region);
  batch.put(reading.kind);
  batch.put(reading.name);
  batch.put(joined_words(reading.terms));
  batch.put(reading.munsell);
  if (reading.lab) {
    const Matrix3& c = reading.lab_covariance;
    for (const double value : {reading.lab->l, reading.lab->a, reading.lab->b, c(0, 0), c(0, 1), c(0, 2),
                               c(1, 1), c(1, 2), c(2, 2), reading.de00_expanded})
      batch.put(value);
  } else {
    for (int i = 0; i < 10; ++i) batch.put_null();
  }
  batch.put(reading.refused);
  batch.put(joined_words(reading.flags));
  if (server || !reading.lab) return;  // the server indexes by itself
  rows.colours.put(id);
  for (const double value : {reading.lab->l, reading.lab->a, reading.lab->b}) {
    rows.colours.put(value);
    rows.colours.put(value);
  }
}

/// A collection that is there already.
struct Known {
  long long id = 0;
  Collection collection;
  bool removed = false;
};

/// The collections of these numbers.
std::unordered_map<std::string, Known> known_collections(Database& database,
                                                         std::span<const CatalogueEntry> entries) {
  std::unordered_map<std::string, Known> known;
  std::string number;
  long long id = 0;
  std::string removed;
  soci::indicator is_removed = soci::i_null;
  CollectionRow row;
  soci::statement statement(database.sql);
  statement.exchange(soci::into(id));
  statement.exchange(soci::into(removed, is_removed));
  row.receive(statement);
  statement.exchange(soci::use(number, "number"));
  statement.alloc();
  statement.prepare(fmt::format("SELECT c.id, c.removed, {} FROM collections c WHERE c.number = :number",
                                collection_select()));
  statement.define_and_bind();
  for (const CatalogueEntry& entry : entries) {
    number = entry.collection.number;
    if (known.contains(number)) continue;
    statement.execute(false);
    while (statement.fetch()) known[number] = {id, row.collection(), is_removed == soci::i_ok};
  }
  return known;
}

/// Server only: the same with one round trip for all that are not there.
std::unordered_set<std::string> present_of(Database& database, const char* query,
                                           const std::vector<std::string>& texts) {
  std::unordered_set<std::string> present;
  if (texts.empty()) return present;
  std::string list = "{", found;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    list += i > 0 ? ",\"" : "\"";
    for (const char c : texts[i]) {
      if (c == '"' || c == '\\') list += '\\';
      list += c;
    }
    list += '"';
  }
  list += '}';
  soci::statement statement = (database.sql.prepare << query, soci::use(list, "list"), soci::into(found));
  statement.execute(false);
  while (statement.fetch()) present.insert(found);
  return present;
}

/// Which of these records are there, by content.
std::unordered_set<std::string> known_records(Database& database, std::span<const CatalogueEntry> entries) {
  if (database.server) {
    std::vector<std::string> contents;
    for (const CatalogueEntry& entry : entries)
      for (const CatalogueRecord& record : entry.records) contents.push_back(record.content);
    return present_of(database, "SELECT content FROM records WHERE content = ANY(cast(:list as text[]))",
                      contents);
  }
  std::unordered_set<std::string> known;
  std::string content;
  long long found = 0;
  soci::statement statement = (database.sql.prepare << "SELECT 1 FROM records WHERE content = :content",
                               soci::use(content, "content"), soci::into(found));
  for (const CatalogueEntry& entry : entries)
    for (const CatalogueRecord& record : entry.records) {
      content = record.content;
      statement.execute(false);
      while (statement.fetch()) known.insert(content);
    }
  return known;
}

/// Fields in which `said` contradicts `kept`; empty when none.
std::string contradiction(const Collection& kept, const Collection& said) {
  for (const CollectionField& field : collection_fields()) {
    const std::string before = field_text(kept, field), after = field_text(said, field);
    if (!before.empty() && !after.empty() && before != after)
      return fmt::format("{} is '{}' there and '{}' here", field.name, quotable(before), quotable(after));
  }
  return {};
}

/// Blanks that `said` fills.
void fill(Database& database, Known& known, const Collection& said) {
  for (const CollectionField& field : collection_fields()) {
    const std::string text = field_text(said, field);
    if (text.empty() || !field_text(known.collection, field).empty()) continue;
    Parameters parameters;
    parameters.integer("id", known.id);
    if (field.kind == FieldKind::number)
      parameters.real("value", *(said.*(std::get<std::optional<double> Collection::*>(field.place))));
    else
      parameters.text("value", text);
    // The field's name is ours, out of collection_fields().
    carry_out(database, fmt::format("UPDATE collections SET {} = :value WHERE id = :id", field.name),
              parameters);
  }
  fill_blanks(known.collection, said);
}

Result<AddSummary> add_batch(Database& database, std::span<const CatalogueEntry> entries) {
  AddSummary done;
  Rows rows;
  rows.now = Database::now();
  rows.user = database.user();
  std::span<const CatalogueEntry> to_look_up = entries;
  std::vector<CatalogueEntry> there;
  if (database.server) {
    std::vector<std::string> numbers;
    for (const CatalogueEntry& entry : entries) numbers.push_back(entry.collection.number);
    const auto present = present_of(
        database, "SELECT number FROM collections WHERE number = ANY(cast(:list as text[]))", numbers);
    for (const std::string& number : present) {
      there.emplace_back();
      there.back().collection.number = number;
    }
    to_look_up = there;
  }
  auto known = known_collections(database, to_look_up);
  auto seen = known_records(database, entries);

  std::vector<const CatalogueRecord*> records;
  std::vector<const std::string*> of_number;
  std::vector<const CatalogueEntry*> fresh;
  for (const CatalogueEntry& entry : entries) {
    const std::string& number = entry.collection.number;
    const auto [place, is_new] = known.try_emplace(number);
    if (is_new) {
      fresh.push_back(&entry);
      place->second.collection = entry.collection;
      ++done.collections_added;
    } else {
      if (place->second.removed && entry.removed.empty())
        return fail(ErrorCode::bad_call,
                    fmt::format("The collection '{}' was removed from the catalogue.", quotable(number)),
                    "Bring it back with 'tintfall catalogue remove --restore', or choose another number.");
      if (const std::string differs = contradiction(place->second.collection, entry.collection);
          !differs.empty())
        return fail(ErrorCode::bad_call,
                    fmt::format("The collection '{}' is in the catalogue already, and {}.", quotable(number),
                                differs),
                    "Correct one of them: 'tintfall catalogue edit' changes the catalogue.");
      if (place->second.id != 0) fill(database, place->second, entry.collection);
      ++done.collections_known;
    }
    for (const CatalogueRecord& record : entry.records) {
      if (!seen.insert(record.content).second) {
        ++done.records_known;
        continue;
      }
      records.push_back(&record);
      of_number.push_back(&number);
      done.readings_added += record.readings.size();
    }
  }
  done.records_added = records.size();

  const auto collection_ids = database.new_ids("collections", fresh.size());
  for (std::size_t i = 0; i < fresh.size(); ++i) {
    known[fresh[i]->collection.number].id = collection_ids[i];
    put_collection(rows, fresh[i]->collection, fresh[i]->removed, collection_ids[i]);
  }
  const auto record_ids = database.new_ids("records", records.size());
  const auto reading_ids = database.new_ids("readings", done.readings_added);
  std::size_t next_reading = 0;
  for (std::size_t i = 0; i < records.size(); ++i) {
    put_record(rows, *records[i], record_ids[i], known[*of_number[i]].id);
    for (std::size_t k = 0; k < records[i]->readings.size(); ++k)
      put_reading(rows, records[i]->readings[k], reading_ids[next_reading++], record_ids[i],
                  static_cast<long long>(k), database.server);
  }
  for (RowBatch* batch : {&rows.collections, &rows.records, &rows.readings, &rows.colours})
    database.insert(*batch);
  return done;
}

/// Two programs added the same number or record at once: the one that lost looks again.
bool lost_a_race(const std::exception& problem) {
  const auto* of_database = dynamic_cast<const soci::soci_error*>(&problem);
  return of_database != nullptr &&
         of_database->get_error_category() == soci::soci_error::constraint_violation;
}

}  // namespace

Result<AddSummary> Catalogue::add(std::span<const CatalogueEntry> entries, Progress& progress,
                                  const std::function<void(const AddSummary&)>& acknowledged,
                                  std::size_t batch) {
  for (const CatalogueEntry& entry : entries)
    if (const auto sound = check_collection(entry.collection); !sound) return fail(sound.error());
  AddSummary total;
  for (std::size_t begin = 0; begin < entries.size(); begin += batch) {
    if (progress.cancelled())
      return fail(ErrorCode::cancelled,
                  fmt::format("Adding was stopped after {} of {}.", begin, entries.size()),
                  "What was added so far is kept; adding the same again passes over it.");
    const auto part = entries.subspan(begin, std::min(batch, entries.size() - begin));
    constexpr int most_races = 5;
    for (int race = 0;; ++race) {
      bool lost = false;
      const auto done = database_->in_transaction("Adding to the catalogue", [&]() -> Result<AddSummary> {
        try {
          return add_batch(*database_, part);
        } catch (const soci::soci_error& problem) {
          lost = race < most_races && lost_a_race(problem);
          throw;
        }
      });
      if (!done && lost) continue;
      if (!done) return fail(done.error());
      total.collections_added += done->collections_added;
      total.collections_known += done->collections_known;
      total.records_added += done->records_added;
      total.records_known += done->records_known;
      total.readings_added += done->readings_added;
      break;
    }
    if (acknowledged) acknowledged(total);
    progress.report(static_cast<double>(begin + part.size()) / static_cast<double>(entries.size()), "adding");
  }
  constexpr std::size_t many = 10'000;  // readings after which the server's planner should look again
  if (database_->server && total.readings_added >= many)
    return database_->guarded("Adding to the catalogue", [&]() -> Result<AddSummary> {
      // A hint: the server passes over tables of which the user is not the owner.
      database_->sql << "ANALYZE collections, records, readings";
      return total;
    });
  return total;
}

}  // namespace colorlib
