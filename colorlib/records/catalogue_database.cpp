#include <fmt/format.h>
#include <pwd.h>
#include <unistd.h>

#include <soci/postgresql/soci-postgresql.h>
#include <soci/sqlite3/soci-sqlite3.h>
#include <algorithm>
#include <chrono>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/catalogue_database_internal.hpp>
#include <colorlib/records/catalogue_rows_internal.hpp>
#include <colorlib/records/server_connection_internal.hpp>
#include <ctime>

namespace colorlib {
namespace {

constexpr int busy_timeout_s = 30;

/// The first line of a driver's message, without what it repeats of the statement.
std::string first_line(std::string text) {
  text.resize(std::min(text.size(), text.find('\n')));
  if (const auto end = text.find(" while "); end != std::string::npos) text.resize(end);
  return quotable(trimmed(text), 200);
}

/// SQLite's own `lower` knows the 26 letters of English only.
void lower_of_all_letters(sqlite_api::sqlite3* database) {
  const auto lower = [](sqlite_api::sqlite3_context* context, int, sqlite_api::sqlite3_value** values) {
    const auto* text = reinterpret_cast<const char*>(sqlite_api::sqlite3_value_text(values[0]));
    if (text == nullptr) return sqlite_api::sqlite3_result_null(context);
    const std::string small =
        lower_case({text, static_cast<std::size_t>(sqlite_api::sqlite3_value_bytes(values[0]))});
    auto* kept = static_cast<char*>(sqlite_api::sqlite3_malloc64(small.size() + 1));
    if (kept == nullptr) return sqlite_api::sqlite3_result_error_nomem(context);
    std::copy_n(small.c_str(), small.size() + 1, kept);
    sqlite_api::sqlite3_result_text(context, kept, static_cast<int>(small.size()), sqlite_api::sqlite3_free);
  };
  sqlite_api::sqlite3_create_function_v2(database, "lower", 1, SQLITE_UTF8 | SQLITE_DETERMINISTIC, nullptr,
                                         lower, nullptr, nullptr, nullptr);
}

/// How the file is named to SQLite when it may only be read. In a folder that may not be written to, the
/// helper files through which readers and writers agree cannot be made; when none are there nobody writes,
/// and the file is read as it lies.
std::string read_only_name(const std::filesystem::path& path) {
  std::filesystem::path log = path;
  log += "-wal";
  std::error_code ignored;
  const std::filesystem::path folder = path.has_parent_path() ? path.parent_path() : ".";
  if (::access(folder.c_str(), W_OK) == 0 || std::filesystem::exists(log, ignored) ||
      sqlite_api::sqlite3_compileoption_used("USE_URI") == 0)
    return path.string();
  std::string name = "file:";
  for (const char c : std::filesystem::absolute(path, ignored).string()) {
    if (c == '%' || c == '?' || c == '#' || c == '"')
      name += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    else
      name += c;
  }
  return name + "?immutable=1";
}

Error sqlite_words(std::string_view doing, int code, const CatalogueAddress& address,
                   const std::string& said) {
  const std::string place = address.shown();
  switch (code & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {ErrorCode::cannot_write,
              fmt::format("{}: {} was in use by another program for {} s.", doing, place, busy_timeout_s),
              "Try again when the other program is done."};
    case SQLITE_FULL:
    case SQLITE_IOERR:
      return {ErrorCode::cannot_write,
              fmt::format("{}: {} could not grow: the disk is full, a limit was reached, or it failed.",
                          doing, place),
              "Make room and do it again; what was in the catalogue before is unchanged."};
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
      return {ErrorCode::cannot_write, fmt::format("{}: {} may only be read.", doing, place),
              "Ask its owner for the right to write the file and its folder."};
    case SQLITE_CANTOPEN:
      return {ErrorCode::unreadable_catalogue, fmt::format("{}: {} cannot be opened.", doing, place),
              "Check that file and folder are there and may be written: the catalogue keeps two helper files "
              "beside itself."};
    case SQLITE_NOTADB:
      return {ErrorCode::unreadable_catalogue, fmt::format("{}: {} is no catalogue.", doing, place),
              "Name a catalogue, or a file that does not exist yet."};
    case SQLITE_CORRUPT:
      return {
          ErrorCode::unreadable_catalogue, fmt::format("{}: {} is damaged.", doing, place),
          "Keep a copy of the file, and go back to the last backup ('tintfall catalogue backup' makes one)."};
    default:
      return {ErrorCode::unreadable_catalogue,
              fmt::format("{}: {} answered: {}.", doing, place, first_line(said)),
              "Run 'tintfall catalogue check'; if it finds nothing, please report this sentence."};
  }
}

Error server_words(std::string_view doing, const soci::postgresql_soci_error& problem) {
  const std::string state = problem.sqlstate(), said = first_line(problem.what());
  using Kind = soci::soci_error::error_category;
  if (state == "42501" || problem.get_error_category() == Kind::no_privilege)
    return {ErrorCode::cannot_write,
            fmt::format("{}: the server says that you have no right to do this.", doing),
            "Ask the catalogue's keeper for the role that you need (contributor to add, curator to edit)."};
  if (state.starts_with("53"))
    return {ErrorCode::cannot_write,
            fmt::format("{}: the server has no room or memory left: {}.", doing, said),
            "Tell its keeper; nothing of this call was kept."};
  if (state.starts_with("25006"))
    return {ErrorCode::cannot_write, fmt::format("{}: the server may only be read at the moment.", doing),
            "Try again later."};
  return {ErrorCode::unreadable_catalogue, fmt::format("{}: the server says: {}.", doing, said),
          "Check the address, that the server runs, and your entry in ~/.pgpass."};
}

}  // namespace

RowBatch::RowBatch(std::string table, std::initializer_list<std::pair<std::string, Type>> columns)
    : table_(std::move(table)) {
  for (const auto& [name, type] : columns) add_column(name, type);
}

RowBatch::Column& RowBatch::next() {
  Column& column = columns_[at_];
  at_ = (at_ + 1) % columns_.size();
  return column;
}

void RowBatch::put(long long value) {
  Column& column = next();
  column.integers.push_back(value);
  column.present.push_back(soci::i_ok);
}

void RowBatch::put(double value) {
  Column& column = next();
  column.reals.push_back(value);
  column.present.push_back(soci::i_ok);
}

void RowBatch::put(std::string value) {
  Column& column = next();
  column.texts.push_back(std::move(value));
  column.present.push_back(soci::i_ok);
}

void RowBatch::put_null() {
  Column& column = next();
  if (column.type == Type::integer) column.integers.push_back(0);
  if (column.type == Type::real) column.reals.push_back(0);
  if (column.type == Type::text) column.texts.emplace_back();
  column.present.push_back(soci::i_null);
}

std::size_t RowBatch::rows() const { return columns_.front().present.size(); }

void Parameters::bind(soci::statement& statement) {
  for (auto& [name, value] : texts_) statement.exchange(soci::use(value, name));
  for (auto& [name, value] : reals_) statement.exchange(soci::use(value, name));
  for (auto& [name, value] : integers_) statement.exchange(soci::use(value, name));
}

Result<std::unique_ptr<Catalogue::Database>> Catalogue::Database::connect(const CatalogueAddress& address,
                                                                          Open how) {
  auto database = std::make_unique<Database>();
  database->address = address;
  database->server = address.server;
  const auto connected = database->guarded("Opening the catalogue", [&]() -> Result<std::monostate> {
    if (address.server) {
      const auto uri = server_uri(address.text);
      if (!uri) return fail(uri.error());
      try {
        database->sql.open(soci::postgresql, *uri);
      } catch (const soci::soci_error&) {
        return fail(why_not_connected("Opening the catalogue", *uri));
      }
      database->sql << "SET client_encoding = 'UTF8'";
      database->sql << "SET search_path = tintfall, public";
      return std::monostate{};
    }
    std::error_code ignored;
    const std::filesystem::path path = address.text;
    const bool exists = std::filesystem::exists(path, ignored);
    if (std::filesystem::is_directory(path, ignored))
      return fail(ErrorCode::unreadable_catalogue,
                  fmt::format("Opening the catalogue: '{}' is a folder, a file is needed.", address.text),
                  "Name a file in it.");
    if (!exists && how == Open::existing)
      return fail(ErrorCode::unreadable_catalogue,
                  fmt::format("Opening the catalogue: '{}' does not exist.", address.text),
                  "Check the name; 'tintfall catalogue add' makes a new one.");
    if (!exists && path.has_parent_path()) std::filesystem::create_directories(path.parent_path(), ignored);
    const bool writable = !exists || ::access(path.c_str(), W_OK) == 0;
    database->sql.open(soci::sqlite3,
                       fmt::format("db=\"{}\" timeout={}{}", writable ? address.text : read_only_name(path),
                                   busy_timeout_s, writable ? "" : " readonly=true"));
    auto& sql = database->sql;
    lower_of_all_letters(static_cast<soci::sqlite3_session_backend*>(sql.get_backend())->conn_);
    std::string mode;
    long long marked = 0, keys = 0, objects = 0;
    sql << "PRAGMA application_id", soci::into(marked);
    sql << "SELECT count(*) FROM sqlite_master", soci::into(objects);
    if (marked != sqlite_application_id && objects > 0)
      return fail(ErrorCode::unreadable_catalogue,
                  fmt::format("Opening the catalogue: '{}' is a database of another program.", address.text),
                  "Name a catalogue, or a file that does not exist yet.");
    if (writable) {
      sql << "PRAGMA journal_mode = WAL", soci::into(mode);
      if (marked != sqlite_application_id)
        sql << fmt::format("PRAGMA application_id = {}", sqlite_application_id);
    }
    // An acknowledged change survives a power cut, not only the end of the program.
    sql << "PRAGMA synchronous = FULL";
    // Hashes and colours go to random places of their indexes: pages are kept, and written back seldom.
    sql << "PRAGMA cache_size = -131072";        // KiB
    sql << "PRAGMA wal_autocheckpoint = 16000";  // pages, 64 MB
    sql << "PRAGMA foreign_keys = ON";
    sql << "PRAGMA foreign_keys", soci::into(keys);
    if (keys != 1)
      return fail(ErrorCode::unreadable_catalogue,
                  "Opening the catalogue: this SQLite does not check foreign keys.",
                  "Use the SQLite of your distribution.");
    return std::monostate{};
  });
  if (!connected) return fail(connected.error());
  return database;
}

Error Catalogue::Database::words_for(std::string_view doing, const std::exception& problem) const {
  if (const auto* of_sqlite = dynamic_cast<const soci::sqlite3_soci_error*>(&problem))
    return sqlite_words(doing, of_sqlite->result(), address, problem.what());
  if (const auto* of_server = dynamic_cast<const soci::postgresql_soci_error*>(&problem))
    return server_words(doing, *of_server);
  if (dynamic_cast<const soci::soci_error*>(&problem) != nullptr)
    return {ErrorCode::unreadable_catalogue,
            fmt::format("{}: {} answered: {}.", doing, server ? "the server" : address.shown(),
                        first_line(problem.what())),
            server ? "Check the address, that the server runs, and your entry in ~/.pgpass."
                   : "Run 'tintfall catalogue check'."};
  return {ErrorCode::untrustworthy, fmt::format("{}: {}.", doing, problem.what()), "Please report it."};
}

void Catalogue::Database::begin() {
  // SQLite: the right to write is taken at once, so that what is looked up stays true until it is written.
  sql << (server ? "BEGIN" : "BEGIN IMMEDIATE");
}

void Catalogue::Database::rollback() noexcept {
  try {
    sql << "ROLLBACK";
  } catch (const std::exception&) {  // the database has rolled back itself, or is gone
  }
}

std::vector<long long> Catalogue::Database::new_ids(std::string_view table, std::size_t count) {
  std::vector<long long> ids(count);
  if (count == 0) return ids;
  if (server) {
    long long wanted = static_cast<long long>(count);
    sql << "SELECT nextval('ids') FROM generate_series(1, :n)", soci::use(wanted, "n"), soci::into(ids);
    ids.resize(count);
    return ids;
  }
  long long last = number_of(fmt::format("SELECT coalesce(max(id), 0) FROM {}", table));
  for (long long& id : ids) id = ++last;
  return ids;
}

long long Catalogue::Database::number_of(const std::string& query) {
  long long number = 0;
  sql << query, soci::into(number);
  return number;
}

std::string Catalogue::Database::now() {
  const std::time_t time = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm utc{};
  ::gmtime_r(&time, &utc);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", utc.tm_year + 1900, utc.tm_mon + 1, utc.tm_mday,
                     utc.tm_hour, utc.tm_min, utc.tm_sec);
}

std::string Catalogue::Database::user() {
  std::string name;
  if (server) {
    sql << "SELECT session_user", soci::into(name);
  } else if (const passwd* entry = ::getpwuid(::geteuid()); entry != nullptr) {
    name = entry->pw_name;
  }
  return name;
}

}  // namespace colorlib
