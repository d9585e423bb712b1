#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/reaction/reagents.hpp>
#include <filesystem>
#include <fstream>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;
using testing::Not;

Reagents shipped() {
  auto reagents = Reagents::load(TINTFALL_SOURCE_FOLDER);
  EXPECT_TRUE(reagents);
  return *std::move(reagents);
}

TEST(Reagents, AreFoundByAnyOfTheirNames) {
  const Reagents reagents = shipped();
  for (const char* name : {"KOH", "koh", " potassium hydroxide ", "KOH 10 %", "potash"}) {
    ASSERT_NE(reagents.find(name), nullptr) << name;
    EXPECT_EQ(reagents.find(name)->name, "KOH");
  }
  EXPECT_EQ(reagents.find("iron sulphate 10 %")->name, "FeSO4");
  EXPECT_EQ(reagents.find("phenolphthalein"), nullptr);  // no name by its beginning alone
  EXPECT_EQ(reagents.find(""), nullptr);
}

TEST(Reagents, HazardsStandWhereTheReagentIsNamed) {
  const Reagents reagents = shipped();
  const std::string koh = reagents.handling("KOH 5 %");
  EXPECT_THAT(koh, HasSubstr("causes severe skin burns and eye damage (H314)"));
  EXPECT_THAT(koh, HasSubstr("Do not drop alkali on foil prints"));
  EXPECT_THAT(koh, HasSubstr("safety data sheet"));
  EXPECT_THAT(reagents.handling("guaiac"), HasSubstr("from memory"));
  const std::string unknown = reagents.handling("reagent X");
  EXPECT_THAT(unknown, HasSubstr("Nothing is known here of 'reagent X'"));
  for (const Reagent& reagent : reagents.all()) {
    EXPECT_FALSE(reagent.caution.empty()) << reagent.name;
    EXPECT_FALSE(reagent.source.empty()) << reagent.name;
    // Codes say where they come from, and an empty list says why it is empty, but for water.
    if (reagent.name != "water") {
      EXPECT_FALSE(reagent.hazards_source.empty()) << reagent.name;
    }
  }
  EXPECT_GE(reagent_cautions().size(), 4u);
  EXPECT_FALSE(spore_dust_caution().empty());
}

TEST(Reagents, PresetsAreNeitherHighlyToxicNorObsolete) {
  const Reagents reagents = shipped();
  // Fatal or toxic by any way, damage to genes, unborn or organs, cancer.
  const std::vector<std::string> never = {"H300", "H301", "H310", "H311", "H330", "H331", "H340", "H341",
                                          "H350", "H351", "H360", "H361", "H370", "H372", "H373"};
  EXPECT_GE(reagents.presets().size(), 4u);
  for (const Reagent* reagent : reagents.presets()) {
    for (const std::string& code : reagent->hazards)
      EXPECT_EQ(std::count(never.begin(), never.end(), code), 0) << reagent->name << " " << code;
    EXPECT_NE(reagent->hazards_source, "not compiled") << reagent->name;
  }
  for (const char* recordable :
       {"phenol", "aniline", "Schaeffer", "formalin", "thallium reagents", "Melzer", "sulphovanillin"}) {
    ASSERT_NE(reagents.find(recordable), nullptr) << recordable;
    EXPECT_FALSE(reagents.find(recordable)->preset) << recordable;
  }
}

TEST(Reagents, NoTableLinksAColourToAFungus) {
  const auto table =
      ReferenceTable::read(std::string(TINTFALL_SOURCE_FOLDER) + "/reference/reagents.csv", "the reagents");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->columns().size(), 9u);
  for (const std::string& column : table->columns())
    for (const char* word : {"taxon", "species", "genus", "reaction", "result"})
      EXPECT_THAT(column, Not(HasSubstr(word)));
}

TEST(Reagents, ABrokenTableIsNamedByItsLine) {
  const auto folder = std::filesystem::path(testing::TempDir()) / "reagents_test";
  std::filesystem::create_directories(folder / "reference");
  std::filesystem::copy_file(std::string(TINTFALL_SOURCE_FOLDER) + "/reference/hazard_statements.csv",
                             folder / "reference/hazard_statements.csv",
                             std::filesystem::copy_options::overwrite_existing);
  const auto write = [&](const char* row) {
    std::ofstream(folder / "reference/reagents.csv")
        << "reagent,names,strength,applied_to,preset,hazards,hazards_source,caution,source\n"
        << row << "\n";
  };
  write("X,,,,yes,H999,,,");
  EXPECT_THAT(Reagents::load(folder),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("line 2 has the hazard code 'H999'")));
  write("X,,,,maybe,,,,");
  EXPECT_THAT(Reagents::load(folder), FailsWith(ErrorCode::unreadable_table, HasSubstr("'maybe'")));
  write("X,,,,no,,,,\nx 5,,,,no,,,,");
  EXPECT_THAT(Reagents::load(folder), FailsWith(ErrorCode::unreadable_table, HasSubstr("second time")));
}

TEST(Handling, NamesTheReagentsHazardsAndWhatGoesForAll) {
  Protocol protocol;
  protocol.reagent = "KOH";
  const auto text = handling_text(protocol, true);
  ASSERT_TRUE(text) << text.error().message;
  EXPECT_THAT(*text, HasSubstr("H314"));
  for (const std::string& caution : reagent_cautions()) EXPECT_THAT(*text, HasSubstr(caution));
  EXPECT_THAT(*handling_text({}, true),
              AllOf(HasSubstr("Reagents burn"), HasSubstr("label"), HasSubstr("safety data sheet"),
                    HasSubstr("local law"), HasSubstr(reagent_cautions().front())))
      << "a reagent that is not named may be any";
  EXPECT_EQ(*handling_text(protocol, false), spore_dust_caution()) << "a bruise needs no reagent";
}

}  // namespace
}  // namespace colorlib
