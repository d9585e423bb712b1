#pragma once
/// A PostgreSQL server of the tests' own: its own data folder, socket and user, loopback only; gone at the
/// end.

#include <sys/types.h>
#include <filesystem>
#include <string>

namespace colorlib {

class PostgresqlServer {
 public:
  /// The one server of this program, started at the first call; null when PostgreSQL is not installed.
  static PostgresqlServer* shared();
  /// What kept it from starting.
  static const std::string& missing();

  /// Connection words of a new empty database; no password is needed on its private socket.
  std::string new_database();
  /// The same of a database that is there, over loopback.
  std::string address_of(const std::string& database, const std::string& user = "keeper") const;
  /// As the documentation writes addresses: postgresql://keeper@127.0.0.1:PORT/DATABASE. `database` as it
  /// stands in a URI.
  std::string uri_of(const std::string& database, const std::string& user = "keeper") const;
  /// Runs SQL text in a database as its keeper; false when the server refused.
  bool run_sql(const std::string& database, const std::filesystem::path& file) const;

  ~PostgresqlServer();
  PostgresqlServer(const PostgresqlServer&) = delete;
  PostgresqlServer& operator=(const PostgresqlServer&) = delete;

 private:
  PostgresqlServer() = default;
  std::string start();
  std::string as_user(const std::string& command) const;

  std::filesystem::path folder_, binaries_;
  int port_ = 0, databases_ = 0;
  bool running_ = false;
};

}  // namespace colorlib
