#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <colorlib/reaction/kinetic_curves.hpp>
#include <colorlib/reaction/kinetics.hpp>
#include <cstdio>
#include <limits>
#include <tests/colorlib/reaction/invented_courses.hpp>
#include <tests/scenes/random.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using scenes::Random;
using testing::HasSubstr;

ControlPath steady(const std::string& id, RegionKind kind, const Lab& lab, std::size_t frames) {
  return {id, kind, std::vector<std::optional<ColorState>>(frames, ColorState{lab, variance(0.3)})};
}

TEST(Kinetics, FindsTimesAndKindOfTheInventedCourses) {
  for (const InventedCourse& course : invented_courses()) {
    SCOPED_TRACE(course.name);
    const auto fit = fit_kinetics(series_of(course, geometric_s, 0.3, 7));
    ASSERT_TRUE(fit);
    const KineticModel kind = course.name == "B1"   ? KineticModel::fading
                              : course.name == "B2" ? KineticModel::consecutive
                                                    : KineticModel::first_order;
    EXPECT_EQ(fit->model, kind);
    ASSERT_TRUE(fit->half_time.value_s);
    // 17 frames, scatter 0.3, changes of 18 and more: a few per cent.
    EXPECT_NEAR(*fit->half_time.value_s, course.half_time_s, 0.12 * course.half_time_s);
    ASSERT_TRUE(fit->onset.value_s);
    EXPECT_NEAR(*fit->onset.value_s, course.onset_s, 1.0 + 0.05 * course.half_time_s);
    EXPECT_TRUE(is_reaction(*fit));
    EXPECT_THAT(fit->phases.front().color.lab, NearInDeltaE(course.untreated, 0.5));
    if (kind == KineticModel::first_order) {
      ASSERT_TRUE(fit->plateau);
      EXPECT_THAT(fit->plateau->lab, NearInDeltaE(course.end, 0.5));
      ASSERT_TRUE(fit->to_95.value_s);
      EXPECT_NEAR(*fit->to_95.value_s, course.onset_s + course.half_time_s * std::log2(20.0),
                  0.2 * course.half_time_s * 4.3);
    }
    EXPECT_NEAR(fit->repeatability_de00, 0.4, 0.3);
    EXPECT_EQ(fitted_path(*fit, geometric_s).size(), geometric_s.size());
  }
}

TEST(Kinetics, MinusWhatTheWaterDoes) {
  // Wetting alone, in spot and control: no reaction.
  ReactionSeries series;
  series.seconds = geometric_s;
  Random random(3);
  ControlPath water{"W", RegionKind::water, {}};
  for (const double t : geometric_s) {
    const double p = first_order_progress(t, rate_from_half_time(30));
    const auto wet = [&] {
      return Lab{90 - 4 * p + 0.3 * random.normal(), 0.2 * p + 0.3 * random.normal(),
                 8 + p + 0.3 * random.normal()};
    };
    series.spot.push_back({wet(), variance(0.3)});
    water.frames.push_back(ColorState{wet(), variance(0.3)});
  }
  const auto alone = fit_kinetics(series);
  ASSERT_TRUE(alone);
  EXPECT_NE(alone->model, KineticModel::none);
  series.controls.push_back(water);
  const auto against_water = fit_kinetics(series);
  ASSERT_TRUE(against_water);
  EXPECT_LT(against_water->change_de00, 1.5);
  EXPECT_GT(alone->change_de00, 2);
  EXPECT_FALSE(is_reaction(*against_water));
  EXPECT_TRUE(against_water->has_water);
  // Wetting by 2.7 bounds what can be told from it.
  EXPECT_NEAR(against_water->control_change_de00, 2.7, 0.5);
  EXPECT_GE(against_water->threshold_de00, against_water->control_change_de00);
}

