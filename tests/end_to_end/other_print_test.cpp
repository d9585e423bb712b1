/// Reference values of another print of the same chart are noticed, and the sheet's own never taken for them.
#include <gmock/gmock.h>

#include <colorlib/records/record_json.hpp>
#include <tests/scenes/scene.hpp>
#include <tests/viewer/command/command_run.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using testing::Contains;
using testing::Field;
using testing::HasSubstr;
using testing::Not;

const std::string bare_paper = "substrate@105,113,2";  // between the opening and the patches below it
constexpr std::uint64_t first_seed = 301;
const auto other_print = Contains(Field(&Flag::code, "other-print"));

struct Printed {
  scenes::Scene scene;
  std::string photo, reference;
};

Printed printed(const ScratchFolder& folder, scenes::Condition condition, std::uint64_t seed,
                const ChartDefinition& chart) {
  Printed made{scenes::render(scenes::random_scene(condition, seed, scenes::Pool::tuning), chart), {}, {}};
  const std::string name = std::to_string(seed);
  made.photo = folder.write(name + ".jpg", made.scene.jpeg_bytes);
  made.reference = folder.write(name + ".txt", scenes::reference_text(made.scene, chart));
  return made;
}

Record read_with(const Printed& sheet, const std::string& reference) {
  const auto run = run_tintfall({"read", sheet.photo, "--chart", "frame-a5", "--reference", reference,
                                 "--region", bare_paper, "--json", "-"});
  EXPECT_EQ(run.status, 0) << run.out << run.err;
  return parse_record(run.out, "output").value_or(Record{});
}

TEST(OtherPrint, IsToldFromTheSheetsOwnValuesInAnyLight) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  const ScratchFolder folder;
  std::uint64_t seed = first_seed;
  // Lamps and soil are what makes a sheet's own values fit worst.
  for (const auto condition : {scenes::Condition::daylight_phone, scenes::Condition::lamp_phone,
                               scenes::Condition::soiled_paper, scenes::Condition::brightened_paper}) {
    const Printed one = printed(folder, condition, seed++, chart),
                  another = printed(folder, condition, seed++, chart);
    const Record own = read_with(one, one.reference), wrong = read_with(one, another.reference);
    std::printf("%s, seed %llu: own values met within dE00 %.2f, another print's %.2f\n",
                scenes::condition_name(condition).c_str(), static_cast<unsigned long long>(seed - 2),
                own.calibration.check_de00_mean, wrong.calibration.check_de00_mean);
    EXPECT_THAT(own.flags, Not(other_print));
    EXPECT_THAT(wrong.flags, other_print);
  }
}

TEST(OtherPrint, OfPhotosReadTogetherTheOnesOfAnotherPrintAreNamed) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  const ScratchFolder folder;
  const auto daylight = scenes::Condition::daylight_phone;
  const Printed one = printed(folder, daylight, first_seed, chart),
                another = printed(folder, daylight, first_seed + 1, chart);
  const std::vector<std::string> call{"read",        one.photo,     another.photo, "--together",
                                      "--reference", one.reference, "--region",    bare_paper};
  const auto run = run_tintfall(call);
  ASSERT_EQ(run.status, 0) << run.out << run.err;
  EXPECT_THAT(run.out, HasSubstr("worst of 2 photos, 302.jpg"));
  EXPECT_THAT(run.out, HasSubstr("other-print (302.jpg): "));

  auto to_json = call;
  to_json.insert(to_json.end(), {"--json", "-"});
  const auto record = parse_record(run_tintfall(to_json).out, "output");
  ASSERT_TRUE(record) << record.error().message;
  ASSERT_EQ(record->photos.size(), 2u);
  ASSERT_TRUE(record->photos[0].check && record->photos[1].check);
  EXPECT_GT(record->photos[1].check->de00_mean, 2 * record->photos[0].check->de00_mean);
  EXPECT_THAT(record->photos[1].check->flags, Contains("other-print"));
  EXPECT_THAT(record->photos[0].check->flags, Not(Contains("other-print")));
}

}  // namespace
}  // namespace tintfall
