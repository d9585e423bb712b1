#include <fmt/format.h>
#include <soci/postgresql/soci-postgresql.h>

#include <algorithm>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/base/worker_threads.hpp>
#include <colorlib/records/catalogue_rows_internal.hpp>
#include <mutex>
#include <nlohmann/json.hpp>
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
                 long long position) {
  RowBatch& batch = rows.readings;
  batch.put(id);
  batch.put(record_id);
  batch.put(position);
  batch.put(reading.region);
  batch.put(reading.kind);
  batch.put(reading.name);
  batch.put(joined_terms(reading));
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
}

/// A collection that is there already.
struct Known {
  long long id = 0;
  Collection collection;
  bool removed = false;
};

constexpr std::size_t most_told = 1000;

/// `texts` as the one parameter of a condition on their column, which in_list writes.
std::string list_of(const Database& database, const std::vector<std::string>& texts) {
  if (!database.server)
    return nlohmann::json(texts).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  std::string list = "{";
  for (const std::string& text : texts) {
    list += list.size() == 1 ? "\"" : ",\"";
    for (const char c : text) {
      if (c == '"' || c == '\\') list += '\\';
      list += c;
    }
    list += '"';
  }
  return list + "}";
}

/// "IN ...": among the texts of the parameter :list.
std::string_view in_list(const Database& database) {
  return database.server ? "= ANY(cast(:list AS text[]))" : "IN (SELECT value FROM json_each(:list))";
}

/// Which of `texts` stand in a column: one question for all of them.
std::unordered_set<std::string> present_of(Database& database, std::string_view table,
                                           std::string_view column, const std::vector<std::string>& texts) {
  std::unordered_set<std::string> present;
  if (texts.empty()) return present;
  std::string list = list_of(database, texts), found;
  const std::string query =
      fmt::format("SELECT {0} FROM {1} WHERE {0} {2}", column, table, in_list(database));
  soci::statement statement = (database.sql.prepare << query, soci::use(list, "list"), soci::into(found));
  statement.execute(false);
  while (statement.fetch()) present.insert(found);
  return present;
}

/// What a query of two columns finds for `texts`, its parameter :list: the first column's text to the
/// second's.
std::unordered_map<std::string, std::string> pairs_of(Database& database, const std::string& query,
                                                      const std::vector<std::string>& texts) {
  std::unordered_map<std::string, std::string> pairs;
  if (texts.empty()) return pairs;
  std::string list = list_of(database, texts), first, second;
  soci::statement statement =
      (database.sql.prepare << query, soci::use(list, "list"), soci::into(first), soci::into(second));
  statement.execute(false);
  while (statement.fetch()) pairs.emplace(first, second);
  return pairs;
}

/// The numbers under which collections of these uids are there already.
std::unordered_map<std::string, std::string> numbers_of_uids(Database& database,
                                                             std::span<const CatalogueEntry> entries) {
  std::vector<std::string> uids;
  for (const CatalogueEntry& entry : entries)
    if (!entry.collection.uid.empty()) uids.push_back(entry.collection.uid);
  return pairs_of(database,
                  fmt::format("SELECT uid, number FROM collections WHERE uid {}", in_list(database)), uids);
}

/// The collections among these that are there already, by number or by uid.
std::unordered_map<std::string, Known> known_collections(
    Database& database, std::span<const CatalogueEntry> entries,
    const std::unordered_map<std::string, std::string>& of_uid) {
  std::unordered_map<std::string, Known> known;
  std::vector<std::string> numbers;
  for (const CatalogueEntry& entry : entries) numbers.push_back(entry.collection.number);
  for (const auto& [uid, number] : of_uid) numbers.push_back(number);
  const auto present = present_of(database, "collections", "number", numbers);
  if (present.empty()) return known;
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
  for (const std::string& there : present) {
    number = there;
    statement.execute(false);
    while (statement.fetch()) known[number] = {id, row.collection(), is_removed == soci::i_ok};
  }
  return known;
}

/// Which of these records are there, by content, and the numbers of the collections that they lie in.
std::unordered_map<std::string, std::string> known_records(Database& database,
                                                           std::span<const CatalogueEntry> entries) {
  std::vector<std::string> contents;
  for (const CatalogueEntry& entry : entries)
    for (const CatalogueRecord& record : entry.records) contents.push_back(record.content);
  return pairs_of(database,
                  fmt::format("SELECT r.content, c.number FROM records r JOIN collections c ON c.id = "
                              "r.collection_id WHERE r.content {}",
                              in_list(database)),
                  contents);
}

