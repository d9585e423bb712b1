/// A specimen beside a sheet without an opening: where it lies is said in millimetres.
#include <gmock/gmock.h>

#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/records/record_json.hpp>
#include <tests/end_to_end/bad_call.hpp>
#include <tests/scenes/scene.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using testing::Contains;
using testing::Field;
using testing::HasSubstr;
using testing::Not;

struct Strip {
  ScratchFolder folder;
  ChartDefinition chart = find_chart("strip").value();
  scenes::Scene scene =
      scenes::render(scenes::random_scene(scenes::Condition::daylight_phone, 5, scenes::Pool::tuning), chart);
  std::string photo = folder.write("strip.jpg", scene.jpeg_bytes),
              reference = folder.write("reference.txt", scenes::reference_text(scene, chart));

  std::vector<std::string> call(std::vector<std::string> more) const {
    std::vector<std::string> call{"read", photo, "--reference", reference, "--height", "0"};
    call.insert(call.end(), more.begin(), more.end());
    return call;
  }
  Record record(std::vector<std::string> more) const {
    more.insert(more.end(), {"--json", "-"});
    const auto run = run_tintfall(call(more));
    EXPECT_EQ(run.status, 0) << run.err << run.out;
    return parse_record(run.out, "output").value_or(Record{});
  }
};

const Strip& strip() {
  static const Strip made;
  return made;
}

const auto outside_opening = Contains(Field(&Flag::code, "outside-opening"));

TEST(BesideTheStrip, RegionsInMillimetresAreReadNearTheTruth) {
  const std::string regions =
      strip().folder.write("regions.json", regions_json(scenes::true_regions(strip().scene)));
  const Record record = strip().record({"--regions", regions});
  const auto& truths = strip().scene.specimens;
  ASSERT_EQ(record.readings.size(), truths.size());
  double worst = 0;
  for (std::size_t i = 0; i < truths.size(); ++i) {
    const Reading& reading = record.readings[i];
    ASSERT_FALSE(reading.refused) << reading.refused->message;
    worst = std::max(worst, difference_ciede2000(reading.lab, truths[i].as_seen) / reading.de00_expanded);
    EXPECT_THAT(reading.flags, Not(outside_opening)) << reading.id;
  }
  std::printf("%zu regions beside the strip: worst error %.2f of its tolerance\n", truths.size(), worst);
  // Six readings of one photo share its light: 95 % of them within is no more than a hope for one scene.
  EXPECT_LE(worst, 1.5);
}

TEST(BesideTheStrip, TheToleranceGrowsWithTheDistance) {
  const Record record = strip().record({"--region", "substrate@100,58,2", "--region", "substrate@100,118,2"});
  ASSERT_EQ(record.readings.size(), 2u);
  EXPECT_GT(record.readings[1].de00_expanded, 1.5 * record.readings[0].de00_expanded);
}

TEST(BesideTheStrip, TheStripItselfIsFlagged) {
  for (const char* on_sheet : {"spot@100,24,3", "spot@100,47,3"}) {
    const Record record = strip().record({"--region", on_sheet});
    ASSERT_EQ(record.readings.size(), 1u);
    EXPECT_THAT(record.readings[0].flags, outside_opening) << on_sheet;
  }
}

TEST(BesideTheStrip, WithoutARegionTheMessageTellsHowToGiveOne) {
  expect_refused(strip().call({}), {5, "untrustworthy", "no opening to look in"});
  EXPECT_THAT(run_tintfall(strip().call({})).err, HasSubstr("--region deposit@100,68,5"));
  EXPECT_EQ(strip().record({"--region", "deposit@100,68,5"}).readings.size(), 1u) << "what it says works";
}

TEST(BesideTheStrip, TooFarAwayIsRefused) {
  expect_refused(strip().call({"--region", "deposit@100,150,3"}),
                 {3, "unreadable-regions", "further than 100 mm from the edges"});
  expect_refused(strip().call({"--region", "deposit@100,1e9,3"}), {3, "unreadable-regions", "further than"});
}

}  // namespace
}  // namespace tintfall
