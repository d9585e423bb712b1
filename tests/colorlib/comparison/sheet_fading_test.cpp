#include <fmt/format.h>
#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/comparison/sheet_fading.hpp>
#include <cstdlib>
#include <random>

namespace colorlib {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

constexpr double sd = 0.3;

ReferenceValues measured(std::size_t patches, std::mt19937& random, const std::string& created,
                         double faded_b = 0, std::size_t faded = 0) {
  std::normal_distribution<double> error(0, sd);
  ReferenceValues values;
  values.kind = ReferenceKind::transferred;
  values.created = created;
  values.measurement_source = "chart transfer from frame-a5";
  for (std::size_t i = 0; i < patches; ++i) {
    const double at = static_cast<double>(i) / static_cast<double>(patches);
    Lab lab{30 + 60 * at, 40 * at - 20, 50 - 80 * at};
    if (i < faded) lab.b -= faded_b;
    values.patches.push_back({fmt::format("P{}", i),
                              {lab.l + error(random), lab.a + error(random), lab.b + error(random)},
                              {sd, sd, sd}});
  }
  return values;
}

TEST(SheetFading, AnUnchangedSheetIsSeldomCalledChanged) {
  constexpr unsigned seed = 20310409;
  std::mt19937 random(seed);
  // TINTFALL_FULL: 2000, a minute; else 400.
  const int trials = std::getenv("TINTFALL_FULL") != nullptr ? 2000 : 400;
  int alarms = 0;
  for (int i = 0; i < trials; ++i) {
    const auto before = measured(58, random, "2031-04-09"), after = measured(58, random, "2031-10-05");
    const auto fading = sheet_fading(before, after);
    ASSERT_TRUE(fading);
    alarms += fading->changed > 0;
  }
  std::printf("seed %u: %d of %d unchanged sheets of 58 patches called changed, 5 %% allowed\n", seed, alarms,
              trials);
  // Three standard errors of a share of 5 %.
  const double leeway = 3 * std::sqrt(0.05 * 0.95 / trials);
  EXPECT_LE(alarms, trials * (0.05 + leeway));
  EXPECT_GE(alarms, trials * (0.05 - leeway)) << "the test is blunter than it says";
}

TEST(SheetFading, FindsThePatchesThatFaded) {
  std::mt19937 random(7);
  const auto before = measured(58, random, "2031-04-09"), after = measured(58, random, "2031-10-05", 4, 6);
  const auto fading = sheet_fading(before, after);
  ASSERT_TRUE(fading) << fading.error().message;
  EXPECT_EQ(fading->changed, 6u);
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_EQ(fading->patches[i].change, PatchChange::changed) << i;
    EXPECT_GT(fading->patches[i].de00, fading->patches[i].de00_expanded);
  }
  EXPECT_EQ(fading->advice, FadingAdvice::use_newer_values);
  EXPECT_THAT(fading->remarks, IsEmpty());
  EXPECT_EQ(sheet_fading(before, measured(58, random, "2031-10-05", 15, 2))->advice, FadingAdvice::reprint);
  EXPECT_EQ(sheet_fading(before, measured(58, random, "2031-10-05"))->advice, FadingAdvice::keep);
}

TEST(SheetFading, WrongFilesAreRefused) {
  std::mt19937 random(8);
  const auto before = measured(20, random, "2031-04-09"), after = measured(20, random, "2031-10-05");
  const auto swapped = sheet_fading(after, before);
  ASSERT_FALSE(swapped);
  EXPECT_THAT(swapped.error().advice, HasSubstr("older file first"));
  EXPECT_THAT(sheet_fading(before, before).error().message, HasSubstr("the very same values"));
  ReferenceValues nominal = after;
  nominal.kind = ReferenceKind::nominal;
  EXPECT_THAT(sheet_fading(before, nominal).error().message, HasSubstr("nominal"));
  EXPECT_THAT(sheet_fading(before, measured(21, random, "2031-10-05")).error().message,
              HasSubstr("20 patches and the other 21"));
  ReferenceValues other = after;
  other.measurement_source = "chart transfer from another";
  EXPECT_THAT(sheet_fading(before, other)->remarks, Not(IsEmpty()));
}

}  // namespace
}  // namespace colorlib
