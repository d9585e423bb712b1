#include <gmock/gmock.h>

#include <tests/viewer/command/command_run.hpp>
#include <tuple>
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
    for (const char* option : {"--protocol", "--times", "--bins", "--words", "--fields"})
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
    with({"catalogue", "backup", "--catalogue", at("c.db")}, at("c.db"), {});
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
      {{"series", photo, "--region", "spot@105,74,4", "--journal", at("new.json"), "--json", at("new.json")},
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

/// Calls whose last argument is where their output goes; each names inputs that nobody reads before.
std::vector<Arguments> calls_that_write(const ScratchFolder& scratch) {
  const std::string photo = scratch.path("photo.jpg");
  const Arguments series{"series", photo, "--region", "spot@105,74,4"};
  const Arguments transfer{"chart",
                           "transfer",
                           photo,
                           scratch.path("a.json"),
                           scratch.path("b.json"),
                           "--from",
                           "frame-a5",
                           "--from-reference",
                           scratch.path("ref.txt"),
                           "--to",
                           "strip"};
  const Arguments catalogue{"--catalogue", scratch.path("c.db")};
  std::vector<Arguments> calls{
      {"read", photo, "--json"},
      {"read", photo, "--icc"},
      {"name", "41", "20", "31", "--json"},
      {"scale", "check", scratch.path("t.csv"), "--json"},
      {"compare", scratch.path("a.json"), scratch.path("b.json"), "--json"},
      {"round", "report", scratch.path("round/round.json"), "--json"},
      {"chart", "list", "--json"},
      {"chart", "print", "frame-a5", "--out", scratch.path("new.pdf"), "--json"},
      {"chart", "fading", scratch.path("ref.txt"), scratch.path("t.csv"), "--chart", "frame-a5", "--json"},
      {"sheet", "list", "--json"},
      {"catalogue", "list", "--catalogue", scratch.path("c.db"), "--json"},
      {"catalogue", "export", "--catalogue", scratch.path("c.db"), "--format", "csv", "--out"},
      {"catalogue", "backup", "--catalogue", scratch.path("c.db")}};
  for (const auto& [call, option] : {std::pair(series, "--json"), std::pair(series, "--journal"),
                                     std::pair(transfer, "--json"), std::pair(transfer, "--out")}) {
    calls.push_back(call);
    if (std::string(option) == "--json" && call.front() == "chart")
      calls.back().insert(calls.back().end(), {"--out", scratch.path("new.txt")});
    calls.back().push_back(option);
  }
  return calls;
}

TEST_F(OutputCheck, NoOutputIsNamedLikeAPhoto) {
  for (const char* name : {"p.jpg", "p.CR3", "p.nef", "p.arw", "p.png", "p.heic"}) {
    scratch_.write(name, kept);
    for (Arguments call : calls_that_write(scratch_)) {
      call.push_back(at(name));
      SCOPED_TRACE(shown(call));
      const auto run = run_tintfall(call);
      EXPECT_THAT(run.status, Eq(2)) << run.err;
      EXPECT_THAT(run.err, HasSubstr("looks like a photo"));
      EXPECT_THAT(scratch_.read(name), Eq(kept));
    }
  }
  // Pictures are drawn as PNG, whatever else ends so.
  const std::string picture = at("p.png");
  EXPECT_TRUE(check_names({{"--overlay", picture, OutputKind::picture}}));
  EXPECT_FALSE(check_names({{"--overlay", at("p.jpg"), OutputKind::picture}}));
}

TEST_F(OutputCheck, AWrongEndingIsToldTheRightOneEvenWhenItIsAPhotos) {
  const Arguments read{"read", at("photo.jpg"), "--overlay"},
      report{"round", "report", at("round/round.json"), "--page"};
  for (const auto& [call, name, advice] :
       {std::tuple(read, "foo.jpg", "End it in .png."), std::tuple(read, "foo.gif", "End it in .png."),
        std::tuple(report, "r.png", "End it in .pdf."), std::tuple(report, "r.txt", "End it in .pdf.")}) {
    Arguments arguments = call;
    arguments.push_back(at(name));
    SCOPED_TRACE(shown(arguments));
    const auto run = run_tintfall(arguments);
    EXPECT_THAT(run.status, Eq(2));
    EXPECT_THAT(run.err, HasSubstr(advice));
    EXPECT_FALSE(scratch_.has(name));
  }
}

TEST_F(OutputCheck, NothingIsWrittenToAFileCalledMinus) {
  const auto here = std::filesystem::current_path();
  std::filesystem::current_path(at(""));
  const std::string photo = at("photo.jpg");
  const Arguments transfer{"chart",       "transfer", photo,      at("a.json"),
                           at("b.json"),  "--from",   "frame-a5", "--from-reference",
                           at("ref.txt"), "--to",     "strip"};
  std::vector<Arguments> calls{{"read", photo, "--icc"},
                               {"read", photo, "--overlay"},
                               {"chart", "print", "frame-a5", "--out"},
                               {"round", "report", at("round/round.json"), "--page"},
                               {"catalogue", "backup", "--catalogue", at("c.db")}};
  for (const char* option : {"--journal", "--plot", "--strip"})
    calls.push_back({"series", photo, "--region", "spot@105,74,4", option});
  calls.push_back(transfer);
  calls.back().push_back("--out");
  for (Arguments call : calls) {
    call.push_back("-");
    SCOPED_TRACE(shown(call));
    const auto run = run_tintfall(call);
    EXPECT_THAT(run.status, Eq(2)) << run.err;
    EXPECT_FALSE(scratch_.has("-"));
  }
  std::filesystem::current_path(here);
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