TEST(Kinetics, ThreeFramesAreDescribedOnly) {
  const auto fit = fit_kinetics(series_of(course_named("R2"), {0, 30, 300}, 0.3, 5));
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->state, KineticsState::described);
  EXPECT_TRUE(fit->scores.empty());
  EXPECT_FALSE(fit->onset.value_s || fit->half_time.value_s);
  EXPECT_NEAR(fit->change_de00, 38, 1);
  EXPECT_GT(fit->change_de00_expanded, 0);
  EXPECT_EQ(fit->phases.size(), 3u);
  ASSERT_FALSE(fit->remarks.empty());
  EXPECT_THAT(fit->remarks.back(), HasSubstr("described, not fitted"));
}

TEST(Kinetics, ABadFrameIsNamedAndDoesNoHarm) {
  auto series = series_of(course_named("R4"), geometric_s, 0.3, 11);
  for (std::size_t i = 0; i < series.seconds.size(); ++i)
    series.frame_names.push_back("IMG_" + std::to_string(i) + ".jpg");
  const auto clean = fit_kinetics(series);
  ASSERT_TRUE(clean);
  EXPECT_TRUE(clean->bad_frames.empty());
  for (const std::size_t bad : {1u, 5u, 9u, 14u}) {
    auto spoilt = series;
    spoilt.spot[bad].lab.l += 25;
    spoilt.spot[bad].lab.b -= 12;
    const auto fit = fit_kinetics(spoilt);
    ASSERT_TRUE(fit);
    EXPECT_EQ(fit->bad_frames, std::vector<std::size_t>{bad});
    EXPECT_EQ(fit->model, KineticModel::first_order);
    EXPECT_THAT(fit->remarks, testing::Contains(HasSubstr("IMG_" + std::to_string(bad) + ".jpg")));
    ASSERT_TRUE(fit->half_time.value_s);
    EXPECT_NEAR(*fit->half_time.value_s, 8, 1);
  }
}

// A photo of another scene: its controls are not these controls, either.
TEST(Kinetics, ABadFrameSaysNothingOfTheControls) {
  auto series = series_of(course_named("R4"), geometric_s, 0.3, 11);
  series.controls.push_back(steady("W", RegionKind::water, {71, 6, 24}, geometric_s.size()));
  const auto clean = fit_kinetics(series);
  ASSERT_TRUE(clean);
  for (const std::size_t bad : {0u, 1u, 5u, 16u}) {
    SCOPED_TRACE(bad);
    auto spoilt = series;
    for (ColorState* state : {&spoilt.spot[bad], &*spoilt.controls[0].frames[bad]}) {
      state->lab.l += bad == 5 ? -40 : 25;
      state->lab.b -= 22;
    }
    spoilt.spot[bad].lab.a += 30;
    const auto fit = fit_kinetics(spoilt);
    ASSERT_TRUE(fit);
    EXPECT_EQ(fit->bad_frames, std::vector<std::size_t>{bad});
    EXPECT_LT(fit->control_change_de00, 0.2);
    EXPECT_NEAR(fit->threshold_de00, clean->threshold_de00, 0.3);
    // The scatter of a frame, 0.3 in each coordinate.
    EXPECT_THAT(fit->phases.front().color.lab, NearInDeltaE(clean->phases.front().color.lab, 0.5));
    EXPECT_NEAR(fit->change_de00, clean->change_de00, 0.6);
    // Marked beforehand it is the same fit.
    spoilt.left_out.assign(geometric_s.size(), false);
    spoilt.left_out[bad] = true;
    const auto marked = fit_kinetics(spoilt);
    ASSERT_TRUE(marked);
    EXPECT_EQ(marked->bad_frames, fit->bad_frames);
    EXPECT_NEAR(marked->change_de00, fit->change_de00, 1e-9);
  }
  series.left_out.assign(3, false);
  EXPECT_THAT(fit_kinetics(series), FailsWith(ErrorCode::bad_call, HasSubstr("3 marks")));
}

TEST(Kinetics, NamesTheControlThatChangedMost) {
  auto series = series_of(course_named("R4"), geometric_s, 0.3, 12);
  series.controls.push_back(steady("W", RegionKind::water, {71, 6, 24}, geometric_s.size()));
  series.controls.push_back(steady("U", RegionKind::control, {71, 6, 24}, geometric_s.size()));
  for (std::size_t i = 4; i < geometric_s.size(); ++i) series.controls[1].frames[i]->lab.l -= 15;
  const auto fit = fit_kinetics(series);
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->most_changed_control, RegionKind::control);
  EXPECT_GT(fit->control_change_de00, 10);
  EXPECT_LT(fit->subtracted_change_de00, 0.2);
  EXPECT_GE(fit->threshold_de00, fit->control_change_de00);
}

