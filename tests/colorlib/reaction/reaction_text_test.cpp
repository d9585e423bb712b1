#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <colorlib/reaction/reaction_text.hpp>
#include <cstdio>
#include <tests/colorlib/reaction/invented_courses.hpp>

namespace colorlib {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

class ReactionText : public testing::Test {
 protected:
  ReactionWords words(const ReactionSeries& series, const Protocol& protocol,
                      RegionKind kind = RegionKind::spot, SeriesZero zero = SeriesZero::applied) {
    const auto fit = fit_kinetics(series);
    EXPECT_TRUE(fit);
    const auto result = reaction_words(*fit, {kind, protocol, zero}, *namer, *wording, *bins);
    std::printf("  %s\n  [%s]\n", result.sentence.c_str(), result.verdict_text.c_str());
    EXPECT_TRUE(result.sentence.ends_with(".")) << result.sentence;
    return result;
  }
  static Protocol of(const char* reagent, const char* strength, const char* tissue) {
    Protocol protocol;
    protocol.reagent = reagent;
    protocol.strength = strength;
    protocol.tissue = tissue;
    protocol.known_positive = "positive, today";
    return protocol;
  }
  /// A spot that follows the scenario's wetting, to a share, beside water that does.
  static ReactionSeries wetted(double share, double sd, std::uint64_t seed) {
    scenes::Random random(seed);
    ReactionSeries series;
    series.seconds = geometric_s;
    ControlPath water{"W", RegionKind::water, {}};
    for (const double t : geometric_s) {
      const double p = first_order_progress(t, rate_from_half_time(30));
      const auto wet = [&](double s) {
        return Lab{90 - 4 * s * p + sd * random.normal(), 0.2 * s * p + sd * random.normal(),
                   8 + s * p + sd * random.normal()};
      };
      series.spot.push_back({wet(share), variance(sd)});
      water.frames.push_back(ColorState{wet(1), variance(sd)});
    }
    series.controls.push_back(water);
    return series;
  }
  static ControlPath water_at(const Lab& lab) {
    return {"W", RegionKind::water,
            std::vector<std::optional<ColorState>>(geometric_s.size(), ColorState{lab, variance(0.2)})};
  }