/// Counts a record that is there already, and says where when that is not where it was to go.
void count_known(const CatalogueRecord& record, const std::string& wanted, const std::string& number,
                 AddSummary& done) {
  ++done.records_known;
  if (wanted != number && done.elsewhere.size() < most_told)
    done.elsewhere.push_back({record.photo_name, wanted, number});
}

/// An entry that is there for its records alone, all of which lie elsewhere.
bool brings_nothing(const CatalogueEntry& entry, const std::unordered_map<std::string, std::string>& seen) {
  return entry.of_records_only &&
         std::all_of(entry.records.begin(), entry.records.end(),
                     [&](const CatalogueRecord& record) { return seen.contains(record.content); });
}

/// What `said` has to say beside `kept`. Coordinates that are those kept, only rounded, say nothing new: that
/// is how a catalogue's own export comes back, and they never take the place of the exact ones.
Collection beside(const Collection& kept, Collection said) {
  if (is_same_place_coarser(said, kept)) forget_coordinates(said);
  return said;
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
  auto of_uid = numbers_of_uids(database, entries);
  auto known = known_collections(database, entries, of_uid);
  auto seen = known_records(database, entries);

  std::vector<const CatalogueRecord*> records;
  std::vector<const std::string*> of_number;
  std::vector<const CatalogueEntry*> fresh;
  for (const CatalogueEntry& entry : entries) {
    const std::string& uid = entry.collection.uid;
    const auto by_uid = uid.empty() ? of_uid.end() : of_uid.find(uid);
    const std::string& number = by_uid == of_uid.end() ? entry.collection.number : by_uid->second;
    if (!known.contains(number) && brings_nothing(entry, seen)) {
      for (const CatalogueRecord& record : entry.records)
        count_known(record, number, seen.at(record.content), done);
      continue;
    }
    const auto [place, is_new] = known.try_emplace(number);
    if (is_new) {
      fresh.push_back(&entry);
      place->second.collection = entry.collection;
      if (!uid.empty()) of_uid.emplace(uid, number);
      ++done.collections_added;
    } else {
      if (place->second.removed && entry.removed.empty())
        return fail(ErrorCode::bad_call,
                    fmt::format("The collection '{}' was removed from the catalogue.", quotable(number)),
                    "Bring it back with 'tintfall catalogue remove --restore', or choose another number.");
      Collection said = beside(place->second.collection, entry.collection);
      if (said.number != number && done.renumbered.size() < most_told)
        done.renumbered.push_back({said.number, number});
      said.number = number;
      if (const std::string differs = contradiction(place->second.collection, said); !differs.empty())
        return fail(ErrorCode::bad_call,
                    fmt::format("The collection '{}' is in the catalogue already, and {}.", quotable(number),
                                differs),
                    "Correct one of them: 'tintfall catalogue edit' changes the catalogue.");
      if (place->second.id != 0) fill(database, place->second, said);
      ++done.collections_known;
    }
    for (const CatalogueRecord& record : entry.records) {
      if (const auto [there, fresh_record] = seen.try_emplace(record.content, number); !fresh_record) {
        count_known(record, number, there->second, done);
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
                  static_cast<long long>(k));
  }
  for (const RowBatch* batch : {&rows.collections, &rows.records, &rows.readings}) database.insert(*batch);
  return done;
}

/// Two sessions added the same number or record at once: the one that lost looks again.
bool lost_a_race(const std::exception& problem) {
  if (const auto* of_server = dynamic_cast<const soci::postgresql_soci_error*>(&problem);
      of_server != nullptr && of_server->sqlstate() == "40P01")  // each waited for the other
    return true;
  const auto* of_database = dynamic_cast<const soci::soci_error*>(&problem);
  return of_database != nullptr &&
         of_database->get_error_category() == soci::soci_error::constraint_violation;
}

/// One transaction, tried again while another session is faster.
Result<AddSummary> add_surely(Database& database, std::span<const CatalogueEntry> entries) {
  constexpr int most_races = 5;
  for (int race = 0;; ++race) {
    bool lost = false;
    auto done = database.in_transaction("Adding to the catalogue", [&]() -> Result<AddSummary> {
      try {
        return add_batch(database, entries);
      } catch (const soci::soci_error& problem) {
        lost = race < most_races && lost_a_race(problem);
        throw;
      }
    });
    if (done || !lost) return done;
  }
}

Error stopped(std::size_t done, std::size_t all) {
  return {ErrorCode::cancelled, fmt::format("Adding was stopped after {} of {}.", done, all),
          "What was added so far is kept; adding the same again passes over it."};
}

/// `more` behind `told`, as far as it is told one by one.
template <class One>
void append_told(std::vector<One>& told, const std::vector<One>& more) {
  const std::size_t room = most_told - std::min(most_told, told.size());
  told.insert(told.end(), more.begin(),
              more.begin() + static_cast<std::ptrdiff_t>(std::min(room, more.size())));
}

/// What the sessions of one call share.
struct Shared {
  std::mutex guard;
  std::size_t next = 0;  ///< entry of the next batch
  std::size_t done = 0;  ///< entries that are safe
  AddSummary total;
  std::optional<Error> failed;
};

}  // namespace