// Onsets from before the drop to well after it, fast and slow, with a calibration that bends the path.
TEST(Kinetics, EveryTimeLiesInItsIntervalAndNoneBeforeADropThatCanBeMeant) {
  Random random(20261128);
  int told = 0, at_the_drop = 0, before_the_drop = 0;
  for (int trial = 0; trial < 60; ++trial) {
    InventedCourse course = course_named("R4");
    course.onset_s = trial % 3 == 0 ? 0 : -2 + 6 * random.uniform();
    course.half_time_s = 1 + 12 * random.uniform();
    auto series = series_of(course, {-6, -2.5, 0.4, 3.1, 5.2, 8.4, 12.3, 17.7, 25.1, 40.2, 60.3, 120.2}, 0.2,
                            static_cast<std::uint64_t>(trial));
    series.bending_covariance = variance(0.6);
    const auto fit = fit_kinetics(series);
    ASSERT_TRUE(fit);
    for (const TimeEstimate* time : {&fit->onset, &fit->half_time, &fit->to_90, &fit->to_95}) {
      if (!time->value_s || !time->low_s || !time->high_s) continue;
      ++told;
      EXPECT_LE(*time->low_s, *time->value_s) << "trial " << trial;
      EXPECT_GE(*time->high_s, *time->value_s) << "trial " << trial;
      if (!fit->began_before_zero) {
        EXPECT_GE(*time->low_s, 0) << "trial " << trial;
      }
    }
    // Only of a drop that did fall earlier than stated is it said.
    if (fit->began_before_zero) {
      EXPECT_LT(course.onset_s, 0) << "trial " << trial;
    }
    before_the_drop += fit->began_before_zero;
    at_the_drop += fit->onset.value_s && *fit->onset.value_s < 1e-6;
  }
  EXPECT_GT(told, 100);
  EXPECT_GT(at_the_drop, 0);
  EXPECT_GT(before_the_drop, 0);
  std::printf("%d times, %d onsets at the drop itself, %d before it\n", told, at_the_drop, before_the_drop);
}

// A frame's change carries what the course's change does: the bend of the calibration, uneven controls.
TEST(Kinetics, AFramesChangeIsAsUncertainAsTheCourses) {
  auto series = series_of(course_named("R4"), geometric_s, 0.05, 21);
  series.bending_covariance = variance(0.6);
  const auto fit = fit_kinetics(series);
  ASSERT_TRUE(fit);
  ASSERT_EQ(fit->path_change_expanded.size(), fit->path.size());
  EXPECT_GT(fit->change_de00_expanded, 0.8);
  EXPECT_NEAR(fit->path_change_expanded.back(), fit->change_de00_expanded, 0.15);
  EXPECT_LT(fit->path_change_expanded.front(), 0.5);  // no change, so nothing to get wrong otherwise
}

TEST(Kinetics, BegunTooLate) {
  // The first frame after the drop shows the plateau already.
  const auto fit =
      fit_kinetics(series_of(course_named("R3"), {-30, -10, 45, 60, 90, 120, 180, 240}, 0.3, 13));
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->model, KineticModel::first_order);
  EXPECT_FALSE(fit->half_time.value_s);
  ASSERT_TRUE(fit->half_time.less_than_s);
  EXPECT_LT(*fit->half_time.less_than_s, 45);
  EXPECT_GT(*fit->half_time.less_than_s, 3);
  // The onset lies between the drop and that frame.
  ASSERT_TRUE(fit->onset.low_s && fit->onset.high_s);
  EXPECT_LE(*fit->onset.low_s, 1);
  EXPECT_LE(*fit->onset.high_s, 45.0001);
  EXPECT_TRUE(is_reaction(*fit));
}

