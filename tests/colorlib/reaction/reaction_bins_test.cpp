#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <colorlib/reaction/reaction_bins.hpp>
#include <filesystem>
#include <fstream>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;

TEST(ReactionBins, TheShippedWords) {
  const auto bins = ReactionBins::load(TINTFALL_SOURCE_FOLDER);
  ASSERT_TRUE(bins);
  EXPECT_EQ(bins->speed(1, 3).word, "immediate");
  EXPECT_EQ(bins->speed(5, 15).word, "fast");
  EXPECT_EQ(bins->speed(10, 40).word, "slow");
  EXPECT_EQ(bins->speed(2, 15).word, "fast");  // begins at once, but does not get on
  EXPECT_EQ(bins->speed(4000, 10).word, "delayed");
  EXPECT_EQ(bins->sign(1.99).sign, "-");
  EXPECT_EQ(bins->sign(2).sign, "(+)");
  EXPECT_EQ(bins->sign(4).sign, "+");
  EXPECT_EQ(bins->sign(10).sign, "++");
  EXPECT_EQ(bins->sign(20).sign, "+++");
  EXPECT_EQ(bins->sign(500).sign, "+++");
}

TEST(ReactionBins, AnEditedFileServesAndABrokenOneIsNamed) {
  const auto file = std::filesystem::path(testing::TempDir()) / "reaction_bins_test.csv";
  const auto write = [&](const char* rows) {
    std::ofstream(file) << "kind,word,begins_within_s,half_within_s,below_de00,strength\n" << rows;
  };
  write("speed,rasch,20,20,,\nspeed,langsam,,,,\nsign,0,,,3,keine\nsign,1,,,,stark\n");
  const auto bins = ReactionBins::read(file);
  ASSERT_TRUE(bins);
  EXPECT_EQ(bins->speed(10, 10).word, "rasch");
  EXPECT_EQ(bins->sign(5).strength, "stark");
  write("speed,a,20,20,,\nspeed,b,10,20,,\nspeed,c,,,,\nsign,1,,,,x\n");
  EXPECT_THAT(ReactionBins::read(file), FailsWith(ErrorCode::unreadable_table, HasSubstr("line 3")));
  write("speed,a,20,20,,\nsign,1,,,,x\n");
  EXPECT_THAT(ReactionBins::read(file), FailsWith(ErrorCode::unreadable_table, HasSubstr("last speed")));
  write("colour,a,20,20,,\n");
  EXPECT_THAT(ReactionBins::read(file), FailsWith(ErrorCode::unreadable_table, HasSubstr("kind 'colour'")));
  write("speed,a,x,20,,\n");
  EXPECT_FALSE(ReactionBins::read(file));
}

}  // namespace
}  // namespace colorlib
