#include <fmt/format.h>
#include <netinet/in.h>
#include <pwd.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <tests/support/postgresql_server.hpp>

namespace colorlib {
namespace {

std::string reason;

/// What a command prints, without the line end; empty when it fails.
std::string output_of(const std::string& command) {
  std::string text;
  FILE* pipe = ::popen(command.c_str(), "r");
  if (pipe == nullptr) return text;
  std::array<char, 512> block{};
  while (std::fgets(block.data(), block.size(), pipe) != nullptr) text += block.data();
  if (::pclose(pipe) != 0) return {};
  while (!text.empty() && text.back() == '\n') text.pop_back();
  return text;
}

bool succeeds(const std::string& command) { return std::system((command + " >/dev/null 2>&1").c_str()) == 0; }

/// A port that nobody listens on now.
int free_port() {
  const int socket = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in place{};
  place.sin_family = AF_INET;
  place.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  socklen_t size = sizeof place;
  int port = 0;
  if (::bind(socket, reinterpret_cast<sockaddr*>(&place), size) == 0 &&
      ::getsockname(socket, reinterpret_cast<sockaddr*>(&place), &size) == 0)
    port = ntohs(place.sin_port);
  ::close(socket);
  return port;
}

}  // namespace

PostgresqlServer* PostgresqlServer::shared() {
  static std::unique_ptr<PostgresqlServer> server = [] {
    std::unique_ptr<PostgresqlServer> made(new PostgresqlServer);
    reason = made->start();
    if (!reason.empty()) made.reset();
    return made;
  }();
  return server.get();
}

const std::string& PostgresqlServer::missing() { return reason; }

std::string PostgresqlServer::as_user(const std::string& command) const {
  // initdb and postgres refuse to run as root.
  return ::geteuid() == 0 ? "cd / && runuser -u postgres -- " + command : command;
}

std::string PostgresqlServer::start() {
  binaries_ = output_of("pg_config --bindir 2>/dev/null");
  if (binaries_.empty() || !std::filesystem::exists(binaries_ / "initdb"))
    for (const char* usual : {"/usr/lib/postgresql/15/bin"})
      if (std::filesystem::exists(std::filesystem::path(usual) / "initdb")) binaries_ = usual;
  if (!std::filesystem::exists(binaries_ / "initdb")) return "no initdb";
  std::string pattern = (std::filesystem::temp_directory_path() / "tintfall-pg-XXXXXX").string();
  if (::mkdtemp(pattern.data()) == nullptr) return "no scratch folder";
  folder_ = pattern;
  if (::geteuid() == 0) {
    const passwd* user = ::getpwnam("postgres");
    if (user == nullptr || ::chown(folder_.c_str(), user->pw_uid, user->pw_gid) != 0)
      return "no user postgres";
  }
  port_ = free_port();
  const std::string data = (folder_ / "data").string();
  if (!succeeds(
          as_user(fmt::format("{}/initdb -D {} -U keeper --auth=trust -E UTF8 --locale=C.UTF-8 --no-sync",
                              binaries_.string(), data))))
    return "initdb failed";
  // As Debian configures it otherwise; fsync stays on, so that figures are honest.
  const std::string options =
      fmt::format("-p {} -k {} -c listen_addresses=127.0.0.1 -c shared_buffers=256MB -c max_wal_size=4GB",
                  port_, folder_.string());
  if (!succeeds(as_user(fmt::format("{}/pg_ctl -D {} -w -t 60 -l {}/log -o \"{}\" start", binaries_.string(),
                                    data, folder_.string(), options))))
    return "the server did not start";
  running_ = true;
  return {};
}

std::string PostgresqlServer::address_of(const std::string& database, const std::string& user) const {
  return fmt::format("host=127.0.0.1 port={} user={} dbname={}", port_, user, database);
}

std::string PostgresqlServer::uri_of(const std::string& database, const std::string& user) const {
  return fmt::format("postgresql://{}@127.0.0.1:{}/{}", user, port_, database);
}

std::string PostgresqlServer::new_database() {
  const std::string name = fmt::format("test_{}", ++databases_);
  if (!succeeds(fmt::format("{}/createdb -h 127.0.0.1 -p {} -U keeper {}", binaries_.string(), port_, name)))
    std::fprintf(stderr, "createdb failed\n");
  return address_of(name);
}

bool PostgresqlServer::run_sql(const std::string& database, const std::filesystem::path& file) const {
  return succeeds(fmt::format("{}/psql -v ON_ERROR_STOP=1 -h 127.0.0.1 -p {} -U keeper -d {} -f '{}'",
                              binaries_.string(), port_, database, file.string()));
}

PostgresqlServer::~PostgresqlServer() {
  if (running_)
    static_cast<void>(succeeds(as_user(
        fmt::format("{}/pg_ctl -D {}/data -m immediate -w stop", binaries_.string(), folder_.string()))));
  std::error_code ignored;
  if (!folder_.empty()) std::filesystem::remove_all(folder_, ignored);
}

}  // namespace colorlib