TEST(Kinetics, WithoutAFrameBeforeTheOnsetThereIsNoOnset) {
  const auto fit = fit_kinetics(
      series_of(course_named("R1"), {15, 20, 25, 30, 45, 60, 90, 120, 180, 240, 300, 400, 600}, 0.3, 21));
  ASSERT_TRUE(fit);
  EXPECT_FALSE(fit->onset.value_s);
  ASSERT_TRUE(fit->onset.less_than_s);
  EXPECT_LT(*fit->onset.less_than_s, 25);
  ASSERT_TRUE(fit->half_time.value_s);  // the bend of the curve tells it all the same
  EXPECT_NEAR(*fit->half_time.value_s, 40, 5);
}

TEST(Kinetics, EndedTooSoon) {
  // Up to a quarter of the half time: still going, in a straight line as far as can be seen.
  InventedCourse course = course_named("R1");
  course.half_time_s = 2000;
  const auto fit = fit_kinetics(
      series_of(course, {-20, -10, 0, 10, 30, 60, 90, 120, 180, 240, 300, 360, 420, 480, 540, 600}, 0.3, 17));
  ASSERT_TRUE(fit);
  EXPECT_FALSE(fit->plateau);
  if (fit->model == KineticModel::first_order) {
    EXPECT_TRUE(fit->half_time.greater_than_s || *fit->half_time.high_s > 2000);
  } else {
    EXPECT_EQ(fit->model, KineticModel::drift);
  }
  EXPECT_EQ(fit->phases.back().kind, PhaseKind::last_seen);
}

TEST(Kinetics, GapsInAControlAreFilledAndSaid) {
  auto series = series_of(course_named("R1"), geometric_s, 0.3, 23);
  series.controls.push_back(steady("U", RegionKind::control, {90, 0, 8}, geometric_s.size()));
  series.controls[0].frames[4].reset();
  series.controls[0].frames.back().reset();
  series.controls.push_back(
      {"X", RegionKind::water, std::vector<std::optional<ColorState>>(geometric_s.size())});
  const auto fit = fit_kinetics(series);
  ASSERT_TRUE(fit);
  EXPECT_TRUE(fit->has_untreated);
  EXPECT_FALSE(fit->has_water);
  EXPECT_THAT(fit->remarks, testing::Contains(HasSubstr("2 of their frames")));
  EXPECT_THAT(fit->remarks, testing::Contains(HasSubstr("Control X has no reading")));
  EXPECT_NEAR(*fit->half_time.value_s, 40, 4);
}

TEST(Kinetics, TwoSolutionsOfTwoSteps) {
  // Whatever is said of the slow step first, the curve it gives is the same one.
  const auto fit = fit_kinetics(series_of(course_named("B1"), geometric_s, 0.1, 29));
  ASSERT_TRUE(fit);
  ASSERT_EQ(fit->curve_times.size(), 3u);
  if (fit->swapped_middle) {
    Kinetics swapped = *fit;
    std::swap(swapped.curve_times[1], swapped.curve_times[2]);
    const Vector3 untreated = fit->curve_colors[0];
    swapped.curve_colors[1] = {fit->swapped_middle->l - untreated[0], fit->swapped_middle->a - untreated[1],
                               fit->swapped_middle->b - untreated[2]};
    const auto a = fitted_path(*fit, geometric_s), b = fitted_path(swapped, geometric_s);
    for (std::size_t i = 0; i < a.size(); ++i) EXPECT_THAT(a[i], NearInDeltaE(b[i], 1e-6));
  }
  // One whose other solution is a possible colour, so that the branch above is not the only test.
  InventedCourse near = course_named("B2");
  near.second_half_time_s = 60;
  const auto other = fit_kinetics(series_of(near, geometric_s, 0.1, 31));
  ASSERT_TRUE(other);
  ASSERT_TRUE(other->swapped_middle);
}

TEST(Kinetics, WhatAllFramesShareWidensColoursOnly) {
  auto series = series_of(course_named("R4"), geometric_s, 0.3, 37);
  const auto before = fit_kinetics(series);
  series.shared_covariance = variance(2);
  const auto after = fit_kinetics(series);
  ASSERT_TRUE(before && after);
  EXPECT_EQ(before->half_time.low_s, after->half_time.low_s);
  EXPECT_EQ(before->change_de00_expanded, after->change_de00_expanded);
  EXPECT_NEAR(after->plateau->covariance(0, 0), before->plateau->covariance(0, 0) + 4, 1e-9);
}