AddSummary& AddSummary::operator+=(const AddSummary& more) {
  collections_added += more.collections_added;
  collections_known += more.collections_known;
  records_added += more.records_added;
  records_known += more.records_known;
  readings_added += more.readings_added;
  append_told(elsewhere, more.elsewhere);
  append_told(renumbered, more.renumbered);
  return *this;
}

Result<AddSummary> Catalogue::add(std::span<const CatalogueEntry> entries, Progress& progress,
                                  const std::function<void(const AddSummary&)>& acknowledged,
                                  std::size_t batch) {
  for (const CatalogueEntry& entry : entries)
    if (const auto sound = check_collection(entry.collection); !sound) return fail(sound.error());
  if (!entries.empty() && progress.cancelled()) return fail(stopped(0, entries.size()));
  Shared shared;
  const auto take_batches = [&](Database& database, const std::function<void(const Shared&)>& told) {
    for (;;) {
      std::span<const CatalogueEntry> part;
      {
        const std::lock_guard lock(shared.guard);
        if (shared.failed || shared.next >= entries.size()) return;
        part = entries.subspan(shared.next, std::min(batch, entries.size() - shared.next));
        shared.next += part.size();
      }
      const auto added = add_surely(database, part);
      const std::lock_guard lock(shared.guard);
      if (!added) {
        if (!shared.failed) shared.failed = added.error();
        return;
      }
      shared.total += *added;
      shared.done += part.size();
      if (told) told(shared);
    }
  };
  // A server works on as many batches at once as there are sessions; a file has one writer.
  std::unique_ptr<Database>& second = database_->second;
  const bool in_two = database_->server && entries.size() > batch;
  if (in_two && !second)
    if (auto connected = Database::connect(database_->address, Open::existing))
      second = std::move(*connected);
  const bool two = in_two && second;
  run_on_threads(two ? 2 : 1, [&](std::size_t session) {
    if (session == 1) return take_batches(*second, {});
    take_batches(*database_, [&](const Shared& now) {
      if (acknowledged) acknowledged(now.total);
      progress.report(static_cast<double>(now.done) / static_cast<double>(entries.size()), "adding");
      if (progress.cancelled() && now.next < entries.size() && !shared.failed)
        shared.failed = stopped(now.done, entries.size());
    });
  });
  if (two) {
    if (shared.failed) second.reset();  // it may be what failed
    if (acknowledged && !shared.failed) acknowledged(shared.total);
  }
  if (shared.failed) return fail(*shared.failed);
  constexpr std::size_t many = 10'000;  // readings after which the server's planner should look again
  if (database_->server && shared.total.readings_added >= many)
    return database_->guarded("Adding to the catalogue", [&]() -> Result<AddSummary> {
      // A hint, given each time the table has grown by a fifth: the server passes over tables of which the
      // user is not the owner.
      if (database_->number_of(
              "SELECT count(*) FROM pg_stat_user_tables WHERE relname = 'readings' AND schemaname = "
              "'tintfall' AND n_mod_since_analyze > 10000 + n_live_tup / 5") > 0)
        database_->sql << "ANALYZE collections, records, readings";
      return shared.total;
    });
  return shared.total;
}

}  // namespace colorlib
