#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/records/record_json.hpp>
#include <map>
#include <nlohmann/json.hpp>
#include <tests/end_to_end/demo_photo.hpp>
#include <tests/support/color_matchers.hpp>
#include <tests/viewer/command/command_run.hpp>

namespace tintfall {
namespace {

using colorlib::Lab;
using nlohmann::json;
using testing::AllOf;
using testing::Eq;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

class Reading : public testing::Test {
 protected:
  void SetUp() override {
    scratch_.write("photo.jpg", demo_photo().scene.jpeg_bytes);
    scratch_.write("ref.txt", demo_photo().reference_text);
    scratch_.write("regions.json", demo_photo().regions_text);
  }
  std::string photo() const { return scratch_.path("photo.jpg"); }
  std::string reference() const { return scratch_.path("ref.txt"); }
  const ScratchFolder scratch_;
};

TEST_F(Reading, JsonOnStandardOutputIsOneRecordAndNothingElse) {
  const auto run = run_tintfall({"read", photo(), "--reference", reference(), "--regions",
                                 scratch_.path("regions.json"), "--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  const auto record = colorlib::parse_record(run.out, "output");
  ASSERT_TRUE(record.has_value()) << record.error().message;
  EXPECT_THAT(record->chart.name, Eq("frame-a5"));
  EXPECT_THAT(record->chart.reference_kind, Eq("measured"));
  std::map<std::string, Lab> truth;
  for (const auto& specimen : demo_photo().scene.specimens) truth[specimen.id] = specimen.as_seen;
  ASSERT_THAT(record->readings.size(), Eq(truth.size()));
  for (const auto& reading : record->readings) {
    if (reading.refused) continue;
    // Three times the stated 95 % bound: one scene is no statistic, the accuracy tests count coverage.
    EXPECT_THAT(reading.lab, colorlib::NearInDeltaE(truth[reading.id], 3 * reading.de00_expanded))
        << reading.id;
  }
}

TEST_F(Reading, ARecordOfAnOddlyNamedPhotoIsReadBack) {
  const auto odd = scratch_.write("odd\x1b[2J.jpg", demo_photo().scene.jpeg_bytes);
  std::vector<std::string> records;
  for (const auto& [name, file] : {std::pair("odd.json", odd), std::pair("plain.json", photo())}) {
    records.push_back(scratch_.path(name));
    const auto run = run_tintfall(
        {"read", file, "--reference", reference(), "--region", "deposit@105,74,4", "--json", records.back()});
    ASSERT_THAT(run.status, Eq(0)) << run.err;
  }
  EXPECT_THAT(scratch_.read("odd.json"), HasSubstr("\"odd?[2J.jpg\""));
  const auto compared = run_tintfall({"compare", records[0], records[1]});
  EXPECT_THAT(compared.status, Eq(0)) << compared.err;
}

TEST_F(Reading, SummaryForAPersonWithoutJson) {
  const auto run = run_tintfall(
      {"read", photo(), "--reference", reference(), "--region", "deposit@105,74,4", "--item", "QH-03"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(run.out,
              AllOf(HasSubstr("deposit A"), HasSubstr("L* "), HasSubstr("ΔE00"), HasSubstr("item QH-03"),
                    HasSubstr("never tells whether a mushroom is safe to eat"), Not(HasSubstr("\x1b"))));
  EXPECT_THAT(run_tintfall({"read", photo(), "--quiet"}).out, IsEmpty());
}

TEST_F(Reading, AReagentSpotCarriesTheCautionAboutReagents) {
  const auto read = [&](const std::string& region) {
    const auto run = run_tintfall({"read", photo(), "--reference", reference(), "--region", region});
    EXPECT_THAT(run.status, Eq(0)) << run.err;
    return run.out;
  };
  EXPECT_THAT(read("spot@105,74,4"), AllOf(HasSubstr("Goggles and gloves"), HasSubstr("safety data sheet"),
                                           HasSubstr("never tells whether a mushroom is safe to eat")));
  EXPECT_THAT(read("deposit@105,74,4"), Not(HasSubstr("Goggles"))) << "no reagent, no words about one";
}

TEST_F(Reading, AStatedHeightThatLeavesTheLightUnknownIsRefused) {
  const auto at = [&](const char* height) {
    return run_tintfall(
        {"read", photo(), "--reference", reference(), "--region", "deposit@105,74,4", "--height", height});
  };
  const auto far = at("300");
  EXPECT_THAT(far.status, Eq(5)) << far.out;
  EXPECT_THAT(far.err, AllOf(HasSubstr("at the stated 300 mm off the sheet"), HasSubstr("Raise the sheet")));
  EXPECT_THAT(at("30").status, Eq(0));
}

TEST_F(Reading, JsonToAFileKeepsTheSummary) {
  const auto run = run_tintfall({"read", photo(), "--json", scratch_.path("out.json")});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(run.out, HasSubstr("sheet     frame-a5"));
  EXPECT_TRUE(colorlib::read_record(scratch_.path("out.json")).has_value());
}

TEST_F(Reading, SayingWhatTheLightWasChangesTheToleranceAndNotTheColour) {
  const auto read_as = [&](const std::vector<std::string>& said) {
    std::vector<std::string> call{
        "read", photo(), "--reference", reference(), "--region", "deposit@105,74,4", "--json", "-"};
    call.insert(call.end(), said.begin(), said.end());
    const auto run = run_tintfall(call);
    EXPECT_THAT(run.status, Eq(0)) << run.err;
    return colorlib::parse_record(run.out, "output").value();
  };
  const auto unsaid = read_as({}), daylight = read_as({"--light", "daylight"}),
             lamp = read_as({"--light", "lamp"});
  const std::string fields = scratch_.write("fields.csv", "photo,light\nphoto.jpg,lamp\n");
  const auto from_file = read_as({"--fields", fields}),
             over_file = read_as({"--fields", fields, "--light", "daylight"});
  EXPECT_THAT(unsaid.subject.light, IsEmpty());
  EXPECT_THAT(lamp.subject.light, Eq("lamp"));
  for (const auto* record : {&daylight, &lamp, &from_file, &over_file})
    EXPECT_THAT(record->readings[0].lab, Eq(unsaid.readings[0].lab));
  // Inks tell less of pigments under lamps: a* and b*, not L*.
  EXPECT_THAT(lamp.readings[0].lab_expanded[0], Eq(daylight.readings[0].lab_expanded[0]));
  EXPECT_GT(lamp.readings[0].lab_expanded[1], 1.1 * daylight.readings[0].lab_expanded[1]);
  EXPECT_GT(lamp.readings[0].de00_expanded, 1.1 * daylight.readings[0].de00_expanded);
  EXPECT_THAT(from_file.readings[0].de00_expanded, Eq(lamp.readings[0].de00_expanded));
  EXPECT_THAT(over_file.readings[0].de00_expanded, Eq(daylight.readings[0].de00_expanded));
}

TEST_F(Reading, ARegionOnTheSheetItselfIsNotReadWithoutAWord) {
  const auto flags_of = [&](const std::string& region) {
    const auto run = run_tintfall({"read", photo(), "--region", region, "--json", "-"});
    EXPECT_THAT(run.status, Eq(0)) << run.err;
    return json::parse(run.out)["readings"][0]["flags"].dump();
  };
  EXPECT_THAT(flags_of("spot@20,52,5"), HasSubstr("outside-opening"));
  EXPECT_THAT(flags_of("deposit@105,74,4"), Not(HasSubstr("outside-opening")));
}

TEST_F(Reading, NominalValuesWidenTheUncertainty) {
  const auto with = run_tintfall(
      {"read", photo(), "--reference", reference(), "--region", "deposit@105,74,4", "--json", "-"});
  const auto without = run_tintfall({"read", photo(), "--region", "deposit@105,74,4", "--json", "-"});
  ASSERT_THAT(without.status, Eq(0)) << without.err;
  EXPECT_THAT(json::parse(without.out)["chart"]["reference"], Eq("nominal"));
  EXPECT_GT(json::parse(without.out)["readings"][0]["de00_expanded"],
            json::parse(with.out)["readings"][0]["de00_expanded"]);
}

TEST_F(Reading, SaveWritesBesideThePhoto) {
  ASSERT_THAT(run_tintfall({"read", photo(), "--save", "--quiet"}).status, Eq(0));
  EXPECT_TRUE(colorlib::read_record(photo() + ".reading.json").has_value());
}

TEST_F(Reading, SeveralPhotosGiveOneRecordALine) {
  scratch_.write("second.jpg", demo_photo().scene.jpeg_bytes);
  scratch_.write("fields.csv", "photo;item\nphoto.jpg;QH-01\nsecond.jpg;QH-02\n");
  const auto run = run_tintfall(
      {"read", photo(), scratch_.path("second.jpg"), "--fields", scratch_.path("fields.csv"), "--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  std::istringstream lines(run.out);
  std::vector<std::string> items;
  for (std::string line; std::getline(lines, line);) items.push_back(json::parse(line)["subject"]["item"]);
  EXPECT_THAT(items, testing::ElementsAre("QH-01", "QH-02"));
}

TEST_F(Reading, OverlayIsAPicture) {
  ASSERT_THAT(run_tintfall({"read", photo(), "--quiet", "--overlay", scratch_.path("overlay.png")}).status,
              Eq(0));
  EXPECT_THAT(scratch_.read("overlay.png"), StartsWith("\x89PNG"));
}

TEST_F(Reading, SheetLabelRecallsChartReferenceAndDate) {
  ASSERT_THAT(run_tintfall({"sheet", "add", "A5-03", "--chart", "frame-a5", "--reference", reference(),
                            "--printed", "2031-03-01"})
                  .status,
              Eq(0));
  const auto run = run_tintfall({"read", photo(), "--sheet", "A5-03", "--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  const json chart = json::parse(run.out)["chart"];
  EXPECT_THAT(chart["reference"], Eq("measured"));
  EXPECT_THAT(chart["sheet"], Eq("A5-03"));
  EXPECT_THAT(chart["printed"], Eq("2031-03-01"));
}

TEST_F(Reading, CornersServeWhereMarkersDoNot) {
  std::vector<std::string> arguments{"read",        photo(),     "--chart",  "frame-a5",
                                     "--reference", reference(), "--region", "deposit@105,74,4",
                                     "--json",      "-",         "--corners"};
  for (const auto& corner : demo_photo().scene.corners_px)
    arguments.push_back(std::to_string(std::lround(corner.x)) + "," + std::to_string(std::lround(corner.y)));
  const auto by_corners = run_tintfall(arguments);
  ASSERT_THAT(by_corners.status, Eq(0)) << by_corners.err;
  const auto by_markers = run_tintfall(
      {"read", photo(), "--reference", reference(), "--region", "deposit@105,74,4", "--json", "-"});
  const auto lab_of = [](const CommandRun& run) {
    const auto lab = json::parse(run.out)["readings"][0]["lab"].get<std::array<double, 3>>();
    return Lab{lab[0], lab[1], lab[2]};
  };
  // The same pixels, placed by other means: differences stay far below the uncertainty of either.
  EXPECT_THAT(lab_of(by_corners), colorlib::NearInDeltaE(lab_of(by_markers), 0.3));
}

TEST_F(Reading, TheSameCallGivesTheSameRecord) {
  const std::vector<std::string> call{"read", photo(), "--reference", reference(), "--json", "-"};
  EXPECT_THAT(run_tintfall(call).out, Eq(run_tintfall(call).out));
}

TEST_F(Reading, ScalesOfOnesOwnStandInTheRecord) {
  scratch_.write("scale.csv", "name,L,a,b\nCinder,42,19,29\nAsh,70,0,3\n");
  const auto run = run_tintfall({"read", photo(), "--region", "deposit@105,74,4", "--scale",
                                 scratch_.path("scale.csv"), "--json", "-"});
  ASSERT_THAT(run.status, Eq(0)) << run.err;
  EXPECT_THAT(json::parse(run.out)["readings"][0]["scales"][0]["scale"], Eq("scale"));
}

}  // namespace
}  // namespace tintfall
