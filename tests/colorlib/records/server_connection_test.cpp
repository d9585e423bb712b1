#include <gmock/gmock.h>

#include <colorlib/records/server_connection_internal.hpp>
#include <fstream>
#include <tests/colorlib/records/catalogue_entries.hpp>
#include <tests/support/color_matchers.hpp>
#include <tests/support/postgresql_server.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::EndsWith;
using testing::Eq;
using testing::HasSubstr;
using testing::Not;

const std::string start = "postgresql:///?fallback_application_name=tintfall";

TEST(ServerUri, HoldsEachValueOfEitherFormPercentEncoded) {
  for (const auto& [address, values] :
       {std::pair{"postgresql://vell@records.example:5433/club",
                  "&user=vell&host=records.example&port=5433&dbname=club"},
        {"postgres://records.example/club?sslmode=verify-full&connect_timeout=3",
         "&connect_timeout=3&host=records.example&dbname=club&sslmode=verify-full"},
        {"postgresql://v%40x@[2001:db8::1]/my%20club", "&user=v%40x&host=2001%3Adb8%3A%3A1&dbname=my%20club"},
        {"postgresql:///club?host=%2Frun%2Fpostgresql", "&dbname=club&host=%2Frun%2Fpostgresql"},
        {"host=/tmp dbname='my club' options='-c a=b\\\\'",
         "&dbname=my%20club&host=%2Ftmp&options=-c%20a%3Db%5C"},
        {"service=club", "&service=club"},
        {"", ""}}) {
    const auto uri = server_uri(address);
    ASSERT_TRUE(uri) << address << ": " << uri.error().message;
    EXPECT_THAT(*uri, testing::StartsWith(start)) << address;
    EXPECT_THAT(*uri, Not(HasSubstr(" "))) << address;
    // libpq's own order of keywords is of no account.
    std::string rest = values;
    EXPECT_EQ(uri->size(), start.size() + rest.size()) << *uri;
    for (std::size_t at = 0; at < rest.size();) {
      const std::size_t end = std::min(rest.find('&', at + 1), rest.size());
      EXPECT_THAT(*uri + "&", HasSubstr(rest.substr(at, end - at) + "&")) << address;
      at = end;
    }
    EXPECT_THAT(*server_uri(*uri), Eq(*uri)) << "a second time";
  }
}

TEST(ServerUri, RefusesWhatLibpqCannotReadAndEveryPassword) {
  for (const char* bad : {"club", "host", "postgresql://h/club?colour=red", "postgresql://[::1/club",
                          "postgresql://h/%zz", "host=x dbname='club"})
    EXPECT_THAT(server_uri(bad), FailsWith(ErrorCode::bad_call, HasSubstr("cannot be read"))) << bad;
  for (const char* bad : {"postgresql://v:secret@h/club", "postgresql://h/club?p%61ssword=secret",
                          "host=h password=secret", "sslpassword=secret"})
    EXPECT_THAT(server_uri(bad), FailsWith(ErrorCode::bad_call,
                                           AllOf(HasSubstr("holds a password"), Not(HasSubstr("secret")))))
        << bad;
}

TEST(ServerConnection, OpensByEitherFormOfTheAddress) {
  PostgresqlServer* server = PostgresqlServer::shared();
  if (server == nullptr) GTEST_SKIP() << PostgresqlServer::missing();
  const ScratchCatalogue scratch;
  const std::string words = server->new_database(), plain = words.substr(words.rfind('=') + 1);
  const auto script = scratch.folder() / "odd.sql";
  std::ofstream(script) << "CREATE DATABASE \"our club's = 1\";";
  ASSERT_TRUE(server->run_sql(plain, script));
  const std::string odd = words.substr(0, words.rfind('=') + 1) + "'our club\\'s = 1'";
  Progress silent;
  for (const std::string& address :
       {"postgresql:" + words, server->uri_of(plain), server->uri_of(plain) + "?sslmode=disable",
        server->uri_of(plain) + "?connect_timeout=5&options=-c%20lock_timeout%3D5000",
        "postgresql:" + words + " options='-c lock_timeout=5000'", server->uri_of("our%20club%27s%20%3D%201"),
        "postgresql:" + odd}) {
    const auto place = catalogue_address_from(address);
    ASSERT_TRUE(place) << address << ": " << place.error().message;
    auto catalogue = Catalogue::open(*place, Catalogue::Open::create);
    ASSERT_TRUE(catalogue) << address << ": " << catalogue.error().message;
    EXPECT_TRUE(catalogue->add(scenario_entries(), silent)) << address;
    EXPECT_THAT(*catalogue->list({}), testing::SizeIs(scenario_entries().size())) << address;
  }
}

TEST(ServerConnection, SaysWhyNobodyIsLetIn) {
  PostgresqlServer* server = PostgresqlServer::shared();
  if (server == nullptr) GTEST_SKIP() << PostgresqlServer::missing();
  const std::string words = server->new_database(), plain = words.substr(words.rfind('=') + 1);
  const auto refusal = [](const std::string& address) {
    const auto place = catalogue_address_from(address);
    EXPECT_TRUE(place) << address;
    const auto opened = Catalogue::open(place.value_or(CatalogueAddress{}), Catalogue::Open::existing);
    EXPECT_FALSE(opened) << address;
    return opened ? Error{} : opened.error();
  };
  const Error database = refusal(server->uri_of("nowhere"));
  EXPECT_THAT(database.message, EndsWith("the server refuses: database \"nowhere\" does not exist."));
  EXPECT_THAT(database.advice, HasSubstr("createdb"));
  const Error user = refusal(server->uri_of(plain, "nobody"));
  EXPECT_THAT(user.message, EndsWith("the server refuses: role \"nobody\" does not exist."));
  EXPECT_THAT(user.advice, HasSubstr("user's name"));
  const Error host = refusal("postgresql://records.invalid/club");
  EXPECT_THAT(host.message, AllOf(HasSubstr("cannot be reached"), HasSubstr("records.invalid")));
  EXPECT_THAT(host.advice, HasSubstr("host's name"));
  const Error stopped = refusal("postgresql://127.0.0.1:1/club");
  EXPECT_THAT(stopped.message, AllOf(HasSubstr("cannot be reached"), HasSubstr("refused")));
  EXPECT_THAT(stopped.advice, HasSubstr("that the server runs"));
  const Error socket = refusal("postgresql:host=/nowhere dbname=club");
  EXPECT_THAT(socket.message, AllOf(HasSubstr("cannot be reached"), HasSubstr("/nowhere")));
  for (const Error& error : {database, user, host, stopped, socket}) {
    EXPECT_THAT(error.code, Eq(ErrorCode::unreadable_catalogue));
    EXPECT_THAT(error.message, Not(HasSubstr("..")));
  }
}

}  // namespace
}  // namespace colorlib
