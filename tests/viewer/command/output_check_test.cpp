#include <gmock/gmock.h>

#include <tests/viewer/command/command_run.hpp>
#include <viewer/command/output_check.hpp>

namespace tintfall {
namespace {

using testing::Eq;
using testing::HasSubstr;

using Arguments = std::vector<std::string>;

std::string shown(const Arguments& arguments) {
  std::string text = "tintfall";
  for (const auto& argument : arguments) text += " " + argument;
  return text;
}

/// A call whose last argument is where its output goes, and the input that this output must not replace.
struct RiskyCall {
  Arguments arguments;
  std::string input;
};

class OutputCheck : public testing::Test {
 protected:
  void SetUp() override {
    // What stands in them is not looked at: the call is refused before.
    for (const char* name : {"photo.jpg", "t.csv", "ref.txt", "a.json", "b.json", "chart.json", "c.db"})
      scratch_.write(name, kept);
    scratch_.write("regions.json", R"({"format": "tintfall-regions", "version": 1, "frame": "chart",
      "regions": [{"id": "A", "kind": "spot", "shape": "ellipse", "centre": [105, 75], "radii": [4, 4]},
                  {"id": "B", "kind": "spot", "shape": "ellipse", "centre": [90, 75], "radii": [4, 4]}]})");
    std::filesystem::create_directory(scratch_.path("pictures"));
    scratch_.write("pictures/p.jpg", kept);
    const std::string demo = std::string(TINTFALL_SOURCE_FOLDER) + "/docs/demo/exchange_1";
    std::filesystem::copy(demo, scratch_.path("round"), std::filesystem::copy_options::recursive);
  }

  std::string at(const std::string& name) const { return scratch_.path(name); }

  std::vector<RiskyCall> calls() const {
    const std::string photo = at("photo.jpg"), table = at("t.csv");
    const Arguments read{"read", photo}, series{"series", photo, "--region", "spot@105,74,4"};
    std::vector<RiskyCall> calls;
    const auto with = [&](const Arguments& call, const std::string& input, const Arguments& more) {
      calls.push_back({call, input});
      calls.back().arguments.insert(calls.back().arguments.end(), more.begin(), more.end());
    };
    for (const char* option : {"--scale", "--words", "--fields", "--reference", "--regions"})
      with(read, table, {option, table, "--json"});
    for (const char* option : {"--protocol", "--times", "--bins", "--scale", "--words", "--fields"})
      with(series, table, {option, table, "--json"});
    for (const char* option : {"--protocol", "--times", "--bins"})
      with(series, table, {option, table, "--journal"});
    with({"read", photo, "--chart", at("chart.json")}, at("chart.json"), {"--json"});
    for (const char* option : {"--scale", "--words"})
      with({"name", "41", "20", "31"}, table, {option, table, "--json"});
    with({"scale", "check", table}, table, {"--json"});
    with({"compare", at("a.json"), at("b.json")}, at("a.json"), {"--json"});
    with({"compare", at("a.json"), "--reference", at("b.json")}, at("b.json"), {"--json"});
    for (const char* output : {"--json", "--page"}) {
      with({"round", "report", at("round/round.json")}, at("round/round.json"), {output});
      with({"round", "report", at("round/round.json")}, at("round/readings/QH-03-V-1.json"), {output});
    }
    with({"chart", "print", at("chart.json"), "--out", at("out.pdf")}, at("chart.json"), {"--json"});
    with({"chart", "fading", at("ref.txt"), table, "--chart", "frame-a5"}, at("ref.txt"), {"--json"});
    with({"chart", "transfer", photo, at("a.json"), at("b.json"), "--from", "frame-a5", "--from-reference",
          at("ref.txt"), "--to", "strip"},
         at("ref.txt"), {"--out"});
    for (const char* what : {"list", "check"})
      with({"catalogue", what, "--catalogue", at("c.db")}, at("c.db"), {"--json"});
    with({"catalogue", "export", "--catalogue", at("c.db"), "--format", "csv"}, at("c.db"), {"--out"});
    with({"catalogue", "export", "--catalogue", at("c.db"), "--format", "pdf", "--pictures", at("pictures")},
         at("pictures/p.jpg"), {"--out"});
    return calls;
  }

