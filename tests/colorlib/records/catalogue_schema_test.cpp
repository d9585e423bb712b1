#include <gmock/gmock.h>
#include <sqlite3.h>

#include <tests/colorlib/records/catalogue_entries.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

Progress silent;

void run_sql(const std::string& path, const char* text) {
  sqlite3* database = nullptr;
  ASSERT_EQ(sqlite3_open(path.c_str(), &database), SQLITE_OK);
  EXPECT_EQ(sqlite3_exec(database, text, nullptr, nullptr, nullptr), SQLITE_OK) << sqlite3_errmsg(database);
  sqlite3_close(database);
}

std::filesystem::path fixture() {
  return std::string(TINTFALL_SOURCE_FOLDER) + "/tests/colorlib/records/catalogue_version_1.db";
}

// A catalogue as version 1 wrote it: the scenario's collections, one of them with a reagent in its record's
// JSON.
TEST(CatalogueSchema, Version1ComesForward) {
  const ScratchCatalogue scratch;
  std::filesystem::copy_file(fixture(), scratch.path());
  std::filesystem::permissions(scratch.path(), std::filesystem::perms::owner_write,
                               std::filesystem::perm_options::add);
  auto catalogue = scratch.open(Catalogue::Open::existing);
  ASSERT_TRUE(catalogue) << catalogue.error().message;
  const auto health = catalogue->check(silent);
  EXPECT_EQ(health->schema_version, Catalogue::schema_version);
  EXPECT_THAT(health->problems, IsEmpty());
  EXPECT_EQ(health->records, 13u);
  EXPECT_EQ(*catalogue->show("QH-03"), scenario_entries()[1]);
  CatalogueQuery query;
  query.reagent = "sulphate";
  EXPECT_THAT(*catalogue->find(query), SizeIs(1)) << "version 2 takes the reagent out of the record";
  EXPECT_TRUE(catalogue->edit("QH-03", {{"remarks", "after"}}));
  EXPECT_THAT(*catalogue->history("QH-03"), SizeIs(1));
}

TEST(CatalogueSchema, ANewerOneIsRefusedInWordsAndLeftAlone) {
  const ScratchCatalogue scratch;
  { ASSERT_TRUE(scratch.open()->add(scenario_entries(), silent)); }
  run_sql(scratch.path(), "UPDATE catalogue SET value = '3' WHERE name = 'schema_version'");
  const auto refused = scratch.open();
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::unreadable_catalogue);
  EXPECT_THAT(refused.error().message, HasSubstr("schema version 3"));
  EXPECT_THAT(refused.error().advice, HasSubstr("newer tintfall; nothing was changed"));
  run_sql(scratch.path(), "UPDATE catalogue SET value = '2' WHERE name = 'schema_version'");
  EXPECT_EQ(*scratch.open()->show("QH-03"), scenario_entries()[1]);
}

TEST(CatalogueSchema, AnotherProgramsDatabaseIsLeftAlone) {
  const ScratchCatalogue scratch;
  run_sql(scratch.path(), "CREATE TABLE accounts (id integer)");
  const auto refused = scratch.open();
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().message, HasSubstr("another program"));
}

}  // namespace
}  // namespace colorlib
