#include <gmock/gmock.h>

#include <nlohmann/json.hpp>
#include <tests/support/color_matchers.hpp>
#include <tests/viewer/command/command_run.hpp>
#include <viewer/command/json_output.hpp>

namespace tintfall {
namespace {

using colorlib::Error;
using colorlib::ErrorCode;
using testing::Eq;
using testing::HasSubstr;
using testing::IsEmpty;

const Error blurred{ErrorCode::chart_not_found, "No sheet was found.", "Move closer."};

struct Told {
  std::ostringstream out, err;
  std::istringstream in;
  Streams streams{in, out, err, false, false};
};

TEST(ReportError, WithoutJsonSpeaksToThePerson) {
  Told told;
  EXPECT_THAT(report_error(blurred, {}, told.streams), Eq(4));
  EXPECT_THAT(told.out.str(), IsEmpty());
  EXPECT_THAT(told.err.str(), Eq("tintfall: No sheet was found.\n  Move closer.\n"));
}

TEST(ReportError, JsonOnStandardOutputIsTheObjectAlone) {
  Told told;
  EXPECT_THAT(report_error(blurred, {"-"}, told.streams), Eq(4));
  const auto json = nlohmann::json::parse(told.out.str());
  EXPECT_THAT(
      json,
      Eq(nlohmann::json::parse(
          R"({"error": {"code": "chart-not-found", "message": "No sheet was found.", "advice": "Move closer."}})")));
}

TEST(ReportError, JsonToAFileSendsTheObjectToStandardError) {
  Told told;
  EXPECT_THAT(report_error(blurred, {"never-made.json"}, told.streams, "a.jpg"), Eq(4));
  EXPECT_THAT(told.out.str(), IsEmpty());
  EXPECT_THAT(nlohmann::json::parse(told.err.str())["error"]["photo"], Eq("a.jpg"));
  EXPECT_FALSE(std::filesystem::exists("never-made.json"));
}

TEST(ErrorJson, NamesThatAreNoUtf8StayJson) {
  EXPECT_FALSE(
      nlohmann::json::parse(error_json({ErrorCode::unreadable_photo, "\xff\xfe", ""}), nullptr, false)
          .is_discarded());
}

TEST(WriteJson, FailuresLeaveTheOldFileAndNoOther) {
  const ScratchFolder scratch;
  Told told;
  EXPECT_THAT(write_json("{}", {scratch.path("no/folder/out.json")}, told.streams),
              colorlib::FailsWith(ErrorCode::cannot_write, HasSubstr("out.json")));
  ASSERT_TRUE(write_json("{}", {scratch.path("out.json")}, told.streams).has_value());
  EXPECT_THAT(scratch.read("out.json"), Eq("{}\n"));
  EXPECT_THAT(scratch.entries(), Eq(1));
}

TEST(WriteJson, AReaderThatIsGoneIsSaid) {
  Told told;
  told.out.setstate(std::ios::badbit);
  EXPECT_THAT(write_json("{}", {"-"}, told.streams),
              colorlib::FailsWith(ErrorCode::cannot_write, HasSubstr("standard output")));
}

}  // namespace
}  // namespace tintfall
