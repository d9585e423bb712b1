#include <gmock/gmock.h>

#include <cstdlib>
#include <fstream>
#include <tests/colorlib/records/catalogue_entries.hpp>
#include <tests/support/postgresql_server.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

Progress silent;

// The shipped script, twice over, and one person of each role.
TEST(CatalogueRoles, ReadersReadContributorsAddCuratorsEdit) {
  PostgresqlServer* server = PostgresqlServer::shared();
  if (server == nullptr) GTEST_SKIP() << PostgresqlServer::missing();
  const std::string address = server->new_database();
  const std::string database = address.substr(address.rfind('=') + 1);
  {
    auto owner = Catalogue::open({true, address}, Catalogue::Open::create);
    ASSERT_TRUE(owner) << owner.error().message;
    ASSERT_TRUE(owner->add(scenario_entries(), silent));
  }
  const std::string script = std::string(TINTFALL_SOURCE_FOLDER) + "/reference/catalogue_roles.sql";
  ASSERT_TRUE(server->run_sql(database, script));
  ASSERT_TRUE(server->run_sql(database, script)) << "a second run fails";
  const ScratchCatalogue scratch;
  const auto people = scratch.folder() / "people.sql";
  std::ofstream(people) << "CREATE ROLE quarn LOGIN IN ROLE tintfall_reader; CREATE ROLE vell LOGIN IN ROLE "
                           "tintfall_contributor; CREATE ROLE hollin LOGIN IN ROLE tintfall_curator; CREATE "
                           "ROLE stranger LOGIN;";
  ASSERT_TRUE(server->run_sql(database, people));
  const auto as = [&](const char* who) {
    return Catalogue::open({true, server->address_of(database, who)}, Catalogue::Open::existing);
  };
  const auto new_entries = made_up_entries(0, 3, 1);

  auto reader = as("quarn");
  ASSERT_TRUE(reader) << reader.error().message;
  EXPECT_THAT(*reader->list({}), SizeIs(3));
  const auto no = reader->add(new_entries, silent);
  ASSERT_FALSE(no);
  EXPECT_EQ(no.error().code, ErrorCode::cannot_write);
  EXPECT_THAT(no.error().message, HasSubstr("no right"));
  EXPECT_TRUE(reader->backup(scratch.path(), silent));

  auto contributor = as("vell");
  ASSERT_TRUE(contributor) << contributor.error().message;
  const auto added = contributor->add(new_entries, silent);
  ASSERT_TRUE(added) << added.error().message;
  EXPECT_FALSE(contributor->edit("QH-03", {{"remarks", "x"}}));
  EXPECT_FALSE(contributor->remove("QH-03"));

  auto curator = as("hollin");
  ASSERT_TRUE(curator) << curator.error().message;
  EXPECT_TRUE(curator->edit("QH-03", {{"remarks", "x"}}));
  EXPECT_TRUE(curator->remove("QH-03"));
  EXPECT_TRUE(curator->restore("QH-03"));
  EXPECT_EQ(curator->history("QH-03")->front().who, "hollin");

  EXPECT_FALSE(as("stranger"));
}

}  // namespace
}  // namespace colorlib
