/// Rows in bulk by each database's own road: one prepared statement filled from the columns on SQLite, a
/// binary COPY on PostgreSQL. The session, its transaction and its errors are SOCI's all the same.
#include <fmt/format.h>
#include <libpq-fe.h>
#include <soci/postgresql/soci-postgresql.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <bit>
#include <colorlib/records/catalogue_database_internal.hpp>
#include <cstdint>

namespace colorlib {
namespace {

using Column = RowBatch::Column;
using Type = RowBatch::Type;

/// Keeps a statement until it is finished, whatever is thrown.
class FileStatement {
 public:
  FileStatement(sqlite_api::sqlite3* database, const std::string& text) : database_(database) {
    check(sqlite_api::sqlite3_prepare_v2(database, text.c_str(), static_cast<int>(text.size()), &statement_,
                                         nullptr));
  }
  ~FileStatement() { sqlite_api::sqlite3_finalize(statement_); }
  FileStatement(const FileStatement&) = delete;
  FileStatement& operator=(const FileStatement&) = delete;

  /// The texts stay where they are until the statement is finished.
  void bind(int place, const Column& column, std::size_t row) {
    if (column.present[row] == soci::i_null)
      check(sqlite_api::sqlite3_bind_null(statement_, place));
    else if (column.type == Type::integer)
      check(sqlite_api::sqlite3_bind_int64(statement_, place, column.integers[row]));
    else if (column.type == Type::real)
      check(sqlite_api::sqlite3_bind_double(statement_, place, column.reals[row]));
    else
      check(sqlite_api::sqlite3_bind_text(statement_, place, column.texts[row].data(),
                                          static_cast<int>(column.texts[row].size()), nullptr));
  }

  void run() {
    const int state = sqlite_api::sqlite3_step(statement_);
    if (state != SQLITE_DONE) check(state);
    check(sqlite_api::sqlite3_reset(statement_));
  }

 private:
  void check(int state) {
    if (state != SQLITE_OK) throw soci::sqlite3_soci_error(sqlite_api::sqlite3_errmsg(database_), state);
  }
  sqlite_api::sqlite3* database_;
  sqlite_api::sqlite3_stmt* statement_ = nullptr;
};

void insert_into_file(sqlite_api::sqlite3* database, const std::string& table, const std::string& names,
                      const std::vector<Column>& columns, std::size_t rows) {
  std::string places;
  for (std::size_t i = 0; i < columns.size(); ++i) places += i > 0 ? ", ?" : "?";
  FileStatement statement(database, fmt::format("INSERT INTO {} ({}) VALUES ({})", table, names, places));
  for (std::size_t row = 0; row < rows; ++row) {
    for (std::size_t i = 0; i < columns.size(); ++i) statement.bind(static_cast<int>(i) + 1, columns[i], row);
    statement.run();
  }
}

/// Most significant byte first, as the binary COPY format has it.
template <class Unsigned>
void append_number(std::string& bytes, Unsigned value) {
  for (int shift = 8 * (static_cast<int>(sizeof value) - 1); shift >= 0; shift -= 8)
    bytes += static_cast<char>((value >> shift) & 0xFF);
}

void append_row(std::string& bytes, const std::vector<Column>& columns, std::size_t row) {
  append_number(bytes, static_cast<std::uint16_t>(columns.size()));
  for (const Column& column : columns) {
    if (column.present[row] == soci::i_null) {
      append_number(bytes, ~std::uint32_t{0});
    } else if (column.type == Type::text) {
      append_number(bytes, static_cast<std::uint32_t>(column.texts[row].size()));
      bytes += column.texts[row];
    } else {
      append_number(bytes, std::uint32_t{8});
      append_number(bytes, column.type == Type::integer ? static_cast<std::uint64_t>(column.integers[row])
                                                        : std::bit_cast<std::uint64_t>(column.reals[row]));
    }
  }
}

/// Throws when `result` is not `wanted`; takes the result.
void take(PGresult* result, ExecStatusType wanted) {
  const bool fine = PQresultStatus(result) == wanted;
  const char* state = PQresultErrorField(result, PG_DIAG_SQLSTATE);
  const soci::postgresql_soci_error problem(PQresultErrorMessage(result), state != nullptr ? state : "     ");
  PQclear(result);
  if (!fine) throw problem;
}

/// All answers that are left, the first of them looked at, so that the connection can be used again.
void finish_copy(PGconn* connection) {
  PGresult* first = PQgetResult(connection);
  while (PGresult* more = PQgetResult(connection)) PQclear(more);
  take(first, PGRES_COMMAND_OK);
}

void insert_into_server(PGconn* connection, const std::string& table, const std::string& names,
                        const std::vector<Column>& columns, std::size_t rows) {
  take(PQexec(connection, fmt::format("COPY {} ({}) FROM STDIN (FORMAT binary)", table, names).c_str()),
       PGRES_COPY_IN);
  constexpr std::size_t block = 1 << 18;
  std::string bytes("PGCOPY\n\377\r\n\0\0\0\0\0\0\0\0\0", 19);
  bool sent = true;
  const auto send = [&] {
    sent = sent && PQputCopyData(connection, bytes.data(), static_cast<int>(bytes.size())) == 1;
    bytes.clear();
  };
  for (std::size_t row = 0; row < rows && sent; ++row) {
    append_row(bytes, columns, row);
    if (bytes.size() >= block) send();
  }
  append_number(bytes, static_cast<std::uint16_t>(0xFFFF));
  send();
  PQputCopyEnd(connection, sent ? nullptr : "the connection failed");
  finish_copy(connection);
}

}  // namespace

void Catalogue::Database::insert(const RowBatch& batch) {
  const std::size_t rows = batch.rows();
  if (rows == 0) return;
  std::string names;
  for (const Column& column : batch.columns_) names.append(names.empty() ? "" : ", ").append(column.name);
  if (server)
    insert_into_server(static_cast<soci::postgresql_session_backend*>(sql.get_backend())->conn_, batch.table_,
                       names, batch.columns_, rows);
  else
    insert_into_file(static_cast<soci::sqlite3_session_backend*>(sql.get_backend())->conn_, batch.table_,
                     names, batch.columns_, rows);
}

}  // namespace colorlib
