#include <gtest/gtest.h>

#include <colorlib/video/thinning_pace.hpp>
#include <limits>

namespace colorlib {
namespace {

TEST(ThinningPace, DoublesAtHalfThreeQuartersAndSoOnOfTheMostFrames) {
  const ThinningRule rule;  // 240
  for (const auto& [read, pace] :
       {std::pair{0, 1}, {120, 1}, {121, 2}, {180, 2}, {181, 4}, {210, 4}, {211, 8}})
    EXPECT_EQ(thinning_pace(rule, read), pace) << read;
}

TEST(ThinningPace, NeverFallsAndStaysWithinItsBounds) {
  for (const int most : {-5, 0, 1, 2, 3, 4, 16, 240, std::numeric_limits<int>::max()}) {
    ThinningRule rule;
    rule.most_frames = most;
    int before = 1;
    for (const std::int64_t read : {std::int64_t{0}, std::int64_t{1}, std::int64_t{3}, std::int64_t{17},
                                    std::int64_t{260}, std::int64_t{100'000}, std::int64_t{1} << 40}) {
      const int pace = thinning_pace(rule, read);
      EXPECT_GE(pace, before) << most << ", " << read;
      EXPECT_LE(pace, ThinningRule::widest_pace) << most << ", " << read;
      before = pace;
    }
  }
}

}  // namespace
}  // namespace colorlib
