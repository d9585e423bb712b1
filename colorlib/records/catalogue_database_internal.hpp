#pragma once
/// The one place that knows the database library: a session, its transactions, bulk rows. For .cpp files
/// only.

#include <soci/soci.h>

#include <colorlib/records/catalogue.hpp>
#include <deque>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace colorlib {

/// "TIN2" in SQLite's header: tells our files from other programs'.
inline constexpr long long sqlite_application_id = 0x54494E32;

/// Rows of one table, column by column, sent all at once.
class RowBatch {
 public:
  enum class Type { integer, real, text };
  RowBatch(std::string table, std::initializer_list<std::pair<std::string, Type>> columns);

  void add_column(std::string name, Type type) {
    columns_.push_back({std::move(name), type, {}, {}, {}, {}});
  }
  /// The next value of the row under way, in the order of the columns.
  void put(long long value);
  void put(double value);
  void put(std::string value);
  void put_null();
  std::size_t rows() const;

  struct Column {
    std::string name;
    Type type;
    std::vector<long long> integers;
    std::vector<double> reals;
    std::vector<std::string> texts;
    std::vector<soci::indicator> present;
  };

 private:
  friend struct Catalogue::Database;
  Column& next();
  std::string table_;
  std::vector<Column> columns_;
  std::size_t at_ = 0;
};

/// Values of a statement, alive as long as it runs. Names are ours, values are anybody's.
class Parameters {
 public:
  void text(std::string name, std::string value) { texts_.emplace_back(std::move(name), std::move(value)); }
  void real(std::string name, double value) { reals_.emplace_back(std::move(name), value); }
  void integer(std::string name, long long value) { integers_.emplace_back(std::move(name), value); }
  void bind(soci::statement& statement);

 private:
  std::deque<std::pair<std::string, std::string>> texts_;
  std::deque<std::pair<std::string, double>> reals_;
  std::deque<std::pair<std::string, long long>> integers_;
};

struct Catalogue::Database {
  CatalogueAddress address;
  soci::session sql;
  bool server = false;
  std::unique_ptr<Database> second;  ///< server: another session, for adding in bulk; made when it is needed

  /// Connects; errors in words.
  static Result<std::unique_ptr<Database>> connect(const CatalogueAddress& address, Open how);

  /// Runs `work` in a transaction that holds the right to write; rolls back when it throws or fails.
  template <class Work>
  auto in_transaction(std::string_view doing, const Work& work) -> decltype(work());
  /// Runs `work`, errors in words.
  template <class Work>
  auto guarded(std::string_view doing, const Work& work) -> decltype(work());

  /// All rows; throws what SOCI throws.
  void insert(const RowBatch& batch);
  /// `count` new ids; within a transaction.
  std::vector<long long> new_ids(std::string_view table, std::size_t count);
  long long number_of(const std::string& query);
  /// ISO 8601, UTC, to the second.
  static std::string now();
  std::string user();

  Error words_for(std::string_view doing, const std::exception& problem) const;
  void begin();
  void commit() { sql << "COMMIT"; }
  void rollback() noexcept;
};

/// Brings the tables to Catalogue::schema_version. Errors: unreadable_catalogue (newer, or no catalogue).
Result<std::monostate> migrate(Catalogue::Database& database, Catalogue::Open how);
/// 0 when there are no tables of ours.
int schema_version_of(Catalogue::Database& database);

template <class Work>
auto Catalogue::Database::guarded(std::string_view doing, const Work& work) -> decltype(work()) {
  try {
    return work();
  } catch (const std::exception& problem) {
    return fail(words_for(doing, problem));
  }
}

template <class Work>
auto Catalogue::Database::in_transaction(std::string_view doing, const Work& work) -> decltype(work()) {
  return guarded(doing, [&]() -> decltype(work()) {
    begin();
    try {
      auto result = work();
      if (result)
        commit();
      else
        rollback();
      return result;
    } catch (...) {
      rollback();
      throw;
    }
  });
}

}  // namespace colorlib
