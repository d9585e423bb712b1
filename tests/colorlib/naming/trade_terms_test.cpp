#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <fstream>
#include <set>
#include <tests/colorlib/naming/reference_tables.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;

const TradeTerms& trade() { return namer().trade_terms(); }

TEST(TradeTerms, CentersAreTheirMunsellNotations) {
  const auto table = ReferenceTable::read(source_folder() / "reference/trade_terms.csv", "the trade terms");
  ASSERT_TRUE(table);
  const auto munsell_column = table->column("munsell");
  ASSERT_TRUE(munsell_column);
  ASSERT_EQ(table->rows(), trade().terms().size());
  for (std::size_t row = 0; row < table->rows(); ++row) {
    const auto munsell = munsell_from_notation(table->text(row, *munsell_column));
    ASSERT_TRUE(munsell) << table->line(row);
    // The table holds one decimal of L, a and b.
    EXPECT_THAT(trade().terms()[row].center,
                NearInDeltaE(namer().renotation().lab_from_munsell(*munsell), 0.15))
        << trade().terms()[row].term;
    EXPECT_FALSE(namer().renotation().munsell_from_lab(trade().terms()[row].center).outside)
        << trade().terms()[row].term;
  }
}

TEST(TradeTerms, EveryWordNamesItsOwnCenterFirst) {
  for (const auto& term : trade().terms()) {
    const auto found = trade().matches(term.center, term.kind);
    ASSERT_FALSE(found.empty());
    EXPECT_EQ(found.front().term->term, term.term);
    EXPECT_EQ(found.front().de00, 0);
  }
}

TEST(TradeTerms, HoldsTheWordsOfTheTrade) {
  for (const char* word : {"white", "cream", "buff", "pink", "ochre", "rust", "cinnamon", "clay", "olive",
                           "purple-brown", "chocolate", "black", "green", "lilac"})
    EXPECT_NE(trade().find(word, TermKind::deposit), nullptr) << word;
  for (const char* word : {"blue", "red", "black", "yellow"})
    EXPECT_NE(trade().find(word, TermKind::bruise), nullptr) << word;
  for (const char* word : {"blue-green", "pink-orange", "violet", "yellow"})
    EXPECT_NE(trade().find(word, TermKind::reaction), nullptr) << word;
}

TEST(TradeTerms, HasTheFiveClassicalClassesEachWithTerms) {
  ASSERT_EQ(trade().classes().size(), 5u);
  std::set<std::string> used;
  for (const auto& term : trade().terms()) used.insert(term.deposit_class);
  for (const auto& known : trade().classes()) {
    EXPECT_TRUE(used.count(known.name)) << known.name;
    EXPECT_NE(trade().find_class(known.name), nullptr);
  }
  EXPECT_EQ(trade().find_class("brown-spored"), nullptr);
}

// The invented deposits of the demonstration, CIELAB under D65, each with the word its collector wrote down.
TEST(TradeTerms, MeetsTheCollectorsWords) {
  const std::pair<Lab, const char*> written[] = {
      {{88.0, 1.5, 17.0}, "cream"},    {{64.0, 13.0, 16.0}, "salmon"}, {{42.0, 19.0, 29.0}, "rust"},
      {{25.0, 8.0, 8.5}, "chocolate"}, {{16.0, 1.5, 1.5}, "black"},    {{43.0, 5.0, 25.0}, "olive-brown"},
      {{66.0, -8.0, 17.0}, "green"},   {{93.0, 0.0, 4.0}, "white"}};
  for (const auto& [under_d65, word] : written) {
    const Lab lab = adapted_lab(under_d65, white_d65, white_d50, AdaptationMethod::bradford);
    EXPECT_THAT(namer().describe(lab, {}).trade_terms, Contains(word));
  }
}

TEST(TradeTerms, OverlapOnPurposeAndMayBeNone) {
  const auto between = namer().describe({88.3, 2.9, 17.2}, {});
  EXPECT_EQ(between.trade_terms.size(), 2u);
  EXPECT_EQ(between.deposit_classes, std::vector<std::string>{"white"});
  const auto blue = namer().describe({40, 0, -45}, {});
  EXPECT_THAT(blue.trade_terms, IsEmpty());
  EXPECT_THAT(blue.deposit_classes, IsEmpty());
  EXPECT_THAT(namer().describe({40, 0, -22}, {}, {NameLevel::full, TermKind::bruise}).trade_terms,
              Contains("blue"));
}

TEST(TradeTerms, NamesTheLineThatIsWrong) {
  const auto folder = std::filesystem::temp_directory_path() / "tintfall_terms_test";
  std::filesystem::create_directories(folder);
  const auto load = [&](const std::string& rows) {
    std::ofstream(folder / "terms.csv") << "# note\nterm,kind,deposit_class,L,a,b,tolerance_de00,note\n"
                                        << rows;
    return TradeTerms::load(folder / "terms.csv", source_folder() / "reference/deposit_classes.csv");
  };
  EXPECT_TRUE(load("x,deposit,,50,0,0,5,\n"));
  for (const auto& [rows, sentence] : {std::pair{"x,spot,,50,0,0,5,\n", "the kind is none"},
                                       {",deposit,,50,0,0,5,\n", "the term is missing"},
                                       {"x,deposit,brown,50,0,0,5,\n", "no deposit class"},
                                       {"x,deposit,,120,0,0,5,\n", "0 to 100"},
                                       {"x,deposit,,50,0,0,0,\n", "0 to 20"},
                                       {"x,deposit,,50,zero,0,5,\n", "not a number"}})
    EXPECT_THAT(load(rows), FailsWith(ErrorCode::unreadable_table,
                                      testing::AllOf(HasSubstr("line 3"), HasSubstr(sentence))));
  EXPECT_THAT(
      load("x,deposit,,50,0,0,5,\nx,deposit,,50,0,0,5,\n"),
      FailsWith(ErrorCode::unreadable_table, testing::AllOf(HasSubstr("line 4"), HasSubstr("twice"))));
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace colorlib