TEST(Kinetics, AFactorOnTheStatedCovarianceIsForgiven) {
  auto series = series_of(course_named("R4"), geometric_s, 0.3, 41);
  const auto fit = fit_kinetics(series);
  for (auto& frame : series.spot) frame.covariance = 9.0 * frame.covariance;
  const auto tripled = fit_kinetics(series);
  ASSERT_TRUE(fit && tripled);
  EXPECT_EQ(fit->model, tripled->model);
  EXPECT_NEAR(*tripled->half_time.value_s, *fit->half_time.value_s, 0.1);
  EXPECT_NEAR(*tripled->half_time.expanded_s() / *fit->half_time.expanded_s(), 1, 0.4);
}

TEST(Kinetics, RefusesWhatCannotBeMeant) {
  const auto sound = series_of(course_named("R4"), geometric_s, 0.3, 1);
  auto series = sound;
  std::swap(series.seconds[2], series.seconds[3]);
  EXPECT_THAT(fit_kinetics(series), FailsWith(ErrorCode::bad_call, HasSubstr("ascend")));
  series = sound;
  series.seconds[4] = series.seconds[3];
  EXPECT_THAT(fit_kinetics(series), FailsWith(ErrorCode::bad_call, HasSubstr("ascend")));
  series = sound;
  series.spot[1].lab.a = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THAT(fit_kinetics(series), FailsWith(ErrorCode::bad_call, HasSubstr("no number")));
  series = sound;
  series.spot.pop_back();
  EXPECT_THAT(fit_kinetics(series), FailsWith(ErrorCode::bad_call, HasSubstr("17 times but 16")));
  series = sound;
  series.controls.push_back(steady("C", RegionKind::control, {90, 0, 8}, 3));
  EXPECT_THAT(fit_kinetics(series), FailsWith(ErrorCode::bad_call, HasSubstr("control 'C'")));
  series = {};
  EXPECT_THAT(fit_kinetics(series), FailsWith(ErrorCode::untrustworthy, HasSubstr("no frame")));
}

TEST(Kinetics, NothingOddBreaksIt) {
  // Exact, constant, two frames, all before the drop, nearly equal times, huge and tiny covariances.
  for (const double sd : {0.0, 1e-6, 1e3})
    for (const std::size_t frames : {2u, 3u, 4u, 5u, 9u})
      for (const double first : {-1e5, -1.0, 0.0, 1e6})
        for (const double gap : {1e-6, 1.0, 1e5}) {
          ReactionSeries series;
          for (std::size_t i = 0; i < frames; ++i) {
            series.seconds.push_back(first + gap * static_cast<double>(i));
            series.spot.push_back({{50.0 + (i % 2 ? sd * 1e-3 : 0), 0, 0}, variance(sd)});
          }
          const auto fit = fit_kinetics(series);
          ASSERT_TRUE(fit);
          EXPECT_FALSE(is_reaction(*fit));
          EXPECT_TRUE(std::isfinite(fit->change_de00) && std::isfinite(fit->change_de00_expanded));
        }
}

TEST(Kinetics, StopsAtOnceWhenAskedWhereverItIs) {
  class StopAfter : public Progress {
   public:
    explicit StopAfter(int polls) : left_(polls) {}
    bool cancelled() const override { return left_-- <= 0; }

   private:
    mutable int left_;
  };
  const ReactionSeries series = series_of(invented_courses().front(), geometric_s, 0.3, 7);
  int polls = 0;
  for (;; polls += 1 + polls / 8) {
    const auto fit = fit_kinetics(series, StopAfter(polls));
    if (fit) break;
    EXPECT_THAT(fit, FailsWith(ErrorCode::cancelled, HasSubstr("stopped")));
  }
  EXPECT_GT(polls, 20);
}

}  // namespace
}  // namespace colorlib
