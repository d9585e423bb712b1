#include <fmt/format.h>
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

/// The catalogue that an earlier version wrote goes where `scratch` is.
void copy_version(int version, const ScratchCatalogue& scratch) {
  std::filesystem::copy_file(
      fmt::format("{}/tests/colorlib/records/catalogue_version_{}.db", TINTFALL_SOURCE_FOLDER, version),
      scratch.path());
  std::filesystem::permissions(scratch.path(), std::filesystem::perms::owner_write,
                               std::filesystem::perm_options::add);
}

/// Whole, in the present version, and what it held is still there.
void expect_the_scenario(Catalogue& catalogue) {
  const auto health = catalogue.check(silent);
  EXPECT_EQ(health->schema_version, Catalogue::schema_version);
  EXPECT_THAT(health->problems, IsEmpty());
  EXPECT_EQ(health->records, 13u);
  EXPECT_EQ(*catalogue.show("QH-03"), scenario_entries()[1]);
}

// A catalogue as version 1 wrote it: the scenario's collections, one of them with a reagent in its record's
// JSON.
TEST(CatalogueSchema, Version1ComesForward) {
  const ScratchCatalogue scratch;
  copy_version(1, scratch);
  auto catalogue = scratch.open(Catalogue::Open::existing);
  ASSERT_TRUE(catalogue) << catalogue.error().message;
  expect_the_scenario(*catalogue);
  CatalogueQuery query;
  query.reagent = "sulphate";
  EXPECT_THAT(*catalogue->find(query), SizeIs(1)) << "version 2 takes the reagent out of the record";
  query = {};
  query.word = "rust";
  const auto hits = catalogue->find(query);
  ASSERT_THAT(*hits, SizeIs(4));
  EXPECT_THAT(hits->front().reading.terms, testing::ElementsAre("rust")) << "it wrote |rust|ochre|";
  EXPECT_THAT(hits->front().reading.deposit_classes, testing::ElementsAre("ochre"));
  EXPECT_TRUE(catalogue->edit("QH-03", {{"remarks", "after"}}));
  EXPECT_THAT(*catalogue->history("QH-03"), SizeIs(1));
}

// The same as version 2 wrote it, with a tree of colours and a change in its history: colours are found by
// their cells from version 3 on.
TEST(CatalogueSchema, Version2ComesForward) {
  const ScratchCatalogue scratch;
  copy_version(2, scratch);
  auto catalogue = scratch.open(Catalogue::Open::existing);
  ASSERT_TRUE(catalogue) << catalogue.error().message;
  expect_the_scenario(*catalogue);
  EXPECT_THAT(*catalogue->history("QH-06"), SizeIs(1));
  CatalogueQuery query;
  query.color = Lab{42, 19, 29};
  query.within_de00 = 3;
  EXPECT_THAT(*catalogue->find(query), SizeIs(4));
  ASSERT_TRUE(catalogue->add(made_up_entries(0, 10, 2), silent));
  EXPECT_THAT(catalogue->check(silent)->problems, IsEmpty());
}

TEST(CatalogueSchema, ANewerOneIsRefusedInWordsAndLeftAlone) {
  const ScratchCatalogue scratch;
  { ASSERT_TRUE(scratch.open()->add(scenario_entries(), silent)); }
  run_sql(scratch.path(), "UPDATE catalogue SET value = '4' WHERE name = 'schema_version'");
  const auto refused = scratch.open();
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::unreadable_catalogue);
  EXPECT_THAT(refused.error().message, HasSubstr("schema version 4"));
  EXPECT_THAT(refused.error().advice, HasSubstr("newer tintfall; nothing was changed"));
  run_sql(scratch.path(), "UPDATE catalogue SET value = '3' WHERE name = 'schema_version'");
  EXPECT_EQ(*scratch.open()->show("QH-03"), scenario_entries()[1]);
}

// The colours' index as it would be if cells began elsewhere: it does not fit the readings.
TEST(CatalogueSchema, AWrongIndexOfColoursIsFoundAndMadeAnew) {
  const ScratchCatalogue scratch;
  { ASSERT_TRUE(scratch.open()->add(made_up_entries(0, 50, 2), silent)); }
  const auto cells_of = [&](const char* from, const char* to) {
    return fmt::format("PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, '{}', '{}')",
                       from, to);
  };
  run_sql(scratch.path(), cells_of("a + 128.0", "a + 127.5").c_str());
  run_sql(scratch.path(), "REINDEX readings_by_colour");
  run_sql(scratch.path(), cells_of("a + 127.5", "a + 128.0").c_str());
  auto catalogue = scratch.open(Catalogue::Open::existing);
  ASSERT_TRUE(catalogue) << catalogue.error().message;
  const auto wrong = catalogue->check(silent);
  EXPECT_THAT(wrong->problems, testing::ElementsAre(HasSubstr("index of colours does not fit the readings")));
  EXPECT_THAT(wrong->advice, HasSubstr("--rebuild-index"));
  ASSERT_TRUE(catalogue->rebuild_index());
  EXPECT_THAT(catalogue->check(silent)->problems, IsEmpty());
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
