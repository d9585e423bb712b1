#include <gmock/gmock.h>

#include <colorlib/records/record_json.hpp>
#include <colorlib/records/series_record.hpp>
#include <filesystem>
#include <fstream>
#include <set>
#include <tests/colorlib/records/example_series.hpp>
#include <tests/colorlib/records/schema_check.hpp>

namespace colorlib {
namespace {

using nlohmann::json;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

json schema() {
  std::ifstream stream(std::string(TINTFALL_SOURCE_FOLDER) + "/docs/reference/record.schema.json");
  return json::parse(stream);
}

TEST(RecordSchema, FitsEveryRecordWritten) {
  for (const Record& record : {full_record(), bare_record()})
    EXPECT_THAT(schema_violations(json::parse(record_json(record)), schema()), IsEmpty());
  constexpr std::uint64_t first_seed = 7, trials = 50;
  for (std::uint64_t seed = first_seed; seed < first_seed + trials; ++seed)
    ASSERT_THAT(schema_violations(json::parse(record_json(random_record(seed))), schema()), IsEmpty())
        << "seed " << seed;
}

TEST(RecordSchema, FitsTheRecordsOfTheDemoRound) {
  int records = 0;
  const std::string folder = std::string(TINTFALL_SOURCE_FOLDER) + "/docs/demo/exchange_1/readings";
  for (const auto& file : std::filesystem::directory_iterator(folder)) {
    std::ifstream stream(file.path());
    EXPECT_THAT(schema_violations(json::parse(stream), schema()), IsEmpty()) << file.path().filename();
    ++records;
  }
  EXPECT_EQ(records, 36);
}

TEST(RecordSchema, DescribesEveryKeyWritten) {
  EXPECT_THAT(undescribed_members(json::parse(record_json(full_record())), schema()), IsEmpty());
}

TEST(RecordSchema, FitsEverySeriesWritten) {
  std::set<std::string> models;
  const auto check = [&](const SeriesRecord& series, const std::string& name) {
    const json record = json::parse(series_json(series));
    EXPECT_THAT(schema_violations(record, schema()), IsEmpty()) << name;
    EXPECT_THAT(undescribed_members(record, schema()), IsEmpty()) << name;
    models.insert(record["spots"][0]["kinetics"]["model"]);
  };
  for (const InventedCourse& course : invented_courses())
    check(series_record(course, geometric_s), course.name);
  check(series_record(course_named("R4"), {-5, 3, 60}), "three frames");
  check(series_record(course_named("R4"), {4, 10, 20, 30, 60, 120}), "begun too late");
  EXPECT_THAT(models, testing::IsSupersetOf({"first-order", "fading", "none"}));

  json broken = json::parse(series_json(series_record(course_named("R4"), geometric_s)));
  broken["spots"][0]["kinetics"]["model"] = "magic";
  EXPECT_THAT(schema_violations(broken, schema()), Not(IsEmpty()));
  broken = json::parse(series_json(series_record(course_named("R4"), geometric_s)));
  broken["zero"] = "noon";
  EXPECT_THAT(schema_violations(broken, schema()), ElementsAre(HasSubstr("zero")));
}

TEST(RecordSchema, FindsWhatIsWrong) {
  const json sound = json::parse(record_json(full_record()));
  const auto broken = [&](const char* pointer, const json& value) {
    json record = sound;
    record[json::json_pointer(pointer)] = value;
    return schema_violations(record, schema());
  };
  EXPECT_THAT(broken("/version", 2), Not(IsEmpty()));
  EXPECT_THAT(broken("/readings/0/lab", {1, 2}), Not(IsEmpty()));
  EXPECT_THAT(broken("/readings/0/kind", "potato"), Not(IsEmpty()));
  EXPECT_THAT(broken("/readings/0/name_confidence", 1.5), Not(IsEmpty()));
  EXPECT_THAT(broken("/readings/0/pixels", -1), Not(IsEmpty()));
  EXPECT_THAT(broken("/readings/0/refused", {{"code", "x"}, {"message", ""}, {"advice", ""}}), Not(IsEmpty()))
      << "a reading is a colour or a refusal, not both";
  EXPECT_THAT(broken("/photo/captured", "yesterday"), ElementsAre(HasSubstr("captured")));
  EXPECT_THAT(broken("/flags", {"Too Loud"}), ElementsAre(HasSubstr("flags[0]")));
}

TEST(RecordSchema, CheckerDoesNotPassOverKeywords) {
  EXPECT_THAT(schema_violations(1, json{{"multipleOf", 2}}), ElementsAre(HasSubstr("multipleOf")));
}

}  // namespace
}  // namespace colorlib
