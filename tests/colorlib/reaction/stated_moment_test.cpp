// A moment of application that is stated too late: the frames tell, and none is left out to fit it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <colorlib/reaction/kinetics.hpp>
#include <tests/colorlib/reaction/invented_courses.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;

/// The course with zero stated `late_s` after the true application.
ReactionSeries stated_late(const std::string& course, double late_s, std::uint64_t seed) {
  ReactionSeries series = series_of(course_named(course), geometric_s, 0.1, seed);
  for (double& seconds : series.seconds) seconds -= late_s;
  return series;
}

TEST(StatedMoment, AFrameBeforeItThatShowsTheReactionRefusesIt) {
  struct Late {
    const char* course;
    double by_s;
  };
  for (const Late& late : {Late{"R3", 3}, {"R3", 7}, {"R3", 300}, {"B1", 9}, {"B1", 60}, {"R1", 25}}) {
    SCOPED_TRACE(testing::Message() << late.course << " late by " << late.by_s << " s");
    EXPECT_THAT(fit_kinetics(stated_late(late.course, late.by_s, 41)),
                FailsWith(ErrorCode::bad_call,
                          AllOf(HasSubstr("had already changed by \u0394E00"),
                                HasSubstr("before the stated moment of application: by its course"))));
  }
}

TEST(StatedMoment, WhereNoFrameBeforeItShowsTheReactionTheStartIsFree) {
  // R3 begins 1 s after the drop; the frame at 2 s is named as the drop, and shows a fifth of the change.
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    SCOPED_TRACE(seed);
    const auto fit = fit_kinetics(stated_late("R3", 2, seed));
    ASSERT_TRUE(fit);
    EXPECT_TRUE(fit->began_before_zero);
    EXPECT_THAT(fit->bad_frames, IsEmpty());
    ASSERT_TRUE(fit->onset.value_s && fit->onset.high_s && fit->half_time.value_s);
    // 17 frames with a scatter of 0.1 tell the onset to tenths of a second, the half time to per cents.
    EXPECT_NEAR(*fit->onset.value_s, -1, 0.3);
    EXPECT_LT(*fit->onset.high_s, 0);
    EXPECT_NEAR(*fit->half_time.value_s, 3, 0.2);
  }
}

TEST(StatedMoment, TheTrueOneStands) {
  for (InventedCourse course : invented_courses())
    for (const double onset_s : {0.0, course.onset_s})
      for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        SCOPED_TRACE(testing::Message() << course.name << ", onset " << onset_s << " s, seed " << seed);
        course.onset_s = onset_s;
        const auto fit = fit_kinetics(series_of(course, geometric_s, 0.3, seed));
        ASSERT_TRUE(fit);
        EXPECT_FALSE(fit->began_before_zero);
        ASSERT_TRUE(fit->onset.low_s);
        EXPECT_GE(*fit->onset.low_s, 0);
      }
}

TEST(StatedMoment, ABadFrameBeforeTheDropIsNoReaction) {
  for (const std::size_t frame : {0, 1, 2}) {
    ReactionSeries series = series_of(course_named("R3"), geometric_s, 0.1, 43);
    series.spot[frame].lab.b += 25;  // half the reaction's own change
    const auto fit = fit_kinetics(series);
    ASSERT_TRUE(fit) << frame;
    EXPECT_FALSE(fit->began_before_zero) << frame;
    EXPECT_THAT(fit->bad_frames, testing::ElementsAre(frame));
  }
}

TEST(StatedMoment, WithoutAFrameBeforeItNothingCanContradictIt) {
  const auto fit = fit_kinetics(
      series_of(course_named("R1"), {15, 20, 25, 30, 45, 60, 90, 120, 180, 240, 300, 400, 600}, 0.3, 21));
  ASSERT_TRUE(fit);
  EXPECT_FALSE(fit->began_before_zero);
  EXPECT_TRUE(fit->onset.less_than_s);
}

}  // namespace
}  // namespace colorlib
