#include <fmt/format.h>

#include <array>
#include <colorlib/records/catalogue_database_internal.hpp>
#include <colorlib/records/color_cells_internal.hpp>

namespace colorlib {
namespace {

using Statements = std::vector<std::string>;

/// The fields of a collection as columns: numbers as numbers, everything else as text.
std::string collection_columns(std::string_view text) {
  std::string columns;
  for (const CollectionField& field : collection_fields())
    columns += field.kind == FieldKind::number
                   ? fmt::format("{} double precision,\n", field.name)
                   : fmt::format("{} {} NOT NULL {},\n", field.name, text,
                                 field.name == "number" ? "UNIQUE" : "DEFAULT ''");
  return columns;
}

/// Compared by bytes on both: the same order and the same answers everywhere.
std::string text_type(bool server) { return server ? "text COLLATE \"C\"" : "text"; }

/// Version 1. What a later version changes stands in its own step, never here.
Statements version_1(bool server) {
  Statements s;
  const std::string text = text_type(server);
  if (server) {
    s.push_back("CREATE SEQUENCE ids");
    s.push_back("CREATE TABLE catalogue (name text PRIMARY KEY, value text NOT NULL)");
  } else {
    s.push_back("CREATE TABLE catalogue (name text PRIMARY KEY, value text NOT NULL) WITHOUT ROWID");
  }
  s.push_back(
      fmt::format("CREATE TABLE collections (id bigint PRIMARY KEY, uid text NOT NULL UNIQUE,\n{}"
                  "created text NOT NULL, removed text)",
                  collection_columns(text)));
  s.push_back(fmt::format(
      "CREATE TABLE records (id bigint PRIMARY KEY,\n"
      "collection_id bigint NOT NULL REFERENCES collections (id),\n"
      "content {0} NOT NULL UNIQUE, item {0} NOT NULL, read_by {0} NOT NULL, tissue {0} NOT NULL,\n"
      "state {0} NOT NULL, captured {0} NOT NULL, photo_name {0} NOT NULL, photo_sha256 {0} NOT NULL,\n"
      "chart {0} NOT NULL, json text NOT NULL, added text NOT NULL, added_by text NOT NULL, removed text)",
      text));
  s.push_back("CREATE INDEX records_of_collection ON records (collection_id)");
  const std::string readings = fmt::format(
      "id bigint PRIMARY KEY,\n"
      "record_id bigint NOT NULL REFERENCES records (id), position bigint NOT NULL,\n"
      "region {0} NOT NULL, kind {0} NOT NULL, name {0} NOT NULL, terms {0} NOT NULL, munsell {0} NOT NULL,\n"
      "l double precision, a double precision, b double precision,\n"
      "c_ll double precision, c_la double precision, c_lb double precision,\n"
      "c_aa double precision, c_ab double precision, c_bb double precision,\n"
      "de00_expanded double precision, refused text NOT NULL, flags text NOT NULL",
      text);
  if (server) {
    s.push_back(
        fmt::format("CREATE TABLE readings ({},\ncolour cube GENERATED ALWAYS AS "
                    "(CASE WHEN l IS NULL THEN NULL ELSE cube(array[l, a, b]) END) STORED)",
                    readings));
    s.push_back("CREATE INDEX readings_by_colour ON readings USING gist (colour)");
  } else {
    s.push_back(fmt::format("CREATE TABLE readings ({})", readings));
    s.push_back("CREATE VIRTUAL TABLE colours USING rtree (id, l0, l1, a0, a1, b0, b1)");
  }
  s.push_back("CREATE INDEX readings_of_record ON readings (record_id)");
  s.push_back("INSERT INTO catalogue (name, value) VALUES ('format', 'tintfall-catalogue')");
  return s;
}

/// Version 2: the history of changes, and the reagent as a column of its own.
Statements version_2(bool server) {
  return {
      "CREATE TABLE changes (id bigint PRIMARY KEY, collection_id bigint NOT NULL REFERENCES collections "
      "(id),\n"
      "changed text NOT NULL, changed_by text NOT NULL, what text NOT NULL, value_before text NOT NULL,\n"
      "value_after text NOT NULL)",
      "CREATE INDEX changes_of_collection ON changes (collection_id)",
      fmt::format("ALTER TABLE records ADD COLUMN reagent {} NOT NULL DEFAULT ''", text_type(server)),
      server ? "UPDATE records SET reagent = coalesce(cast(json AS jsonb) -> 'subject' ->> 'reagent', '')"
             : "UPDATE records SET reagent = coalesce(json_extract(json, '$.subject.reagent'), '')",
  };
}

/// Version 3: SQLite finds colours by their cell, which it keeps itself; a tree of boxes took too long to
/// grow.
Statements version_3(bool server) {
  if (server) return {};  // its index of colours stays
  return {
      "DROP TABLE colours",
      fmt::format("ALTER TABLE readings ADD COLUMN cell integer GENERATED ALWAYS AS ({}) VIRTUAL",
                  color_cell_sql()),
      "CREATE INDEX readings_by_colour ON readings (cell)",
  };
}

constexpr std::array steps{&version_1, &version_2, &version_3};
static_assert(steps.size() == Catalogue::schema_version);

bool has_tables(Catalogue::Database& database) {
  return database.number_of(
             database.server
                 ? "SELECT count(*) FROM pg_tables WHERE schemaname = 'tintfall' AND tablename = 'catalogue'"
                 : "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = 'catalogue'") > 0;
}

void write_version(Catalogue::Database& database, int version) {
  database.sql << "DELETE FROM catalogue WHERE name = 'schema_version'";
  const std::string text = fmt::format("{}", version);
  database.sql << "INSERT INTO catalogue (name, value) VALUES ('schema_version', :v)", soci::use(text, "v");
}

Result<std::monostate> newer(int found) {
  return fail(ErrorCode::unreadable_catalogue,
              fmt::format("The catalogue has schema version {}, this program knows versions up to {}.", found,
                          Catalogue::schema_version),
              "Use a newer tintfall; nothing was changed.");
}

}  // namespace

int schema_version_of(Catalogue::Database& database) {
  if (!has_tables(database)) return 0;
  std::string text;
  soci::indicator present = soci::i_null;
  database.sql << "SELECT value FROM catalogue WHERE name = 'schema_version'", soci::into(text, present);
  // No version, or no number: not ours, and not older than anything.
  if (!database.sql.got_data() || text.empty() || text.find_first_not_of("0123456789") != std::string::npos ||
      text.size() > 6)
    return 1'000'000;
  return std::stoi(text);
}

Result<std::monostate> migrate(Catalogue::Database& database, Catalogue::Open how) {
  return database.guarded("Opening the catalogue", [&]() -> Result<std::monostate> {
    const int found = schema_version_of(database);
    if (found == Catalogue::schema_version) return std::monostate{};
    if (found > Catalogue::schema_version) return newer(found);
    if (found == 0 && how == Catalogue::Open::existing)
      return fail(ErrorCode::unreadable_catalogue,
                  fmt::format("Opening the catalogue: there is none at {}.", database.address.shown()),
                  "'tintfall catalogue add' makes a new one.");
    return database.in_transaction(
        "Bringing the catalogue to the current version", [&]() -> Result<std::monostate> {
          if (database.server)
            database.sql << "SELECT pg_advisory_xact_lock(7434)";  // one migration at a time
          const int version = schema_version_of(database);         // another program may have been faster
          if (version > Catalogue::schema_version) return newer(version);
          if (version == 0 && database.server) {
            database.sql << "CREATE SCHEMA IF NOT EXISTS tintfall";
            database.sql << "CREATE EXTENSION IF NOT EXISTS cube WITH SCHEMA public";
          }
          for (int step = version; step < Catalogue::schema_version; ++step)
            for (const std::string& statement : steps[static_cast<std::size_t>(step)](database.server))
              database.sql << statement;
          write_version(database, Catalogue::schema_version);
          return std::monostate{};
        });
  });
}

}  // namespace colorlib
