#include <gtest/gtest.h>

#include <colorlib/naming/wording.hpp>
#include <fstream>
#include <tests/colorlib/naming/reference_tables.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::HasSubstr;

TEST(Wording, IsPublishedSpellingByDefault) {
  EXPECT_EQ(Wording().said("light grayish brown"), "light grayish brown");
  const auto american = Wording::for_spelling(Spelling::american, source_folder());
  ASSERT_TRUE(american);
  EXPECT_EQ(american->said("gray"), "gray");
  EXPECT_EQ(american->published_for("gray"), "gray");
}

TEST(Wording, SaysEveryNameInBritishSpelling) {
  const auto british = Wording::for_spelling(Spelling::british, source_folder());
  ASSERT_TRUE(british);
  EXPECT_EQ(british->said("light grayish yellowish brown"), "light greyish yellowish brown");
  EXPECT_EQ(british->said("dark gray"), "dark grey");
  for (const auto level : {NameLevel::broad, NameLevel::middle, NameLevel::full})
    for (const auto& name : namer().names().names_at(level)) {
      const auto said = british->said(name);
      EXPECT_EQ(said.find("gray"), std::string::npos) << name;
      EXPECT_EQ(british->published_for(said), name);
    }
  for (const auto& term : namer().trade_terms().terms())
    EXPECT_EQ(british->said(term.term).find("gray"), std::string::npos) << term.term;
}

TEST(Wording, TranslatesWholeNamesBeforeWords) {
  const auto folder = std::filesystem::temp_directory_path() / "tintfall_words_test";
  std::filesystem::create_directories(folder);
  const auto file = folder / "words.csv";
  const auto add = [&](const std::string& text) {
    std::ofstream(file) << text;
    Wording wording;
    const auto added = wording.add(file);
    return std::pair{wording, added};
  };
  const auto [wording, added] =
      add("published,said\nbrown,braun\nmoderate,mittel\nmoderate brown,mittelbraun\notherwise,sonst\n");
  ASSERT_TRUE(added);
  EXPECT_EQ(wording.said("moderate brown"), "mittelbraun");
  EXPECT_EQ(wording.said("moderate reddish brown"), "mittel reddish braun");
  EXPECT_EQ(wording.published_for("mittelbraun"), "moderate brown");
  EXPECT_THAT(add("published,said\nbrown,\n").second,
              FailsWith(ErrorCode::unreadable_table, AllOf(HasSubstr("line 2"), HasSubstr("missing"))));
  EXPECT_THAT(add("published,said\nbrown,braun\nbrown,b\n").second,
              FailsWith(ErrorCode::unreadable_table, AllOf(HasSubstr("line 3"), HasSubstr("twice"))));
  EXPECT_THAT(add("word,other\nbrown,braun\n").second,
              FailsWith(ErrorCode::unreadable_table, HasSubstr("'published'")));
  std::filesystem::remove_all(folder);
}

TEST(Wording, FillsInPhrasesInTheReadersOrder) {
  Wording wording;
  EXPECT_EQ(wording.phrase("begins %1 after %2 (%3)", {"2 s", "the drop", "1\u20133"}),
            "begins 2 s after the drop (1\u20133)");
  wording.translate("begins %1 after %2 (%3)", "nach %2 in %1 (%3), %4, 95 %");
  EXPECT_EQ(wording.phrase("begins %1 after %2 (%3)", {"2 s", "%1", "1"}), "nach %1 in 2 s (1), %4, 95 %");
  // A phrase is never taken for a part of a colour's name.
  wording.translate("strong", "stark");
  EXPECT_EQ(wording.phrase("strong"), "stark");
  EXPECT_EQ(wording.said("strong brown"), "strong brown");
}

}  // namespace
}  // namespace colorlib
