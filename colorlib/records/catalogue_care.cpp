#include <fmt/format.h>
#include <unistd.h>

#include <soci/sqlite3/soci-sqlite3.h>
#include <array>
#include <colorlib/records/catalogue_rows_internal.hpp>
#include <colorlib/records/content_hash.hpp>
#include <fstream>

namespace colorlib {
namespace {

using Database = Catalogue::Database;

constexpr const char* restore_advice =
    "Keep a copy of the file as it is, then put the last backup in its place; what was added since can be "
    "exported "
    "from the damaged one as far as it can be read, and imported.";
constexpr const char* index_advice =
    "Run 'tintfall catalogue check --rebuild-index': the index is made from the readings.";

/// Rows of one text column.
std::vector<std::string> texts_of(Database& database, const std::string& query) {
  std::vector<std::string> texts;
  std::string text;
  soci::statement statement = (database.sql.prepare << query, soci::into(text));
  statement.execute(false);
  while (statement.fetch()) texts.push_back(text);
  return texts;
}

void check_file(Database& database, CatalogueHealth& health) {
  bool index_is_wrong = false, damaged = false;
  for (const std::string& line : texts_of(database, "PRAGMA integrity_check(20)")) {
    if (line == "ok") continue;
    // "row 7 missing from index readings_by_colour", and the like
    if (line.ends_with("readings_by_colour")) {
      index_is_wrong = true;
    } else {
      damaged = true;
      health.problems.push_back(fmt::format("The file is damaged: {}.", line));
    }
  }
  if (damaged) health.advice = restore_advice;
  if (const auto orphans = database.number_of("SELECT count(*) FROM pragma_foreign_key_check"); orphans > 0) {
    health.problems.push_back(fmt::format("{} rows belong to nothing.", orphans));
    health.advice = restore_advice;
  }
  if (index_is_wrong) {
    health.problems.push_back("The index of colours does not fit the readings: a search may miss some.");
    if (health.advice.empty()) health.advice = index_advice;
  }
}

/// Whether every record is, letter by letter, what was added.
Result<std::monostate> check_records(Database& database, CatalogueHealth& health, Progress& progress) {
  std::string content, json;
  std::size_t done = 0, changed = 0;
  soci::statement statement =
      (database.sql.prepare << "SELECT content, json FROM records", soci::into(content), soci::into(json));
  statement.execute(false);
  while (statement.fetch()) {
    // A record reduced to a table's row bears the hash of the one it was taken from, and says so.
    changed += sha256_of(json) != content && json.find("\"reduced_from\":\"" + content) == std::string::npos;
    if (++done % 1000 != 0) continue;
    if (progress.cancelled()) return fail(ErrorCode::cancelled, "The check was stopped.", "Run it again.");
    progress.report(static_cast<double>(done) / static_cast<double>(std::max<std::size_t>(health.records, 1)),
                    "checking records");
  }
  if (changed > 0) {
    health.problems.push_back(
        fmt::format("{} records are not what was added: their text does not match its hash.", changed));
    if (health.advice.empty()) health.advice = restore_advice;
  }
  return std::monostate{};
}

Result<std::monostate> copy_file(Database& database, const std::filesystem::path& to, Progress& progress) {
  namespace sqlite = sqlite_api;
  auto* from = static_cast<soci::sqlite3_session_backend*>(database.sql.get_backend())->conn_;
  sqlite::sqlite3* target = nullptr;
  std::string reason;
  if (sqlite::sqlite3_open(to.c_str(), &target) == SQLITE_OK) {
    if (sqlite::sqlite3_backup* copy = sqlite::sqlite3_backup_init(target, "main", from, "main")) {
      constexpr int pages_a_step = 4096;
      int state = SQLITE_OK;
      while (state == SQLITE_OK || state == SQLITE_BUSY || state == SQLITE_LOCKED) {
        if (progress.cancelled()) break;
        if (state != SQLITE_OK) sqlite::sqlite3_sleep(50);
        state = sqlite::sqlite3_backup_step(copy, pages_a_step);
        const int all = sqlite::sqlite3_backup_pagecount(copy);
        if (all > 0)
          progress.report(1 - static_cast<double>(sqlite::sqlite3_backup_remaining(copy)) / all, "copying");
      }
      sqlite::sqlite3_backup_finish(copy);
      if (state != SQLITE_DONE && !progress.cancelled()) reason = sqlite::sqlite3_errmsg(target);
    } else {
      reason = sqlite::sqlite3_errmsg(target);
    }
  } else {
    reason = target != nullptr ? sqlite::sqlite3_errmsg(target) : "no memory";
  }
  // One file, complete in itself, whatever journal the original keeps.
  if (reason.empty() && !progress.cancelled())
    sqlite::sqlite3_exec(target, "PRAGMA journal_mode = DELETE", nullptr, nullptr, nullptr);
  if (sqlite::sqlite3_close(target) != SQLITE_OK && reason.empty()) reason = "the copy could not be closed";
  if (progress.cancelled()) return fail(ErrorCode::cancelled, "The backup was stopped.", "Run it again.");
  if (!reason.empty())
    return fail(ErrorCode::cannot_write,
                fmt::format("Writing the backup '{}' failed: {}.", to.string(), reason),
                "Check that the folder exists and has room; an older backup is unchanged.");
  return std::monostate{};
}

/// A backup takes the place of an older one, and of a file with nothing in it; what else is there was named
/// by a slip.
bool may_be_replaced(const std::filesystem::path& path) {
  std::error_code problem;
  const auto status = std::filesystem::status(path, problem);
  if (status.type() == std::filesystem::file_type::not_found) return true;
  if (status.type() != std::filesystem::file_type::regular) return false;
  // SQLite's file header: its name in the first 16 bytes, the application's mark in 4 from byte 68 on.
  constexpr std::string_view name("SQLite format 3\0", 16);
  constexpr std::size_t mark_at = 68;
  std::array<char, 72> head{};
  std::ifstream file(path, std::ios::binary);
  file.read(head.data(), head.size());
  if (file.gcount() == 0) return file.eof();
  long long mark = 0;
  for (std::size_t i = mark_at; i < head.size(); ++i) mark = mark << 8 | static_cast<unsigned char>(head[i]);
  return file && std::string_view(head.data(), name.size()) == name && mark == sqlite_application_id;
}

}  // namespace

Result<CatalogueHealth> Catalogue::check(Progress& progress) {
  return database_->guarded("Checking the catalogue", [&]() -> Result<CatalogueHealth> {
    CatalogueHealth health;
    health.schema_version = schema_version_of(*database_);
    if (!database_->server) {
      progress.report(0, "checking the file");
      check_file(*database_, health);
    }
    const auto count = [&](const char* table) {
      return static_cast<std::size_t>(database_->number_of(fmt::format("SELECT count(*) FROM {}", table)));
    };
    health.collections = count("collections");
    health.records = count("records");
    health.readings = count("readings");
    if (const auto done = check_records(*database_, health, progress); !done) return fail(done.error());
    return health;
  });
}

Result<std::monostate> Catalogue::rebuild_index() {
  return database_->in_transaction("Rebuilding the index of colours", [&]() -> Result<std::monostate> {
    database_->sql << (database_->server ? "REINDEX INDEX readings_by_colour" : "REINDEX readings_by_colour");
    return std::monostate{};
  });
}

Result<std::monostate> Catalogue::backup(const std::filesystem::path& path, Progress& progress) {
  std::error_code ignored;
  if (std::filesystem::equivalent(path, database_->address.text, ignored))
    return fail(ErrorCode::bad_call, "The backup would replace the catalogue itself.", "Name another file.");
  if (!may_be_replaced(path))
    return fail(ErrorCode::bad_call,
                fmt::format("The backup would replace '{}', which is there and no catalogue.", path.string()),
                "Name a file that does not exist yet, or an older backup.");
  std::filesystem::path part = path;
  part += fmt::format(".{}.part", ::getpid());
  std::filesystem::remove(part, ignored);
  const auto copied = database_->guarded("Writing the backup", [&]() -> Result<std::monostate> {
    if (!database_->server) return copy_file(*database_, part, progress);
    auto copy = open({false, part.string()}, Open::create);
    if (!copy) return fail(copy.error());
    std::vector<CatalogueEntry> page;
    Progress silent;
    const auto flush = [&]() -> Result<std::monostate> {
      const auto added = copy->add(page, silent);
      page.clear();
      if (!added) return fail(added.error());
      return std::monostate{};
    };
    const auto done = each({}, true, [&](const CatalogueEntry& entry) -> Result<std::monostate> {
      if (progress.cancelled()) return fail(ErrorCode::cancelled, "The backup was stopped.", "Run it again.");
      page.push_back(entry);
      return page.size() < 500 ? Result<std::monostate>(std::monostate{}) : flush();
    });
    if (!done) return done;
    if (const auto rest = flush(); !rest) return rest;
    std::string mode;
    copy->database_->sql << "PRAGMA journal_mode = DELETE", soci::into(mode);
    return std::monostate{};
  });
  std::error_code problem;
  if (copied) std::filesystem::rename(part, path, problem);
  for (const char* beside : {"", "-wal", "-shm", "-journal"})
    std::filesystem::remove(std::filesystem::path(part) += beside, ignored);
  if (!copied) return copied;
  if (problem)
    return fail(ErrorCode::cannot_write,
                fmt::format("Writing the backup '{}' failed: {}.", path.string(), problem.message()),
                "Check the folder; an older backup is unchanged.");
  return std::monostate{};
}

}  // namespace colorlib
