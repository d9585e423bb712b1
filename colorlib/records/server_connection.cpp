#include <fmt/format.h>
#include <libpq-fe.h>
#include <poll.h>

#include <algorithm>
#include <chrono>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/server_connection_internal.hpp>
#include <memory>

namespace colorlib {
namespace {

using SteadyClock = std::chrono::steady_clock;
constexpr auto longest_try = std::chrono::seconds(10);
constexpr std::size_t longest_words = 200;

using Options = std::unique_ptr<PQconninfoOption, decltype(&PQconninfoFree)>;
using Connection = std::unique_ptr<PGconn, decltype(&PQfinish)>;

std::string percent_encoded(std::string_view text) {
  std::string encoded;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool plain = (byte >= '0' && byte <= '9') || (byte >= 'a' && byte <= 'z') ||
                       (byte >= 'A' && byte <= 'Z') || c == '-' || c == '_' || c == '.';
    encoded += plain ? std::string(1, c) : fmt::format("%{:02X}", byte);
  }
  return encoded;
}

/// Until it stands or fails; false when neither came in time.
bool has_settled(PGconn* connection) {
  const auto end = SteadyClock::now() + longest_try;
  PostgresPollingStatusType state = PGRES_POLLING_WRITING;
  while (state == PGRES_POLLING_READING || state == PGRES_POLLING_WRITING) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - SteadyClock::now());
    const short wanted = state == PGRES_POLLING_READING ? POLLIN : POLLOUT;
    pollfd socket{PQsocket(connection), wanted, 0};
    if (left.count() <= 0 || ::poll(&socket, 1, static_cast<int>(left.count())) == 0) return false;
    state = PQconnectPoll(connection);
  }
  return true;
}

/// What stands behind one attempt: "database "club" does not exist", and its SQLSTATE where it has one.
struct Cause {
  std::string state, words;
};

/// "...: FATAL:  3D000: database ..." is cut into both; of several attempts the last that the server answered
/// tells, else the first.
Cause cause_from(std::string_view message) {
  Cause cause;
  for (const std::string_view line : lines_of(message)) {
    if (line.empty() || line.front() == '\t' || line.starts_with("LOCATION")) continue;
    for (std::size_t at = line.find(":  "); at != std::string_view::npos; at = line.find(":  ", at + 1)) {
      const std::string_view code = line.substr(at + 3, 5);
      if (code.size() != 5 || !line.substr(at + 8).starts_with(": ") ||
          !std::all_of(code.begin(), code.end(),
                       [](char c) { return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z'); }))
        continue;
      cause = {std::string(code), std::string(line.substr(at + 10))};
    }
    if (cause.words.empty()) cause.words = line;
  }
  while (cause.words.ends_with('.')) cause.words.pop_back();
  cause.words = quotable(trimmed(cause.words), longest_words);
  return cause;
}

std::string advice_for(const Cause& cause, bool password_needed, bool password_used) {
  if (cause.state == "3D000")
    return "Check the database's name in the address; the server's keeper makes a new one with 'createdb "
           "NAME'.";
  if (cause.state == "28P01" || password_used)
    return "Check the password in your entry of ~/.pgpass (host:port:database:user:password).";
  if (password_needed)
    return "The server wants a password: put host:port:database:user:password into ~/.pgpass, readable by "
           "you "
           "alone.";
  if (cause.state.starts_with("28"))
    return "Check the user's name in the address (postgresql://USER@host/database); else the server's keeper "
           "has to let this user and machine in.";
  if (cause.state == "42501") return "Ask the catalogue's keeper for the right to connect to this database.";
  if (cause.state.starts_with("53"))
    return "The server has no place left: try again later, or tell its keeper.";
  if (cause.state.starts_with("57")) return "The server starts or stops at the moment: try again soon.";
  if (!cause.state.empty()) return "Tell the server's keeper what it says.";
  if (cause.words.find("translate host name") != std::string::npos)
    return "Check the host's name in the address, and that this machine is on the network.";
  return "Check host and port of the address, that the server runs, and that it may be reached from here.";
}

}  // namespace

Result<std::string> server_uri(std::string_view address) {
  char* problem = nullptr;
  const Options options(PQconninfoParse(std::string(address).c_str(), &problem), &PQconninfoFree);
  const std::unique_ptr<char, decltype(&PQfreemem)> message(problem, &PQfreemem);
  if (!options)
    return fail(ErrorCode::bad_call,
                fmt::format("The address of the catalogue's server cannot be read: {}.",
                            message ? quotable(trimmed(message.get()), longest_words) : "no memory"),
                "Write it like postgresql://user@host:5432/database?sslmode=require, or like "
                "\"postgresql:host=/run/postgresql dbname=club\".");
  std::string uri = "postgresql:///?fallback_application_name=tintfall";
  for (const PQconninfoOption* option = options.get(); option->keyword != nullptr; ++option) {
    if (option->val == nullptr) continue;
    const std::string_view keyword = option->keyword;
    if (keyword == "password" || keyword == "sslpassword")
      return fail(ErrorCode::bad_call, "The address of the catalogue's server holds a password.",
                  "Leave it out and put it into ~/.pgpass.");
    if (keyword == "fallback_application_name") continue;
    uri += fmt::format("&{}={}", keyword, percent_encoded(option->val));
  }
  return uri;
}

Error why_not_connected(std::string_view doing, const std::string& uri) {
  const auto error = [&](std::string_view what, std::string advice) {
    return Error{ErrorCode::unreadable_catalogue, fmt::format("{}: {}.", doing, what), std::move(advice)};
  };
  const Connection connection(PQconnectStart(uri.c_str()), &PQfinish);
  if (!connection) return error("there is no memory left for a connection", "Close other programs.");
  if (PQstatus(connection.get()) != CONNECTION_BAD) {
    // Verbose messages hold the SQLSTATE, which reads the same in the language of every server.
    PQsetErrorVerbosity(connection.get(), PQERRORS_VERBOSE);
    if (!has_settled(connection.get()))
      return error(fmt::format("the server did not answer within {} s", longest_try.count()),
                   "Check host and port of the address, and that it may be reached from here.");
    if (PQstatus(connection.get()) == CONNECTION_OK)
      return error("the server let nobody in at first, and does now", "Try again.");
  }
  const Cause cause = cause_from(PQerrorMessage(connection.get()));
  return error(
      fmt::format("the server {}: {}", cause.state.empty() ? "cannot be reached" : "refuses", cause.words),
      advice_for(cause, PQconnectionNeedsPassword(connection.get()) != 0,
                 PQconnectionUsedPassword(connection.get()) != 0));
}

}  // namespace colorlib
