#include <gmock/gmock.h>

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <tests/viewer/command/command_run.hpp>

namespace tintfall {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::Eq;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

const std::string demo = std::string(TINTFALL_SOURCE_FOLDER) + "/docs/demo/exchange_1/";

std::string demo_record(const std::string& name) { return demo + "readings/" + name + ".json"; }

/// A demo record, changed.
std::string changed(const ScratchFolder& scratch, const std::string& name, const std::string& as,
                    const std::vector<std::pair<const char*, json>>& changes) {
  std::ifstream stream(demo_record(name));
  json record = json::parse(stream);
  for (const auto& [pointer, value] : changes) record[json::json_pointer(pointer)] = value;
  return scratch.write(as, record.dump());
}

TEST(CompareCommand, TellsAPhotoFromARecord) {
  const ScratchFolder scratch;
  for (const std::string_view begin :
       {std::string_view("\xff\xd8\xff\xe0"), std::string_view("\x89PNG\r\n\x1a\n")}) {
    const auto run =
        run_tintfall({"compare", scratch.write("a.jpg", std::string(begin) + std::string(400, '[')),
                      demo_record("QH-03-V-1")});
    EXPECT_THAT(run.status, Eq(3));
    EXPECT_THAT(run.err, AllOf(HasSubstr("'a.jpg': it is a photo, not a record"), Not(HasSubstr("comma"))));
  }
}

TEST(CompareCommand, SaysWhetherReadingsAgree) {
  const auto run =
      run_tintfall({"compare", demo_record("QH-03-V-1"), demo_record("QH-03-Q-1"), demo_record("QH-03-V-2")});
  EXPECT_THAT(run.status, Eq(0));
  EXPECT_THAT(run.err, IsEmpty());
  EXPECT_THAT(run.out, AllOf(HasSubstr("In pairs: 1 same, 2 different, 0 undecided"),
                             HasSubstr("QH-03-V-1.json#W1 – QH-03-Q-1.json#W1"), HasSubstr("2 groups"),
                             HasSubstr("described, not judged"), HasSubstr("Caution")));
}

TEST(CompareCommand, NoTextOfARecordSteersTheTerminal) {
  const ScratchFolder scratch;
  const char* const fields[] = {"/software",
                                "/subject/item",
                                "/subject/collector",
                                "/subject/tissue",
                                "/subject/state",
                                "/subject/surface",
                                "/subject/light",
                                "/photo/name",
                                "/photo/captured",
                                "/photo/encoding",
                                "/photo/profile",
                                "/chart/name",
                                "/chart/reference",
                                "/chart/reference_source",
                                "/chart/sheet",
                                "/chart/printed",
                                "/calibration/model",
                                "/readings/0/id",
                                "/readings/0/kind",
                                "/readings/0/munsell",
                                "/readings/0/name",
                                "/readings/0/trade_term",
                                "/readings/0/flags/0",
                                "/readings/0/refused/message",
                                "/readings/0/refused/advice"};
  const json refusal{{"code", "untrustworthy"}, {"message", "glare"}, {"advice", "less light"}};
  for (const std::string field : fields)
    for (const char* odd : {"a\x1b[2Jz", "a\xC2\x9B\x32Jz", "a\xE2\x80\xAEz"}) {
      SCOPED_TRACE(field);
      std::vector<std::pair<const char*, json>> changes;
      if (field.find("refused") != std::string::npos) changes.emplace_back("/readings/0/refused", refusal);
      changes.emplace_back(field.c_str(), odd);
      const std::string record = changed(scratch, "QH-03-V-1", "odd.json", changes);
      for (const bool as_json : {false, true}) {
        auto call = std::vector<std::string>{"compare", record, demo_record("QH-03-Q-1"), "--verbose"};
        if (as_json) call.insert(call.end(), {"--json", "-"});
        const auto run = run_tintfall(call);
        for (const char* code : {"\x1b", "\xC2\x9B", "\xE2\x80\xAE"}) {
          EXPECT_THAT(run.out, Not(HasSubstr(code)));
          EXPECT_THAT(run.err, Not(HasSubstr(code)));
        }
      }
    }
  const auto refused =
      run_tintfall({"compare", changed(scratch, "QH-03-V-1", "odd.json", {{"/subject/item", "\x1b[2J"}}),
                    demo_record("QH-03-Q-1")});
  EXPECT_THAT(refused.status, Eq(3));
  EXPECT_THAT(refused.err, HasSubstr("subject.item holds a control character"));
}

TEST(CompareCommand, AFolderStandsForTheRecordsInIt) {
  const ScratchFolder scratch;
  std::filesystem::create_directories(scratch.path("round/inner"));
  for (const char* name : {"QH-03-V-1", "QH-03-Q-1", "QH-03-P-1"})
    std::filesystem::copy_file(demo_record(name), scratch.path(std::string("round/") + name + ".json"));
  std::filesystem::copy_file(demo_record("QH-03-H-1"), scratch.path("round/inner/QH-03-H-1.json"));
  scratch.write("round/regions.json", R"({"format": "tintfall-regions", "version": 1, "regions": []})");
  scratch.write("round/series.json", R"({"format": "tintfall-record", "frames": []})");
  scratch.write("round/photo.jpg", "no record");
  const auto run = run_tintfall({"compare", scratch.path("round"), "--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.out;
  EXPECT_THAT(run.err, HasSubstr("2 files without a record of photographs passed over: 'regions.json', "
                                 "'series.json'"));
  const auto named = run_tintfall({"compare", demo_record("QH-03-P-1"), demo_record("QH-03-Q-1"),
                                   demo_record("QH-03-V-1"), "--json", "-"});
  EXPECT_EQ(json::parse(run.out), json::parse(named.out));
  // What is written there, and the reference, is no reading to compare.
  for (int times = 0; times < 2; ++times)
    EXPECT_THAT(run_tintfall({"compare", scratch.path("round"), "--reference",
                              scratch.path("round/QH-03-V-1.json"), "--json", scratch.path("round/out.json")})
                    .status,
                Eq(0));
  EXPECT_EQ(json::parse(scratch.read("round/out.json"))["consensus"][0]["readings"].size(), 2u);
}

TEST(CompareCommand, AFolderWithoutRecordsOrWithADamagedOneIsRefused) {
  const ScratchFolder scratch;
  std::filesystem::create_directories(scratch.path("empty"));
  scratch.write("empty/a.json", "{}");
  const auto empty = run_tintfall({"compare", scratch.path("empty")});
  EXPECT_THAT(empty.status, Eq(3));
  EXPECT_THAT(empty.err, HasSubstr("it holds no record"));
  std::filesystem::create_directories(scratch.path("cut"));
  std::filesystem::copy_file(demo_record("QH-03-V-1"), scratch.path("cut/a.json"));
  scratch.write("cut/b.json", R"({"format": "tintfall-record", "version": 1, )");
  const auto cut = run_tintfall({"compare", scratch.path("cut")});
  EXPECT_THAT(cut.status, Eq(3));
  EXPECT_THAT(cut.err, HasSubstr("b.json"));
}

TEST(RoundReport, SaysHowWellTheRepeatabilityIsKnown) {
  const auto run = run_tintfall({"round", "report", demo + "round.json"});
  EXPECT_THAT(run.out, HasSubstr("s_r 0.28 / 0.27 / 0.18 (the true one 0.7 to 1.9 times that, 95 %)"));
}

TEST(CompareCommand, WritesTheContractsJson) {
  const auto run =
      run_tintfall({"compare", demo_record("QH-03-V-1"), demo_record("QH-03-Q-1"), "--json", "-"});
  EXPECT_THAT(run.status, Eq(0));
  const auto record = json::parse(run.out);
  ASSERT_EQ(record["pairs"].size(), 1u);
  const auto& pair = record["pairs"][0];
  EXPECT_EQ(pair["a"], "QH-03-V-1.json#W1");
  EXPECT_EQ(pair["verdict"], "different");
  EXPECT_NEAR(pair["de00"].get<double>() / pair["de00_expanded"].get<double>(), pair["en"].get<double>(),
              0.002);
  EXPECT_EQ(record["consensus"][0]["readings"].size(), 2u);
  const ScratchFolder scratch;
  const auto file = run_tintfall(
      {"compare", demo_record("QH-03-V-1"), demo_record("QH-03-Q-1"), "--json", scratch.path("out.json")});
  EXPECT_EQ(json::parse(scratch.read("out.json")), record);
  EXPECT_THAT(file.out, HasSubstr("different"));
  EXPECT_THAT(run_tintfall({"compare", demo_record("QH-03-V-1"), demo_record("QH-03-Q-1"), "--quiet"}).out,
              IsEmpty());
}

TEST(CompareCommand, TakesAToleranceAndAReference) {
  const auto within =
      run_tintfall({"compare", demo_record("QH-03-V-1"), demo_record("QH-03-Q-1"), "--tolerance", "6"});
  EXPECT_THAT(within.out, AllOf(HasSubstr("1 same"), HasSubstr("at most ΔE00 6.0")));
  const auto against = run_tintfall({"compare", demo_record("QH-03-Q-1"), demo_record("QH-03-P-1"),
                                     "--reference", demo_record("QH-03-V-1"), "--json", "-"});
  EXPECT_THAT(against.status, Eq(0));
  EXPECT_EQ(json::parse(against.out)["consensus"][0]["method"], "reference");
  EXPECT_EQ(json::parse(against.out)["consensus"][0]["collectors"][0]["verdict"], "different");
}

TEST(CompareCommand, ReadsSeveralRecordsFromOneFile) {
  const ScratchFolder scratch;
  std::string lines;
  for (const char* name : {"QH-06-V-1", "QH-06-H-1", "QH-06-P-1"}) {
    std::ifstream stream(demo_record(name));
    lines += json::parse(stream).dump() + "\n";
  }
  const auto run = run_tintfall({"compare", scratch.write("all.json", lines)});
  EXPECT_THAT(run.status, Eq(0));
  EXPECT_THAT(run.out, AllOf(HasSubstr("3 readings of 1 item by 3 collectors"), HasSubstr("all.json:2#W1")));
}

TEST(CompareCommand, SaysWhenRecordsDoNotNameTheirItem) {
  const ScratchFolder scratch;
  const auto one = changed(scratch, "QH-03-V-1", "a.json", {{"/subject/item", ""}}),
             other = changed(scratch, "QH-03-Q-1", "b.json", {{"/subject/item", ""}});
  EXPECT_THAT(run_tintfall({"compare", one, other}).out, HasSubstr("all are taken as one item"));
}

TEST(CompareCommand, CountsACopiedRecordOnce) {
  const ScratchFolder scratch;
  const auto copy = changed(scratch, "QH-03-V-1", "copy.json", {});
  const auto run = run_tintfall({"compare", demo_record("QH-03-V-1"), copy, demo_record("QH-03-Q-1")});
  EXPECT_THAT(run.status, Eq(0));
  EXPECT_THAT(run.out, AllOf(HasSubstr("left out: copy.json#W1"), HasSubstr("2 readings")));
  const auto twice = run_tintfall({"compare", demo_record("QH-03-V-1"), demo_record("QH-03-V-1")});
  EXPECT_THAT(twice.status, Eq(2));
  EXPECT_THAT(twice.err, HasSubstr("named twice"));
  const auto only = run_tintfall({"compare", demo_record("QH-03-V-1"), copy});
  EXPECT_THAT(only.status, Eq(5));
  EXPECT_THAT(only.err, HasSubstr("1 can be used, two are needed"));
}

TEST(CompareCommand, RefusesWhatItCannotCompare) {
  const ScratchFolder scratch;
  const auto good = demo_record("QH-03-V-1");
  const auto status = [&](const std::string& other) {
    const auto run = run_tintfall({"compare", good, other, "--json", "-"});
    EXPECT_THAT(json::parse(run.out)["error"]["message"].get<std::string>(), Not(IsEmpty()));
    EXPECT_THAT(json::parse(run.out)["error"]["advice"].get<std::string>(), Not(IsEmpty()));
    return run.status;
  };
  EXPECT_EQ(status(scratch.path("missing.json")), 3);
  EXPECT_EQ(status(scratch.write("empty.json", "")), 3);
  EXPECT_EQ(status(scratch.write("text.json", "no record")), 3);
  EXPECT_EQ(status(demo + "round.json"), 3) << "a round file is no record";
  EXPECT_EQ(status(changed(scratch, "QH-03-Q-1", "nocov.json",
                           {{"/readings/0/lab_covariance", nullptr}, {"/readings/0/lab_expanded", nullptr}})),
            3);
  EXPECT_EQ(status(changed(scratch, "QH-03-Q-1", "nan.json", {{"/readings/0/lab/0", nullptr}})), 3);
  EXPECT_EQ(status(changed(scratch, "QH-03-Q-1", "text_lab.json", {{"/readings/0/lab/0", "NaN"}})), 3);
  const json no_uncertainty = json::array({{0, 0, 0}, {0, 0, 0}, {0, 0, 0}});
  const auto exact =
      changed(scratch, "QH-03-Q-1", "exact.json",
              {{"/readings/0/lab_covariance", no_uncertainty}, {"/readings/0/lab_expanded", {0, 0, 0}}});
  EXPECT_EQ(status(exact), 5);
  EXPECT_THAT(run_tintfall({"compare", good, exact}).err, HasSubstr("states no uncertainty"));
  EXPECT_EQ(run_tintfall({"compare"}).status, 2);
  EXPECT_EQ(run_tintfall({"compare", good, demo_record("QH-03-Q-1"), "--tolerance", "-1"}).status, 2);
  EXPECT_EQ(run_tintfall({"compare", good, demo_record("QH-03-Q-1"), "--tolerance", "nan"}).status, 2);
  EXPECT_EQ(run_tintfall({"compare", good, demo_record("QH-03-Q-1"), "--risk", "2"}).status, 2);
  EXPECT_EQ(run_tintfall({"compare", good, demo_record("QH-03-Q-1"), "--kind", "potato"}).status, 2);
  EXPECT_EQ(run_tintfall({"compare", good, demo_record("QH-03-Q-1"), "--kind", "bruise"}).status, 5);
  EXPECT_EQ(run_tintfall({"compare", good, "--reference", demo_record("QH-06-V-1")}).status, 2);
}

TEST(CompareCommand, LeavesAnOldResultAlone) {
  const ScratchFolder scratch;
  const auto out = scratch.write("out.json", "old");
  EXPECT_EQ(
      run_tintfall({"compare", demo_record("QH-03-V-1"), scratch.path("missing.json"), "--json", out}).status,
      3);
  EXPECT_EQ(scratch.read("out.json"), "old");
}

TEST(RoundCommand, ReportsTheDemoRound) {
  const auto run = run_tintfall({"round", "report", demo + "round.json"});
  EXPECT_THAT(run.status, Eq(0));
  EXPECT_THAT(run.err, IsEmpty());
  EXPECT_THAT(run.out, AllOf(HasSubstr("Deposit Colour Exchange 1"), HasSubstr("Invented"),
                             HasSubstr("36 readings of 3 items by 4 collectors"), HasSubstr("Q Teo Quarn"),
                             HasSubstr("bluer, lighter, redder"), HasSubstr("kitchen LED, warm"),
                             HasSubstr("In pairs: 2 same, 13 different, 3 undecided"), HasSubstr("Caution")));
  EXPECT_THAT(run_tintfall({"round", "report", demo + "round.json", "--tolerance", "3"}).out,
              HasSubstr("at most ΔE00 3.0"));
  EXPECT_THAT(run_tintfall({"round", "report", demo + "round.json", "--verbose"}).out,
              HasSubstr("Where further readings"));
  EXPECT_EQ(json::parse(run_tintfall({"round", "report", demo + "round.json", "--json", "-"}).out)["format"],
            "tintfall-comparison");
}

TEST(RoundCommand, DrawsThePage) {
  const ScratchFolder scratch;
  const auto out = scratch.path("round.pdf");
  EXPECT_EQ(run_tintfall({"round", "report", demo + "round.json", "--page", out, "--quiet"}).status, 0);
  const auto no_page = run_tintfall({"round", "report", demo + "round.json", "--page", out + ".txt"});
  EXPECT_EQ(no_page.status, 2);
  EXPECT_THAT(no_page.err, HasSubstr("it is written as PDF only"));
  EXPECT_THAT(scratch.read("round.pdf"), testing::StartsWith("%PDF-"));
  EXPECT_EQ(run_tintfall({"round", "report", demo + "none.json", "--page", out}).status, 3);
  EXPECT_THAT(scratch.read("round.pdf"), testing::StartsWith("%PDF-"));
  EXPECT_EQ(
      run_tintfall({"round", "report", demo + "round.json", "--page", scratch.path("no/such/folder.pdf")})
          .status,
      3);
}

/// The demo round in a folder of its own, changed.
class RoundFolder {
 public:
  RoundFolder() {
    std::filesystem::copy(demo + "readings", scratch_.path("readings"));
    std::ifstream stream(demo + "round.json");
    round = json::parse(stream);
  }
  CommandRun report() const {
    return run_tintfall({"round", "report", scratch_.write("round.json", round.dump())});
  }
  void remove(const std::string& record) const { std::filesystem::remove(scratch_.path(record)); }
  json round;

 private:
  ScratchFolder scratch_;
};

TEST(RoundCommand, RefusesAMixedUpRound) {
  RoundFolder folder;
  folder.round["readings"][0]["item"] = "QH-03";
  const auto item = folder.report();
  EXPECT_THAT(item.status, Eq(3));
  EXPECT_THAT(item.err, HasSubstr("says item 'QH-01', the round says 'QH-03'"));
  folder.round["readings"][0]["item"] = "QH-01";
  folder.round["readings"][0]["collector"] = "Q";
  EXPECT_THAT(folder.report().err, HasSubstr("says collector 'V', the round says 'Q'"));
  folder.round["readings"][0]["collector"] = "V";
  folder.round["readings"][0]["reading"] = "W9";
  EXPECT_THAT(folder.report().err, HasSubstr("holds no reading 'W9'"));
  folder.round["readings"][0].erase("reading");
  EXPECT_THAT(folder.report().status, Eq(0)) << "the only reading is meant";
  folder.remove("readings/QH-06-P-3.json");
  const auto missing = folder.report();
  EXPECT_THAT(missing.status, Eq(3));
  EXPECT_THAT(missing.err, HasSubstr("QH-06-P-3.json"));
}

TEST(RoundCommand, ReportsWhatIsThereWhenARoundIsSmall) {
  RoundFolder folder;
  folder.round["readings"].erase(folder.round["readings"].begin() + 1, folder.round["readings"].end());
  const auto one = folder.report();
  EXPECT_THAT(one.status, Eq(0)) << "one reading against its reference";
  EXPECT_THAT(one.out,
              AllOf(HasSubstr("1 reading of 1 item by 1 collector"), HasSubstr("too few readings to judge")));
  folder.round["items"][0].erase("reference");
  EXPECT_THAT(folder.report().status, Eq(5));
}

TEST(RoundCommand, RefusesWrongCalls) {
  EXPECT_EQ(run_tintfall({"round"}).status, 2);
  EXPECT_EQ(run_tintfall({"round", "report"}).status, 2);
  EXPECT_EQ(run_tintfall({"round", "report", demo + "none.json"}).status, 3);
  EXPECT_EQ(run_tintfall({"round", "report", demo}).status, 3);
  EXPECT_EQ(run_tintfall({"round", "report", demo_record("QH-03-V-1")}).status, 3);
}

}  // namespace
}  // namespace tintfall
