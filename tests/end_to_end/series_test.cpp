#include <gmock/gmock.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <tests/end_to_end/demo_series.hpp>
#include <tests/support/color_matchers.hpp>
#include <tests/viewer/command/command_run.hpp>

namespace tintfall {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::DoubleNear;
using testing::Each;
using testing::Eq;
using testing::HasSubstr;
using testing::SizeIs;

class Series : public testing::Test {
 protected:
  void SetUp() override { write_demo_series(scratch_.path("")); }
  /// Reads the series with the usual options and `more`.
  CommandRun run(const std::vector<std::string>& more, bool usual = true) const {
    std::vector<std::string> call{"series", scratch_.path("series"), "--reference", scratch_.path("ref.txt")};
    if (usual) call.insert(call.end(), {"--regions", scratch_.path("regions.json")});
    call.insert(call.end(), more.begin(), more.end());
    return run_tintfall(call);
  }
  void forget_clocks() const {
    for (std::size_t i = 0; i < demo_series().names.size(); ++i)
      scratch_.write("series/" + demo_series().names[i], without_exif(demo_series().jpegs[i]));
  }
  /// As `run`, with these regions only.
  CommandRun run_with(const std::vector<std::string>& regions, std::vector<std::string> more) const {
    for (const std::string& region : regions) more.insert(more.end(), {"--region", region});
    return run(more, false);
  }
  const ScratchFolder scratch_;
};

TEST_F(Series, RowsOfAFieldsFileThatMatchNoPhotoAreNamed) {
  const auto fields = scratch_.write("who.csv", "photo,item\nnone.jpg,QH-01\n");
  const auto told = run({"--fields", fields});
  EXPECT_EQ(told.status, 0) << told.err;
  EXPECT_THAT(told.err,
              HasSubstr("Rows of --fields that are of none of these photos (capitals count): none.jpg."));
}

TEST_F(Series, RecordHoldsTimesFramesAndCourse) {
  const auto run = this->run({"--applied", "+6", "--reagent", "KOH", "--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  const json record = json::parse(run.out);
  EXPECT_THAT(record["format"], Eq("tintfall-record"));
  EXPECT_THAT(record["zero"], Eq("applied"));
  EXPECT_THAT(record["times"]["source"], Eq("capture-times"));
  EXPECT_THAT(record["protocol"]["reagent"], Eq("KOH"));
  const auto& settings = demo_series().settings;
  ASSERT_THAT(record["frames"], SizeIs(settings.seconds.size()));
  for (std::size_t i = 0; i < settings.seconds.size(); ++i) {
    // EXIF holds hundredths here.
    EXPECT_THAT(record["frames"][i]["seconds"].get<double>(), DoubleNear(settings.seconds[i], 0.011));
    EXPECT_THAT(record["frames"][i]["readings"], SizeIs(3));
  }
  ASSERT_THAT(record["spots"], SizeIs(1));
  EXPECT_THAT(record["spots"][0]["id"], Eq("A"));
}

TEST_F(Series, SummaryForAPerson) {
  const auto run = this->run({"--applied", "found"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(run.out, AllOf(HasSubstr("series of 12 frames"), HasSubstr("which was found"),
                             HasSubstr("spot A"), HasSubstr("water"), HasSubstr("not said"),
                             HasSubstr("never tells whether a mushroom is safe to eat")));
}

TEST_F(Series, ReadsSoManyPhotosAtOnce) {
  const auto one = run({"--jobs", "1", "--json", "-"}), several = run({"--jobs", "3", "--json", "-"});
  ASSERT_THAT(one.status, Eq(0)) << one.err;
  EXPECT_THAT(several.out, Eq(one.out));
}

TEST_F(Series, OnePhotoThatIsNoneIsDroppedByName) {
  scratch_.write("series/frame-05.jpg", "this is no photo");
  const auto run = this->run({"--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(json::parse(run.out)["times"]["remarks"].dump(), HasSubstr("frame-05.jpg"));
}

TEST_F(Series, WrongCallsSayWhatIsMissing) {
  EXPECT_THAT(run({}, false).status, Eq(2));  // no regions
  EXPECT_THAT(run({"--applied", "nonsense"}).status, Eq(2));
  EXPECT_THAT(run({"--interval", "0"}).status, Eq(2));
  EXPECT_THAT(run({"--times", scratch_.path("none.csv")}).status, Eq(3));
  scratch_.write("t.csv", "photo,seconds\nframe-01.jpg,0\n");
  const auto missing = run({"--times", scratch_.path("t.csv"), "--json", "-"});
  EXPECT_THAT(missing.status, Eq(3));
  EXPECT_THAT(json::parse(missing.out)["error"]["message"].get<std::string>(), HasSubstr("frame-02.jpg"));
  std::filesystem::create_directories(scratch_.path("empty"));
  EXPECT_THAT(run_tintfall({"series", scratch_.path("empty"), "--region", "spot@105,74,4"}).status, Eq(3));
}

TEST_F(Series, AMomentBeyondTheSeriesIsRefused) {
  for (const auto& [applied, word] :
       {std::pair("+9999", "after the last photo"), {"2001-01-01T00:00:00Z", "before the first photo"}}) {
    const auto run = this->run({"--applied", applied});
    EXPECT_THAT(run.status, Eq(2)) << applied;
    EXPECT_THAT(run.err, HasSubstr(word));
  }
  // With an interval it is known before any photo is read.
  EXPECT_THAT(this->run({"--interval", "3", "--applied", "+40"}).status, Eq(2));
}

TEST_F(Series, OnePhotoAloneIsNoAnswer) {
  scratch_.write("out.json", "before");
  const auto run =
      run_tintfall({"series", scratch_.path("series/frame-06.jpg"), "--reference", scratch_.path("ref.txt"),
                    "--regions", scratch_.path("regions.json"), "--json", scratch_.path("out.json")});
  EXPECT_THAT(run.status, Eq(5)) << run.out;
  EXPECT_THAT(json::parse(run.err)["error"]["code"], Eq("untrustworthy"));
  EXPECT_THAT(scratch_.read("out.json"), Eq("before"));
}

TEST_F(Series, AnOptionThatContradictsTheProtocolFileIsSaid) {
  scratch_.write("protocol.csv", "field,value\nreagent,guaiac\nstrength,5 %\n");
  const auto run = this->run({"--applied", "+6", "--protocol", scratch_.path("protocol.csv"), "--reagent",
                              "KOH", "--strength", "5 %"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(run.err, HasSubstr("The protocol file says 'guaiac' and --reagent says 'KOH': 'KOH' is kept."));
  EXPECT_THAT(run.err, testing::Not(HasSubstr("--strength")));
}

// --tissue and --state are options of the subject, too: the record holds one word for each.
TEST_F(Series, TheOptionWinsForTissueAndStateToo) {
  scratch_.write("protocol.json", R"({"tissue": "stem", "state": "fresh", "zone": "base"})");
  const auto run = this->run({"--applied", "+6", "--protocol", scratch_.path("protocol.json"), "--tissue",
                              "cap", "--state", "fresh", "--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(run.err, HasSubstr("The protocol file says 'stem' and --tissue says 'cap': 'cap' is kept."));
  EXPECT_THAT(run.err, testing::Not(HasSubstr("--state")));
  const json record = json::parse(run.out);
  EXPECT_THAT(record["protocol"]["tissue"], Eq("cap"));
  EXPECT_THAT(record["protocol"]["zone"], Eq("base"));
  EXPECT_THAT(record["subject"]["tissue"], Eq("cap"));
  EXPECT_THAT(run.out, testing::Not(HasSubstr("stem")));
}

TEST_F(Series, AnIntervalIsForPhotosThatDoNotSayWhenTheyWereTaken) {
  scratch_.write("out.json", "before");
  const auto against_clocks = run({"--interval", "5", "--json", scratch_.path("out.json")});
  EXPECT_THAT(against_clocks.status, Eq(2)) << against_clocks.out;
  EXPECT_THAT(against_clocks.err, AllOf(HasSubstr("An interval of 5 s was stated"), HasSubstr("frame-0")));
  EXPECT_THAT(scratch_.read("out.json"), Eq("before"));
  forget_clocks();
  const auto run = this->run({"--interval", "5", "--applied", "+6", "--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(json::parse(run.out)["times"]["source"], Eq("interval"));
  EXPECT_THAT(json::parse(run.out)["frames"][11]["seconds"].get<double>(), DoubleNear(49, 1e-6));
}

TEST_F(Series, LongTimesStandInMinutesAndHours) {
  forget_clocks();
  const auto run = this->run({"--interval", "86400"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(run.out, HasSubstr("series of 12 frames over 264 h"));
  EXPECT_THAT(run.out, testing::Not(HasSubstr("e+0")));
  EXPECT_THAT(this->run({"--interval", "1e300"}).status, Eq(2));
}

TEST_F(Series, AJournalReplacesNoFileOfAnotherKind) {
  for (const char* kept :
       {"what was there", "what was there\nand more\n", "\n", "{\"format\": \"another\"}\n",
        "{\n  \"format\": \"tintfall-record\"\n}\n", "{\"format\":\n\"tintfall-regions\"}"}) {
    const std::string notes = scratch_.write("notes.txt", kept);
    const auto run = this->run({"--applied", "+6", "--journal", notes});
    EXPECT_THAT(run.status, Eq(2)) << run.out;
    EXPECT_THAT(run.err, HasSubstr("a file of another kind"));
    EXPECT_THAT(scratch_.read("notes.txt"), Eq(kept));
  }
}

TEST_F(Series, NoJournalOfAWatchReplacesARecord) {
  ASSERT_THAT(run({"--applied", "+6", "--json", scratch_.path("before.json")}).status, Eq(0));
  const std::string record = scratch_.read("before.json");
  const auto watched = run_tintfall({"watch", scratch_.path("series"), "--reference",
                                     scratch_.path("ref.txt"), "--regions", scratch_.path("regions.json"),
                                     "--idle", "0.5", "--journal", scratch_.path("before.json")});
  EXPECT_THAT(watched.status, Eq(2)) << watched.out;
  EXPECT_TRUE(scratch_.read("before.json") == record);
}

TEST_F(Series, AJournalCutOffAnywhereIsTakenUp) {
  const std::string journal = scratch_.path("kept.journal");
  const std::vector<std::string> call{"--applied", "+6", "--quiet", "--journal", journal};
  ASSERT_THAT(run(call).status, Eq(0));
  const std::string whole = scratch_.read("kept.journal");
  const std::size_t head = whole.find('\n');
  ASSERT_THAT(head, testing::Lt(whole.size()));
  for (const std::size_t length : {std::size_t{1}, std::size_t{9}, head / 2, head, head + 1, head + 40}) {
    scratch_.write("kept.journal", whole.substr(0, length));
    const auto again = run(call);
    EXPECT_THAT(again.status, Eq(0)) << "cut to " << length << ": " << again.err;
    EXPECT_THAT(scratch_.read("kept.journal").size(), Eq(whole.size())) << "cut to " << length;
  }
}

TEST_F(Series, WithoutASheetNothingIsWrittenOver) {
  for (const auto& name : demo_series().names) scratch_.write("series/" + name, "no photo");
  scratch_.write("out.json", "before");
  const auto run = this->run({"--json", scratch_.path("out.json")});
  EXPECT_THAT(run.status, Eq(3)) << run.err;
  EXPECT_THAT(scratch_.read("out.json"), Eq("before"));
}

TEST_F(Series, KineticsAndWordsOfAReaction) {
  const auto run = this->run({"--applied", "+6", "--reagent", "KOH", "--strength", "5 %", "--json", "-",
                              "--plot", scratch_.path("plot.svg"), "--strip", scratch_.path("strip.png")});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  const json spot = json::parse(run.out)["spots"][0];
  const auto& course = demo_series().settings.course;
  // Within 10 % or one frame interval (3 s here), whichever is larger: what is promised of nine series in
  // ten.
  EXPECT_THAT(spot["kinetics"]["onset_s"].get<double>(), DoubleNear(course.onset_s, 3));
  EXPECT_THAT(spot["kinetics"]["half_time_s"].get<double>(), DoubleNear(course.half_s, 3));
  EXPECT_THAT(spot["verdict"], Eq("positive"));
  EXPECT_THAT(spot["sentence"].get<std::string>(), AllOf(HasSubstr("KOH 5 %"), HasSubstr("after the drop")));
  EXPECT_THAT(scratch_.read("plot.svg"), HasSubstr("<svg"));
  EXPECT_THAT(scratch_.read("strip.png"), testing::StartsWith("\x89PNG"));
  EXPECT_THAT(this->run({"--plot", scratch_.path("plot.gif")}).status, Eq(2));
}

TEST_F(Series, AWatchedFolderGivesTheSameCourseAndGoesOnAfterAStop) {
  const std::vector<std::string> call{"watch",       scratch_.path("series"),
                                      "--reference", scratch_.path("ref.txt"),
                                      "--regions",   scratch_.path("regions.json"),
                                      "--applied",   "+6",
                                      "--idle",      "0.5",
                                      "--json",      "-"};
  const auto first = run_tintfall(call);
  ASSERT_THAT(first.status, Eq(0)) << first.err;
  EXPECT_TRUE(scratch_.has("series/tintfall-watch.journal"));
  EXPECT_THAT(json::parse(first.out)["spots"],
              Eq(json::parse(run({"--applied", "+6", "--json", "-"}).out)["spots"]));
  EXPECT_TRUE(run_tintfall(call).out == first.out);
  // As `series` says it: what cannot be read is 3, what is no folder was not meant.
  EXPECT_THAT(run_tintfall({"watch", scratch_.path("none"), "--region", "spot@105,74,4"}).status, Eq(3));
  EXPECT_THAT(run_tintfall({"watch", scratch_.path("ref.txt"), "--region", "spot@105,74,4"}).status, Eq(2));
}

TEST_F(Series, AControlOnTheDropIsRefused) {
  for (const char* control : {"control@103,74,4", "water@105,74,4"}) {
    const auto run = run_with({"spot@105,74,4", control}, {"--applied", "+6", "--json", "-"});
    EXPECT_THAT(run.status, Eq(3)) << run.out;
    const json error = json::parse(run.out)["error"];
    EXPECT_THAT(error["code"], Eq("unreadable-regions"));
    EXPECT_THAT(error["message"].get<std::string>(), AllOf(HasSubstr("spot 'A'"), HasSubstr("'B'")));
  }
}

TEST_F(Series, WithoutSpotOrBruiseNoNamedOutputIsLeftOut) {
  const std::vector<std::string> regions{"deposit@105,74,4", "control@78,74,4"};
  for (const auto& more :
       std::vector<std::vector<std::string>>{{},
                                             {"--plot", scratch_.path("plot.svg"), "--json", "-"},
                                             {"--strip", scratch_.path("strip.png")}}) {
    const auto run = run_with(regions, more);
    EXPECT_THAT(run.status, Eq(2)) << run.out;
    EXPECT_THAT(run.out + run.err, HasSubstr("follows a spot (a reagent) or a bruise"));
  }
  const auto colours = run_with(regions, {"--json", "-"});
  ASSERT_THAT(colours.status, Eq(0)) << colours.err;
  EXPECT_THAT(colours.err, HasSubstr("nothing is followed"));
  EXPECT_THAT(json::parse(colours.out)["frames"][0]["readings"], SizeIs(2));
  const auto watched =
      run_tintfall({"watch", scratch_.path("series"), "--region", regions[0], "--idle", "0.5"});
  EXPECT_THAT(watched.status, Eq(2)) << watched.out;
}

TEST_F(Series, ASpotOfTooFewPixelsIsTheReasonThatIsGiven) {
  const auto run = run_with({"spot@105,74,0.2", "control@78,74,4"}, {"--applied", "+6", "--json", "-"});
  EXPECT_THAT(run.status, Eq(5)) << run.out;
  const json error = json::parse(run.out)["error"];
  EXPECT_THAT(error["message"].get<std::string>(), AllOf(HasSubstr("spot 'A'"), HasSubstr("pixels")));
  EXPECT_THAT(error["advice"].get<std::string>(), testing::Not(HasSubstr("before the drop")));
}

// Another scene's photo that lies in the folder: named, left out, and nothing else changes.
TEST_F(Series, AStrayPhotoChangesNeitherVerdictNorStartColour) {
  const auto call = [&] { return run({"--applied", "+6", "--json", "-"}); };
  const auto clean = call();
  ASSERT_THAT(clean.status, Eq(0)) << clean.err;
  scratch_.write("series/zzz.jpg", stray_photo());
  const auto with_stray = call();
  ASSERT_THAT(with_stray.status, Eq(0)) << with_stray.err;
  const json before = json::parse(clean.out)["spots"][0], after = json::parse(with_stray.out)["spots"][0];
  EXPECT_THAT(after["kinetics"]["remarks"].dump(), HasSubstr("zzz.jpg stands out"));
  EXPECT_THAT(after["verdict"], Eq(before["verdict"]));
  // One frame less before the drop counts for a little.
  for (const char* key : {"change_de00", "threshold_de00", "control_change_de00", "half_time_s"})
    EXPECT_THAT(after["kinetics"][key].get<double>(), DoubleNear(before["kinetics"][key].get<double>(), 0.5))
        << key;
  const auto lab = [](const json& spot) {
    const auto& v = spot["kinetics"]["phases"][0]["lab"];
    return colorlib::Lab{v[0], v[1], v[2]};
  };
  EXPECT_THAT(lab(after), colorlib::NearInDeltaE(lab(before), 0.5));
}

// Less what its controls did, its spot fits the course: only the controls give it away.
TEST_F(Series, APhotoOfADarkerSpecimenIsToldByItsControlsAndMovesNoThreshold) {
  const auto call = [&] { return run({"--applied", "+6", "--json", "-"}); };
  const auto clean = call();
  ASSERT_THAT(clean.status, Eq(0)) << clean.err;
  scratch_.write("series/darker.jpg", darker_photo());
  const auto with_darker = call();
  ASSERT_THAT(with_darker.status, Eq(0)) << with_darker.err;
  const json before = json::parse(clean.out)["spots"][0], after = json::parse(with_darker.out)["spots"][0];
  EXPECT_FALSE(before["kinetics"].contains("bad_frames"));
  EXPECT_THAT(after["kinetics"]["bad_frames"], Eq(json{7}));
  EXPECT_THAT(after["kinetics"]["remarks"].dump(), HasSubstr("darker.jpg stands out: its control"));
  EXPECT_THAT(after["verdict"], Eq("positive"));
  for (const char* key : {"change_de00", "threshold_de00", "control_change_de00", "half_time_s"})
    EXPECT_THAT(after["kinetics"][key].get<double>(), DoubleNear(before["kinetics"][key].get<double>(), 0.3))
        << key;
}

TEST_F(Series, AWatchIsToldAMomentThatIsNoneAndAWaitThatNeverEnds) {
  const auto watch = [&](const std::vector<std::string>& more) {
    std::vector<std::string> call{"watch", scratch_.path("series"), "--region", "spot@105,74,4", "--json",
                                  "-"};
    call.insert(call.end(), more.begin(), more.end());
    return run_tintfall(call);
  };
  for (const char* applied : {"nonsense", "11:07", "0", "frame-03", "+x"}) {
    const auto run = watch({"--applied", applied, "--idle", "0.5"});
    EXPECT_THAT(run.status, Eq(2)) << applied;
    EXPECT_THAT(json::parse(run.out)["error"]["code"], Eq("bad-call")) << applied;
  }
  EXPECT_THAT(watch({"--applied", "11:07:00", "--interval", "5", "--idle", "0.5"}).status, Eq(2));
  for (const char* idle : {"-5", "nan", "inf", "0", "1e300"}) {
    const auto run = watch({"--idle", idle});
    EXPECT_THAT(run.status, Eq(2)) << idle;
    EXPECT_THAT(run.out, HasSubstr("--idle")) << idle;
  }
}

TEST_F(Series, AWatchSaysThatThePhotoOfTheApplicationDidNotCome) {
  const auto watched = [&](const char* applied) {
    return run_tintfall({"watch", scratch_.path("series"), "--reference", scratch_.path("ref.txt"),
                         "--regions", scratch_.path("regions.json"), "--applied", applied, "--idle", "0.5",
                         "--json", "-"});
  };
  const auto none = watched("frame-99.jpg");
  ASSERT_THAT(none.status, Eq(0)) << none.err;
  EXPECT_THAT(none.err, HasSubstr("'frame-99.jpg' that --applied names did not come"));
  EXPECT_THAT(json::parse(none.out)["zero"], Eq("first-photo"));
  EXPECT_THAT(json::parse(none.out)["times"]["remarks"].dump(), HasSubstr("frame-99.jpg"));
  const auto one = watched("frame-03.jpg");
  ASSERT_THAT(one.status, Eq(0)) << one.err;
  EXPECT_THAT(json::parse(one.out)["zero"], Eq("photo"));
  EXPECT_THAT(json::parse(one.out)["times"]["remarks"].dump(), testing::Not(HasSubstr("did not come")));
}

}  // namespace
}  // namespace tintfall