  static constexpr const char* kept = "kept as it was";
  const ScratchFolder scratch_;
};

TEST_F(OutputCheck, NoCommandReplacesOneOfItsInputs) {
  for (const RiskyCall& call : calls()) {
    const std::string name = std::filesystem::path(call.input).filename().string();
    const auto folder = std::filesystem::path(call.input).parent_path();
    const std::string hard = at("hard " + name), soft = at("soft " + name);
    std::filesystem::create_hard_link(call.input, hard);
    std::filesystem::create_symlink(call.input, soft);
    std::ifstream stream(call.input, std::ios::binary);
    const std::string before{std::istreambuf_iterator<char>(stream), {}};
    for (const std::string& output : {call.input, (folder / "." / name).string(), hard, soft}) {
      auto arguments = call.arguments;
      arguments.push_back(output);
      SCOPED_TRACE(shown(arguments));
      const auto run = run_tintfall(arguments);
      EXPECT_THAT(run.status, Eq(2)) << run.err;
      EXPECT_THAT(run.err, HasSubstr("one of the inputs"));
      std::ifstream again(call.input, std::ios::binary);
      EXPECT_THAT(std::string(std::istreambuf_iterator<char>(again), {}), Eq(before));
    }
    std::filesystem::remove(hard);
    std::filesystem::remove(soft);
  }
}

TEST_F(OutputCheck, TheListOfSheetsIsAnInputOfItsCommand) {
  const std::string sheets = at("settings/tintfall/sheets.json");
  const auto run = run_tintfall({"sheet", "list", "--json", sheets});
  EXPECT_THAT(run.status, Eq(2));
  EXPECT_THAT(run.err, HasSubstr("one of the inputs"));
}

TEST_F(OutputCheck, TwoOutputsNeverGoToOneFile) {
  const std::string photo = at("photo.jpg"), one = at("new.png"), svg = at("new.svg");
  const std::vector<std::pair<Arguments, std::string>> calls{
      {{"read", photo, "--json", one, "--overlay", one}, "--json and --overlay"},
      {{"read", photo, "--json", one, "--overlay", at("./new.png")}, "--json and --overlay"},
      {{"read", photo, "--icc", one, "--overlay", one}, "--overlay and --icc"},
      {{"read", photo, "--save", "--json", photo + ".reading.json"}, "--json and --save"},
      {{"series", photo, "--region", "spot@105,74,4", "--plot", svg, "--json", svg}, "--json and --plot"},
      {{"series", photo, "--region", "spot@105,74,4", "--plot", one, "--strip", one}, "--plot and --strip"},
      {{"series", photo, "--region", "spot@105,74,4", "--journal", one, "--json", one},
       "--json and --journal"},
      {{"series", photo, "--regions", at("regions.json"), "--plot", svg, "--json", at("new-B.svg")},
       "--json and --plot"},
      {{"chart", "print", "frame-a5", "--out", svg, "--json", svg}, "--out and --json"},
      {{"round", "report", at("round/round.json"), "--page", at("new.pdf"), "--json", at("new.pdf")},
       "--json and --page"},
  };
  const auto entries = scratch_.entries();
  for (const auto& [arguments, options] : calls) {
    SCOPED_TRACE(shown(arguments));
    const auto run = run_tintfall(arguments);
    EXPECT_THAT(run.status, Eq(2)) << run.err;
    EXPECT_THAT(run.err, HasSubstr(options + " write to the same file"));
  }
  EXPECT_THAT(scratch_.entries(), Eq(entries)) << "nothing was written";
}

TEST_F(OutputCheck, DevicesAndPipesLoseNothing) {
  EXPECT_TRUE(check_kept_apart({{"/dev/null"}, {{"--json", "/dev/null"}, {"--overlay", "/dev/null"}}}));
  EXPECT_TRUE(check_kept_apart({{""}, {{"--json", ""}, {"--overlay", ""}, {"--icc", "-"}, {"--page", "-"}}}));
}

TEST_F(OutputCheck, PhotosOfOneNameAreNotMixedUp) {
  std::filesystem::create_directories(at("left"));
  std::filesystem::create_directories(at("right"));
  const std::string left = scratch_.write("left/p.jpg", "a photo"),
                    right = scratch_.write("right/p.jpg", "two");
  const std::string fields = scratch_.write("fields.csv", "photo,item\np.jpg,QH-03\nq.jpg,QH-04\n");
  for (const Arguments& more : {Arguments{"--overlays", at("overlays")}, Arguments{"--fields", fields}}) {
    Arguments call{"read", left, right};
    call.insert(call.end(), more.begin(), more.end());
    const auto run = run_tintfall(call);
    EXPECT_THAT(run.status, Eq(2)) << shown(call);
    EXPECT_THAT(run.err,
                HasSubstr("Two photos of different folders are called 'p.jpg', and " + more.front()));
  }
  EXPECT_FALSE(scratch_.has("overlays"));
  // One photo by two paths is no two photos: it gets as far as being read, and is none.
  const auto same = run_tintfall({"read", left, at("left/../left/p.jpg"), "--fields", fields});
  EXPECT_THAT(same.status, Eq(3)) << same.err;
}

}  // namespace
}  // namespace tintfall