  Result<Namer> namer = Namer::load(TINTFALL_SOURCE_FOLDER);
  Result<Wording> wording = Wording::for_spelling(Spelling::british, TINTFALL_SOURCE_FOLDER);
  Result<ReactionBins> bins = ReactionBins::load(TINTFALL_SOURCE_FOLDER);
};

TEST_F(ReactionText, VerdictsOfTheInventedScenario) {
  struct Given {
    const char *course, *reagent, *strength, *tissue, *speed;
  };
  // Speed words as the scenario states them.
  for (const Given& given :
       {Given{"R1", "FeSO4", "10 %", "stem", "slow"}, Given{"R2", "guaiac", "1 g in 9 mL", "stem", "fast"},
        Given{"R3", "KOH", "5 %", "cap", "immediate"}}) {
    auto series = series_of(course_named(given.course), geometric_s, 0.1, 3);
    series.controls.push_back(water_at(course_named(given.course).untreated));
    const auto result = words(series, of(given.reagent, given.strength, given.tissue));
    EXPECT_EQ(result.verdict, ReactionVerdict::positive);
    EXPECT_EQ(result.speed, given.speed) << given.course;
    EXPECT_THAT(result.sentence,
                StartsWith(std::string(given.reagent) + " " + given.strength + " on " + given.tissue + ": "));
    EXPECT_THAT(result.sentence, HasSubstr("water control unchanged."));
    EXPECT_THAT(result.sentence, HasSubstr("after the drop ("));
    EXPECT_THAT(result.warnings, IsEmpty());
  }
}

TEST_F(ReactionText, ABruiseThatFades) {
  Protocol protocol;
  protocol.tissue = "cut flesh";
  protocol.method = "cut";
  const auto result = words(series_of(course_named("B1"), geometric_s, 0.2, 5), protocol, RegionKind::bruise);
  EXPECT_EQ(result.verdict, ReactionVerdict::positive);
  EXPECT_THAT(result.sentence, StartsWith("Bruise on cut flesh: "));
  EXPECT_THAT(result.sentence, HasSubstr("after the cut"));
  EXPECT_THAT(result.sentence, HasSubstr("fades to"));
  EXPECT_EQ(result.sign, "+++");
  EXPECT_THAT(result.color, HasSubstr("blue"));
  const auto black = words(series_of(course_named("B2"), geometric_s, 0.2, 5), protocol, RegionKind::bruise);
  EXPECT_THAT(black.sentence, HasSubstr("turns to"));
  EXPECT_THAT(black.sentence, Not(HasSubstr("still changing")));
}

TEST_F(ReactionText, NegativeIsAgainstSomething) {
  const auto wetting = words(wetted(1, 0.2, 7), of("KOH", "5 %", "cap"));
  EXPECT_EQ(wetting.verdict, ReactionVerdict::negative);
  EXPECT_EQ(wetting.verdict_text, "negative against water, wetting only");
  EXPECT_EQ(wetting.sign, "-");
  EXPECT_THAT(wetting.speed, IsEmpty());
  EXPECT_THAT(wetting.color, IsEmpty());
  auto alone = wetted(0, 0.2, 9);
  alone.controls.clear();
  const auto without = words(alone, of("KOH", "5 %", "cap"));
  EXPECT_EQ(without.verdict_text, "negative, without a control");
  EXPECT_THAT(without.warnings, Contains(StartsWith("water control missing")));
  EXPECT_THAT(without.warnings, Contains(StartsWith("no control at all")));
}

// The control lay in the drop: what happened there is no measure of what light and wetting do.
TEST_F(ReactionText, NothingIsNegativeWhereAStrongReactionCouldHide) {
  auto series = series_of(course_named("R4"), geometric_s, 0.2, 15);
  ControlPath control{"C", RegionKind::control, {}};
  for (const auto& frame : series.spot) control.frames.push_back(frame);
  series.controls.push_back(control);
  const auto result = words(series, of("KOH", "5 %", "cap"));
  EXPECT_EQ(result.verdict, ReactionVerdict::undecided);
  EXPECT_THAT(result.verdict_text, StartsWith("undecided: a change of ΔE00 0.0 ± "));
  EXPECT_THAT(result.sentence, HasSubstr("untreated tissue changed by ΔE00 41"));
}

TEST_F(ReactionText, TheControlThatChangedIsTheOneThatIsNamed) {
  auto series = series_of(course_named("R4"), geometric_s, 0.2, 17);
  series.controls.push_back(water_at({70, 6, 24}));
  ControlPath untreated = water_at({70, 6, 24});
  untreated.id = "U";
  untreated.kind = RegionKind::control;
  for (std::size_t i = 4; i < untreated.frames.size(); ++i) untreated.frames[i]->lab.l -= 15;
  series.controls.push_back(untreated);
  const auto result = words(series, of("KOH", "5 %", "cap"));
  EXPECT_THAT(result.sentence, HasSubstr("water control unchanged; untreated tissue changed by ΔE00 1"));
  EXPECT_THAT(result.sentence, HasSubstr(", not taken out."));
  // Nor is it wetting that the untreated tissue shows.
  auto alone = wetted(0, 0.2, 19);
  alone.controls = {water_at({90, 0, 8})};
  untreated.frames = water_at({90, 0, 8}).frames;
  for (std::size_t i = 4; i < untreated.frames.size(); ++i) untreated.frames[i]->lab.l -= 6;
  alone.controls.push_back(untreated);
  EXPECT_EQ(words(alone, of("KOH", "5 %", "cap")).verdict_text, "negative against water");
}

TEST_F(ReactionText, ADeadReagentIsVoidNotNegative) {
  // Within some units of water, and the check on a known positive failed.
  Protocol protocol = of("guaiac", "1 g in 9 mL", "stem");
  protocol.known_positive = "negative";
  protocol.batch_age_days = 420;
  const auto result = words(wetted(1.2, 0.2, 11), protocol);
  EXPECT_EQ(result.verdict, ReactionVerdict::void_reagent);
  EXPECT_EQ(result.verdict_text, "void: reagent failed its known-positive check");
  protocol.known_positive = "positive, same day";
  EXPECT_EQ(words(wetted(1.2, 0.2, 11), protocol).verdict, ReactionVerdict::negative);
}

TEST_F(ReactionText, OnABruisedPlaceABruiseControlIsAskedFor) {
  auto series = series_of(course_named("B1"), geometric_s, 0.2, 13);
  series.controls.push_back(water_at(course_named("B1").untreated));
  const auto result = words(series, of("FeSO4", "10 %", "bruised flesh"));
  EXPECT_THAT(result.warnings, Contains(StartsWith("bruise control missing")));
  // With it, what the bruise does is no reaction.
  const auto bruise = series_of(course_named("B1"), geometric_s, 0.2, 14);
  ControlPath control{"B", RegionKind::bruise, {}};
  for (const auto& frame : bruise.spot) control.frames.push_back(frame);
  series.controls.push_back(control);
  const auto against = words(series, of("FeSO4", "10 %", "bruised flesh"));
  EXPECT_THAT(against.warnings, Not(Contains(StartsWith("bruise control missing"))));
  EXPECT_EQ(against.verdict_text, "negative against the untreated bruise");
}

TEST_F(ReactionText, BoundsAreSaidAsBounds) {
  const auto late = words(series_of(course_named("R3"), {-30, -10, 45, 60, 90, 120, 180, 240}, 0.3, 13),
                          of("KOH", "5 %", "cap"));
  EXPECT_EQ(late.verdict, ReactionVerdict::positive);
  EXPECT_THAT(late.sentence, HasSubstr("begins within "));
  EXPECT_THAT(late.sentence, HasSubstr("halfway less than "));
  EXPECT_THAT(late.speed, HasSubstr("or faster"));
  const auto few = words(series_of(course_named("R2"), {0, 30, 300}, 0.3, 5), of("guaiac", "", "stem"));
  EXPECT_EQ(few.verdict, ReactionVerdict::described_only);
  EXPECT_THAT(few.sentence, HasSubstr("too few frames"));
}

TEST_F(ReactionText, NothingIsMadeUp) {
  auto series = series_of(course_named("R4"), geometric_s, 0.2, 17);
  series.zero_is_application = false;
  const auto result = words(series, {}, RegionKind::spot, SeriesZero::first_photo);
  EXPECT_THAT(result.sentence, StartsWith("Reagent not said on tissue not said: "));
  EXPECT_THAT(result.sentence, HasSubstr("no control."));
  EXPECT_THAT(result.sentence, HasSubstr("after the start of the series"));
}

// A zero that was found is the first frame in which the change shows: the reaction began before it.
TEST_F(ReactionText, ABeginningBeforeTheFrameThatWasFoundIsSaidToLieBeforeIt) {
  constexpr double found_s = 12;  // after the drop; the onset of R1 is 10 s after it
  auto series = series_of(course_named("R1"), geometric_s, 0.2, 23);
  for (double& seconds : series.seconds) seconds -= found_s;
  series.zero_is_application = false;
  const auto result = words(series, of("KOH", "5 %", "cap"), RegionKind::spot, SeriesZero::found);
  ASSERT_EQ(result.verdict, ReactionVerdict::positive);
  EXPECT_THAT(result.sentence, HasSubstr(" before the first frame that shows a change ("));
  EXPECT_THAT(result.sentence, Not(HasSubstr("begins -")));
  EXPECT_THAT(result.sentence, Not(HasSubstr("(-")));
}

// A moment that is stated too late: what follows it cannot be timed from it.
TEST_F(ReactionText, ABeginningBeforeTheStatedMomentIsSaid) {
  auto series = series_of(course_named("R3"), geometric_s, 0.1, 23);
  for (double& seconds : series.seconds) seconds -= 2;  // the onset of R3 is 1 s after the drop
  const auto result = words(series, of("KOH", "5 %", "cap"));
  ASSERT_EQ(result.verdict, ReactionVerdict::positive);
  EXPECT_THAT(result.sentence, HasSubstr(" before the stated moment ("));
  EXPECT_EQ(result.speed, "");
  EXPECT_THAT(result.warnings, Contains(HasSubstr("the change began before the stated moment")));
}

TEST(DurationText, Units) {
  EXPECT_EQ(duration_text(2), "2 s");
  EXPECT_EQ(duration_text(2.46), "2.5 s");
  EXPECT_EQ(duration_text(45.4), "45 s");
  EXPECT_EQ(duration_text(600), "10 min");
  EXPECT_EQ(duration_text(150), "2.5 min");
  EXPECT_EQ(duration_text(9000), "2.5 h");
  EXPECT_EQ(duration_text(0), "0 s");
}

}  // namespace
}  // namespace colorlib
