#include <gtest/gtest.h>

#include <chrono>
#include <colorlib/naming/scale_check.hpp>
#include <cstdio>
#include <tests/colorlib/naming/reference_tables.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::HasSubstr;

std::vector<ScaleFinding> findings_in(const std::string& rows, double tolerance_de00 = 2) {
  const auto scale = ColorScale::parse("name,L,a,b\n" + rows, "plate", namer().renotation(), tolerance_de00);
  EXPECT_TRUE(scale);
  return check_scale(*scale);
}

TEST(ScaleCheck, FindsNothingInASoundScale) {
  // Along L* near 50 a unit is dE00 1: steps of 3 with a tolerance of 2 neither collide nor leave gaps.
  EXPECT_TRUE(findings_in("A,50,0,0\nB,53,0,0\nC,56,0,0\nD,59,0,0\n").empty());
  EXPECT_TRUE(findings_in("only,50,0,0\n").empty());
}

TEST(ScaleCheck, FindsDuplicates) {
  const auto found = findings_in("A,50,0,0\nA,60,0,0\nB,55,0,0\nC,55,0,0.01\n", 3);
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0].kind, ScaleFindingKind::duplicate_name);
  EXPECT_EQ(found[0].first_line, 2u);
  EXPECT_EQ(found[0].second_line, 3u);
  EXPECT_EQ(found[1].kind, ScaleFindingKind::duplicate_color);
  EXPECT_THAT(found[1].sentence, HasSubstr("'B' (line 4) and 'C' (line 5)"));
}

TEST(ScaleCheck, FindsEntriesNearerThanTheTolerance) {
  const auto found = findings_in("A,50,0,0\nB,51,0,0\nC,54,0,0\n", 2);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].kind, ScaleFindingKind::close);
  EXPECT_NEAR(found[0].de00, 1, 0.02);
}

TEST(ScaleCheck, FindsGapsWidestFirst) {
  const auto found = findings_in("A,50,0,0\nB,53,0,0\nC,62,0,0\nD,68,0,0\n", 2);
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0].kind, ScaleFindingKind::gap);
  EXPECT_EQ(found[0].first, "B");
  EXPECT_EQ(found[0].second, "C");
  EXPECT_EQ(found[1].first, "C");
  EXPECT_EQ(found[1].second, "D");
  EXPECT_GT(found[0].de00, found[1].de00);
  EXPECT_EQ(finding_word(found[0].kind), "gap");
}

TEST(ScaleCheck, LargestScaleIsCheckedInSeconds) {
  std::string rows;
  for (std::size_t i = 0; i < ColorScale::limit_entries; ++i)
    rows += fmt::format("n{},{},{},{}\n", i, 20 + i % 71, i / 71 % 50, i / 3550 * 7);
  const auto start = std::chrono::steady_clock::now();
  const auto found = findings_in(rows, 0.1);
  std::printf("%zu entries, %zu findings, %.1f s\n", ColorScale::limit_entries, found.size(),
              std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count());
  EXPECT_LE(found.size(), 20'000u);
}

}  // namespace
}  // namespace colorlib
