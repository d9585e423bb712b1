#include <gmock/gmock.h>

#include <colorlib/base/reference_table.hpp>
#include <string>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;

Result<ReferenceTable> parsed(std::string_view text) {
  return ReferenceTable::parse(text, "scale.csv", "the scale");
}

TEST(ReferenceTables, HaveCommentsAHeadingAndRows) {
  const auto table =
      parsed("# source: invented\n#unit: percent\n\nterm,L,a\ncream,90.5,1\n\nochre, 60 ,-1e1\n");
  ASSERT_TRUE(table);
  EXPECT_THAT(table->comments(), ElementsAre("source: invented", "unit: percent"));
  EXPECT_THAT(table->columns(), ElementsAre("term", "L", "a"));
  ASSERT_EQ(table->rows(), 2u);
  EXPECT_EQ(table->text(1, 0), "ochre");
  EXPECT_EQ(table->number(0, 1).value(), 90.5);
  EXPECT_EQ(table->number(1, 2).value(), -10);
  EXPECT_EQ(table->line(0), 5u);
  EXPECT_EQ(table->line(1), 7u);
  EXPECT_EQ(table->name(), "scale.csv");
  EXPECT_EQ(table->column("a"), 2u);
  EXPECT_EQ(table->column("A"), std::nullopt);
}

TEST(ReferenceTables, AByteOrderMarkIsNoPartOfTheFirstName) {
  const auto table = parsed("\xEF\xBB\xBFL,a\r\n1,2\r\n");
  ASSERT_TRUE(table);
  EXPECT_THAT(table->columns(), ElementsAre("L", "a"));
}

TEST(ReferenceTables, SemicolonsAllowADecimalComma) {
  const auto table = parsed("L;a\n95,1;-0,5\n95.2;1\n");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->number(0, 0).value(), 95.1);
  EXPECT_EQ(table->number(0, 1).value(), -0.5);
  EXPECT_EQ(table->number(1, 0).value(), 95.2);
}

TEST(ReferenceTables, TabsAllowADecimalComma) {
  const auto table = parsed("L\ta\n95,1\t\"-0,5\"\n");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->number(0, 0).value(), 95.1);
  EXPECT_EQ(table->number(0, 1).value(), -0.5);
}

TEST(ReferenceTables, CommasDoNot) {
  const auto table = parsed("L,a\n\"95,1\",2\n");
  ASSERT_TRUE(table);
  EXPECT_THAT(table->number(0, 0),
              FailsWith(ErrorCode::unreadable_table, AllOf(HasSubstr("scale.csv"), HasSubstr("line 2"),
                                                           HasSubstr("'L'"), HasSubstr("'95,1'"))));
}

TEST(ReferenceTables, WhatIsNoNumberIsNamedByLineAndColumn) {
  const auto table = parsed("L,a\n1,2\nnan,\n");
  ASSERT_TRUE(table);
  EXPECT_THAT(table->number(1, 0),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("line 3, column 'L': 'nan'")));
  EXPECT_THAT(table->number(1, 1), FailsWith(ErrorCode::unreadable_table, HasSubstr("column 'a': ''")));
}

TEST(ReferenceTables, RaggedRowsAreRefusedByLine) {
  EXPECT_THAT(parsed("L,a,b\n1,2,3\n1,2\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("line 3: 2 fields")));
  EXPECT_THAT(parsed("L,a,b\n1,2,3,4\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("line 2: 4 fields")));
}

TEST(ReferenceTables, WhatIsNoTextIsNoTable) {
  using namespace std::string_view_literals;
  EXPECT_THAT(parsed("\xff\xd8\xff\xe0\x00\x10JFIF\n\"\n"sv),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("'scale.csv': it is no table of text")));
}

TEST(ReferenceTables, AnOpenQuoteIsRefusedByLine) {
  EXPECT_THAT(parsed("L,a\n1,\"2\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("line 2: a double quote")));
}

TEST(ReferenceTables, TwoColumnsOfOneNameAreRefused) {
  EXPECT_THAT(parsed("L,a,L\n1,2,3\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("two columns are called 'L'")));
}

TEST(ReferenceTables, NothingButCommentsIsRefused) {
  EXPECT_THAT(parsed("# source: nothing\n\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("column names")));
  EXPECT_THAT(parsed(""), FailsWith(ErrorCode::unreadable_table, HasSubstr("column names")));
}

TEST(ReferenceTables, MissingColumnsAreNamed) {
  const auto table = parsed("L,a\n1,2\n");
  ASSERT_TRUE(table);
  EXPECT_THAT(table->require({"a", "L"}).value(), ElementsAre(1u, 0u));
  EXPECT_THAT(table->require({"L", "b", "term"}),
              FailsWith(ErrorCode::unreadable_table,
                        AllOf(HasSubstr("no column 'b', 'term'"), HasSubstr("'L', 'a'"))));
}

TEST(ReferenceTables, ErrorsCarryTheCodeOfTheCaller) {
  EXPECT_THAT(ReferenceTable::parse("L,L\n", "t.csv", "the times", ErrorCode::unreadable_regions),
              FailsWith(ErrorCode::unreadable_regions, HasSubstr("Reading the times 't.csv'")));
}

TEST(ReferenceTables, TooManyRowsAreRefused) {
  std::string text = "L\n";
  for (std::size_t row = 0; row < ReferenceTable::limit_rows; ++row) text += "1\n";
  ASSERT_TRUE(parsed(text));
  EXPECT_THAT(parsed(text + "1\n"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("more than 200000 rows")));
}

TEST(ReferenceTables, TooManyColumnsAreRefusedSoon) {
  std::string text;
  for (int column = 0; text.size() < ReferenceTable::limit_bytes; ++column)
    text += std::to_string(column) + ',';
  EXPECT_THAT(parsed(text), FailsWith(ErrorCode::unreadable_table, HasSubstr("more than 1000 columns")));
}

// Found by import_fuzz: an exported text of many clauses could not be read back.
TEST(ReferenceTables, CommasInsideQuotesMakeNoColumns) {
  const std::string clauses(2 * ReferenceTable::limit_columns, ',');
  const auto table = parsed("term,L\n\"" + clauses + "\",1\n");
  ASSERT_TRUE(table) << table.error().message;
  EXPECT_EQ(table->text(0, 0), clauses);
}

TEST(ReferenceTables, MessagesStayReadableWhateverTheFileHolds) {
  const auto table = parsed("L\n\xFF\x01" + std::string(5000, 'x') + "\n");
  ASSERT_TRUE(table);
  const auto number = table->number(0, 0);
  ASSERT_FALSE(number);
  EXPECT_LT(number.error().message.size(), 200u);
  EXPECT_THAT(number.error().message, HasSubstr("'??xxx"));
}

TEST(ReferenceTables, AMissingFileIsSaid) {
  EXPECT_THAT(ReferenceTable::read("no/such/scale.csv", "the scale"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("does not exist")));
}

}  // namespace
}  // namespace colorlib
