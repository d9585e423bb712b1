#include <gmock/gmock.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <algorithm>
#include <nlohmann/json.hpp>
#include <tests/viewer/command/command_run.hpp>
#include <viewer/command/commands.hpp>
#include <viewer/command/exit_status.hpp>

namespace tintfall {
namespace {

using testing::AllOf;
using testing::Eq;
using testing::Ge;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::StartsWith;

using Arguments = std::vector<std::string>;

/// A call that cannot be meant, and a word of the sentence that says why.
struct BadCall {
  Arguments arguments;
  std::string word;
};

std::string shown(const Arguments& arguments) {
  std::string text = "tintfall";
  for (const auto& argument : arguments) text += " " + argument;
  return text;
}

const std::vector<BadCall> bad_calls{
    {{}, "required"},
    {{"reed", "x.jpg"}, "reed"},
    {{"read"}, "PHOTO"},
    {{"read", "x.jpg", "--nonsense"}, "nonsense"},
    {{"read", "x.jpg", "--height", "tall"}, "--height was given 'tall', and a number in mm is needed"},
    {{"read", "x.jpg", "--jobs", "many"}, "many"},
    {{"name", "41", "20", "31", "--level", "fine"}, "fine"},
    {{"series", "x.jpg", "--interval", "3 s"},
     "--interval was given '3 s', and a number of seconds is needed"},
    {{"read", "x.jpg", "--quiet", "--verbose"}, "--quiet"},
    {{"read", "x.jpg", "--height", "-3"}, "height"},
    {{"read", "x.jpg", "--height", "nan"}, "height"},
    {{"read", "x.jpg", "--light", "candle"}, "candle"},
    {{"read", "x.jpg", "--level", "4"}, "level"},
    {{"read", "x.jpg", "--region", "deposit"}, "KIND@x,y,r"},
    {{"read", "x.jpg", "--region", "potato@1,2,3"}, "potato"},
    {{"read", "x.jpg", "--region", "deposit@1,2"}, "KIND@x,y,r"},
    {{"read", "x.jpg", "--region", "deposit@1,2,nan"}, "KIND@x,y,r"},
    {{"read", "x.jpg", "--region", "deposit@1,2,-3"}, "KIND@x,y,r"},
    {{"read", "x.jpg", "--region"}, "region"},
    {{"read", "x.jpg", "--corners", "1,1", "9,1", "9,9", "1,9"}, "chart"},
    {{"read", "x.jpg", "--chart", "frame-a5", "--corners", "1,1", "9,1", "9,9"}, "corners"},
    {{"read", "x.jpg", "--chart", "frame-a5", "--corners", "1,1", "9;1", "9,9", "1,9"}, "9;1"},
    {{"read", "x.jpg", "--sheet", "A5-03", "--chart", "frame-a5"}, "--sheet"},
    {{"read", "x.jpg", "--sheet", "A5-03", "--reference", "r.txt"}, "--sheet"},
    {{"read", "x.jpg", "--sheet", "never added"}, "never added"},
    {{"read", "x.jpg", "--overlay", "x.jpg"}, "input"},
    {{"read", "x.jpg", "--overlay", "-"}, "standard output"},
    {{"read", "x.jpg", "--overlay", "o.svg"}, "PNG only"},
    {{"read", "x.jpg", "y.jpg", "--overlay", "o.png"}, "2 photos"},
    {{"sheet"}, "required"},
    {{"sheet", "add", "A5-03"}, "chart"},
    {{"sheet", "remove", "never added"}, "never added"},
    {{"chart"}, "required"},
    {{"chart", "print", "frame-a5"}, "out"},
};

TEST(CommandLine, WrongCallsEndWithTwoAndOneSentence) {
  const ScratchFolder scratch;
  for (const auto& call : bad_calls) {
    SCOPED_TRACE(shown(call.arguments));
    const auto run = run_tintfall(call.arguments);
    EXPECT_THAT(run.status, Eq(2));
    EXPECT_THAT(run.out, IsEmpty());
    EXPECT_THAT(run.err, AllOf(StartsWith("tintfall: "), HasSubstr(call.word)));
    // A sentence and, on a second line, what to do.
    EXPECT_THAT(std::count(run.err.begin(), run.err.end(), '\n'), Eq(2)) << run.err;
  }
}

/// The words of `app` and of every command below it.
void add_paths(const CLI::App& app, Arguments path, std::vector<Arguments>& paths) {
  path.push_back(app.get_name());
  for (const CLI::App* below : app.get_subcommands({})) add_paths(*below, path, paths);
  paths.push_back(std::move(path));
}

// "tintfall chart --help" says nothing of what "tintfall chart transfer" lacks.
TEST(CommandLine, WrongCallsPointToTheHelpOfTheInnermostCommand) {
  const ScratchFolder scratch;
  std::vector<Arguments> paths;
  for (const auto& command : all_commands()) {
    CLI::App app("", std::string(command->name()));
    command->declare(app);
    add_paths(app, {}, paths);
  }
  const auto nested =
      std::count_if(paths.begin(), paths.end(), [](const auto& path) { return path.size() > 1; });
  EXPECT_THAT(nested, Ge(15)) << "the nested commands were not found";
  for (const Arguments& path : paths) {
    Arguments call = path;
    call.push_back("--no-such-option");
    EXPECT_THAT(run_tintfall(call).err, HasSubstr("See '" + shown(path) + " --help' for what can be said."));
    call.back() = "--help";
    EXPECT_THAT(run_tintfall(call).status, Eq(0)) << shown(call);
  }
  EXPECT_THAT(run_tintfall({"chart", "transfer"}).err, HasSubstr("See 'tintfall chart transfer --help'"));
}

TEST(CommandLine, WrongCallsAnswerInJsonWhereItWasAskedFor) {
  const ScratchFolder scratch;
  const std::string kept = scratch.write("kept.json", "what was there");
  for (const auto& call : bad_calls) {
    if (call.arguments.empty() || call.arguments[0] != "read") continue;
    if (shown(call.arguments).find("--json") != std::string::npos) continue;
    SCOPED_TRACE(shown(call.arguments));
    Arguments arguments = call.arguments;
    arguments.insert(arguments.begin() + 1, {"--json", "-"});
    const auto to_output = run_tintfall(arguments);
    EXPECT_THAT(to_output.status, Eq(2));
    const auto json = nlohmann::json::parse(to_output.out, nullptr, false);
    ASSERT_FALSE(json.is_discarded()) << to_output.out;
    EXPECT_THAT(json["error"]["code"], Eq("bad-call"));
    EXPECT_THAT(json["error"]["message"].get<std::string>(), HasSubstr(call.word));
    EXPECT_THAT(json["error"]["advice"].get<std::string>(), Not(IsEmpty()));

    arguments[2] = kept;
    const auto to_file = run_tintfall(arguments);
    EXPECT_THAT(to_file.status, Eq(2));
    EXPECT_THAT(to_file.out, IsEmpty());
    EXPECT_FALSE(nlohmann::json::parse(to_file.err, nullptr, false).is_discarded()) << to_file.err;
    EXPECT_THAT(scratch.read("kept.json"), Eq("what was there"));
  }
}

TEST(CommandLine, AnOutputNeverReplacesAnInputUnderAnotherName) {
  const ScratchFolder scratch;
  const std::string photo = scratch.write("a.png", "not looked into");
  std::filesystem::create_symlink(photo, scratch.path("link.png"));
  for (const char* option : {"--json", "--overlay"}) {
    const auto run = run_tintfall({"read", photo, option, scratch.path("link.png")});
    EXPECT_THAT(run.status, Eq(2)) << option;
    EXPECT_THAT(run.err, HasSubstr("one of the inputs")) << option;
  }
  EXPECT_THAT(scratch.read("a.png"), Eq("not looked into"));
}

TEST(CommandLine, ASeriesTakesNoOptionThatItWouldIgnore) {
  const ScratchFolder scratch;
  const std::string photo = scratch.write("a.jpg", "a photo");
  const std::string scale = scratch.write("scale.csv", "name,L,a,b\nrust,42,20,30\n");
  const std::vector<std::vector<std::string>> ignored{
      {"--level", "1"}, {"--of", "bruise"}, {"--tolerance", "2"}, {"--scale", scale}, {"--jobs", "5"}};
  for (const std::string command : {"series", "watch"})
    for (const auto& option : ignored) {
      std::vector<std::string> call{command, command == "watch" ? scratch.path("") : photo, "--region",
                                    "spot@105,74,4"};
      call.insert(call.end(), option.begin(), option.end());
      const auto run = run_tintfall(call);
      EXPECT_THAT(run.status, Eq(2)) << command << ' ' << option.front();
      // watch takes the value for a second folder first.
      if (command == "series") {
        EXPECT_THAT(run.err, HasSubstr(option.front()));
      }
    }
}

TEST(CommandLine, APhotoAfterJsonIsNotTakenForItsOutput) {
  const ScratchFolder scratch;
  const auto run =
      run_tintfall({"read", "--json", scratch.write("a.jpg", "a photo"), scratch.write("b.jpg", "another")});
  EXPECT_THAT(run.status, Eq(2));
  EXPECT_THAT(
      run.err,
      AllOf(HasSubstr("looks like a photo"),
            HasSubstr("Name the file to write right after --json, with an ending that no photo has.")));
  EXPECT_THAT(scratch.read("a.jpg"), Eq("a photo"));
  // Where no option stands before it, the name of the command does.
  EXPECT_THAT(run_tintfall({"catalogue", "backup", "photo.jpg"}).err,
              HasSubstr("Name the file to write right after backup, with an ending that no photo has."));
}

// What nobody receives is not done: a summary that is lost has to be told like a file that is.
TEST(CommandLine, AFullStandardOutputIsAFailure) {
  for (const Arguments& arguments :
       {Arguments{"name", "41", "20", "31"}, {"chart", "list"}, {"--help"}, {"sheet", "list"}}) {
    std::istringstream in;
    std::ofstream full("/dev/full");
    std::ostringstream err;
    Streams streams{in, full, err, false, false};
    EXPECT_THAT(run_command_line(arguments, streams), Eq(status_input)) << shown(arguments);
    EXPECT_THAT(err.str(), HasSubstr("Writing to standard output failed")) << shown(arguments);
  }
}

TEST(CommandLine, HelpTellsEveryCommandAndTheCaution) {
  const auto run = run_tintfall({"--help"});
  EXPECT_THAT(run.status, Eq(0));
  EXPECT_THAT(run.err, IsEmpty());
  for (const char* command : {"read", "name", "scale", "chart", "sheet", "catalogue"})
    EXPECT_THAT(run.out, HasSubstr(command));
  EXPECT_THAT(run.out, HasSubstr("never tells whether a mushroom is safe to eat"));
}

TEST(CommandLine, HelpOfReadCarriesCautionAndUnits) {
  const auto run = run_tintfall({"read", "--help"});
  EXPECT_THAT(run.status, Eq(0));
  EXPECT_THAT(run.out, AllOf(HasSubstr("tintfall read [OPTIONS] PHOTO"), HasSubstr("safe to eat"),
                             HasSubstr("working names"), HasSubstr("in mm"), HasSubstr("in pixels")));
}

TEST(CommandLine, HelpOfWhatReadsReagentSpotsCarriesTheirCaution) {
  for (const char* command : {"read", "series", "watch"})
    EXPECT_THAT(run_tintfall({command, "--help"}).out,
                AllOf(HasSubstr("Reagents burn"), HasSubstr("safety data sheet")))
        << command;
}

TEST(CommandLine, HelpWinsOverWhatIsMissing) {
  EXPECT_THAT(run_tintfall({"chart", "print", "-h"}).status, Eq(0));
}

TEST(CommandLine, VersionIsOneLine) {
  const auto run = run_tintfall({"--version"});
  EXPECT_THAT(run.status, Eq(0));
  EXPECT_THAT(run.out, testing::MatchesRegex("tintfall [0-9]+\\.[0-9]+\\.[0-9]+\n"));
}

TEST(ExitStatus, FollowsTheKindOfFailure) {
  using colorlib::ErrorCode;
  EXPECT_THAT(exit_status(ErrorCode::bad_call), Eq(2));
  for (const auto code :
       {ErrorCode::unreadable_photo, ErrorCode::unsupported_photo, ErrorCode::unreadable_chart,
        ErrorCode::unreadable_reference, ErrorCode::unreadable_regions, ErrorCode::unreadable_record,
        ErrorCode::unreadable_table, ErrorCode::cannot_write})
    EXPECT_THAT(exit_status(code), Eq(3)) << colorlib::code_name(code);
  EXPECT_THAT(exit_status(ErrorCode::chart_not_found), Eq(4));
  EXPECT_THAT(exit_status(ErrorCode::untrustworthy), Eq(5));
  EXPECT_THAT(exit_status(ErrorCode::cancelled), Eq(5));
}

}  // namespace
}  // namespace tintfall
