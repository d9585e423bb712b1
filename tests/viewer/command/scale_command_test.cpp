#include <gmock/gmock.h>

#include <nlohmann/json.hpp>
#include <tests/viewer/command/command_run.hpp>

namespace tintfall {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::Eq;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr const char* plate = "name,L,a,b\nA,50,0,0\nB,51,0,0\nC,60,0,0\nA,70,0,0\n";

TEST(ScaleCommand, ChecksAScale) {
  const ScratchFolder scratch;
  const auto run = run_tintfall({"scale", "check", scratch.write("plate.csv", plate)});
  EXPECT_THAT(run.status, Eq(0));
  EXPECT_THAT(run.err, IsEmpty());
  EXPECT_THAT(run.out,
              AllOf(HasSubstr("plate: 4 colours (CIELAB, D50, CIE 1931 2 degree observer)"),
                    HasSubstr("'A' stands in lines 2 and 5"), HasSubstr("'A' (line 2) and 'B' (line 3)"),
                    HasSubstr("between 'B' (line 3) and 'C' (line 4)")));
  EXPECT_THAT(run_tintfall({"scale", "check", scratch.write("one.csv", "name,L,a,b\nA,50,0,0\n")}).out,
              HasSubstr("no duplicates"));
}

TEST(ScaleCommand, WritesJson) {
  const ScratchFolder scratch;
  const auto first = scratch.write("plate.csv", plate),
             second = scratch.write("one.csv", "# illuminant: D65\nname,L,a,b\nA,50,0,0\n");
  const auto run = run_tintfall({"scale", "check", first, second, "--tolerance", "0.5", "--json", "-"});
  EXPECT_THAT(run.status, Eq(0));
  const auto object = json::parse(run.out);
  EXPECT_EQ(object["tolerance_de00"], 0.5);
  ASSERT_EQ(object["scales"].size(), 2u);
  EXPECT_EQ(object["scales"][0]["entries"], 4);
  EXPECT_EQ(object["scales"][0]["findings"][0]["kind"], "duplicate-name");
  EXPECT_EQ(object["scales"][0]["findings"][0]["second_line"], 5);
  EXPECT_THAT(object["scales"][1]["remark"].get<std::string>(), HasSubstr("D65"));
}

TEST(ScaleCommand, RefusesWhatIsNoScale) {
  const ScratchFolder scratch;
  const auto broken = scratch.write("broken.csv", "name,L,a,b\nA,50,0\n");
  const auto run = run_tintfall({"scale", "check", broken});
  EXPECT_THAT(run.status, Eq(3));
  EXPECT_THAT(run.err, AllOf(HasSubstr("broken.csv"), HasSubstr("line 2")));
  EXPECT_THAT(run_tintfall({"scale", "check", scratch.path("missing.csv")}).status, Eq(3));
  EXPECT_THAT(run_tintfall({"scale"}).status, Eq(2));
  EXPECT_THAT(run_tintfall({"scale", "check"}).status, Eq(2));
  EXPECT_THAT(run_tintfall({"scale", "check", broken, "--tolerance", "x"}).status, Eq(2));
  const auto as_json = run_tintfall({"scale", "check", broken, "--json", "-"});
  EXPECT_EQ(json::parse(as_json.out)["error"]["code"], "unreadable-table");
}

}  // namespace
}  // namespace tintfall
