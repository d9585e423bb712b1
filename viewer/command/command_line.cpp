#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <algorithm>
#include <exception>
#include <new>
#include <optional>
#include <viewer/command/command_line.hpp>
#include <viewer/command/commands.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/json_output.hpp>
#include <viewer/command/plain_stream.hpp>
#include <viewer/command/text_wrap.hpp>

namespace tintfall {
namespace {

using colorlib::Error;
using colorlib::ErrorCode;

/// What `--json` says, before or instead of a successful parse: a wrong call must answer there as well.
JsonTarget json_target_of(const std::vector<std::string>& arguments) {
  constexpr std::string_view option = "--json";
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const std::string& argument = arguments[i];
    if (argument == option && i + 1 < arguments.size()) return {arguments[i + 1]};
    if (argument.rfind("--json=", 0) == 0) return {argument.substr(option.size() + 1)};
  }
  return {};
}

/// One sentence out of what the parser says.
std::string sentence(std::string_view what) {
  std::string text(what);
  while (!text.empty() && (text.back() == '\n' || text.back() == ' ')) text.pop_back();
  std::replace(text.begin(), text.end(), '\n', ' ');
  if (!text.empty() && text.back() != '.') text += '.';
  return text;
}

/// What an option takes, by the name of its type in the help.
std::string_view needed_by(const CLI::App& command, const std::string& option) {
  const CLI::Option* known = command.get_option_no_throw(option);
  const std::string type = known != nullptr ? known->get_type_name() : std::string();
  for (const auto& [begin, words] :
       {std::pair("MM", "a number in mm"), std::pair("SECONDS", "a number of seconds"),
        std::pair("DE00", "a number in ΔE00"), std::pair("INT", "a whole number"),
        std::pair("UINT", "a whole number")})
    if (type.rfind(begin, 0) == 0) return words;
  return "a number";
}

/// The parser's "Could not convert: --height = tall", said in words; nothing when it says something else.
std::optional<std::string> no_number(const CLI::ParseError& problem, const CLI::App& command) {
  constexpr std::string_view begin = "Could not convert: ", between = " = ";
  const std::string_view said = problem.what();
  const auto middle = said.find(between);
  if (said.rfind(begin, 0) != 0 || middle == std::string_view::npos) return std::nullopt;
  const std::string option(said.substr(begin.size(), middle - begin.size()));
  return fmt::format("{} was given '{}', and {} is needed.", option, said.substr(middle + between.size()),
                     needed_by(command, option));
}

int wrong_call(const CLI::ParseError& problem, const CLI::App& app, const JsonTarget& target,
               Streams& streams) {
  // The innermost command that was chosen: its help lists what the call lacks.
  std::string command = app.get_name();
  const CLI::App* innermost = &app;
  for (auto chosen = app.get_subcommands(); !chosen.empty(); chosen = chosen.front()->get_subcommands()) {
    innermost = chosen.front();
    command += " " + innermost->get_name();
  }
  const auto number = no_number(problem, *innermost);
  return report_error({ErrorCode::bad_call, number ? *number : sentence(problem.what()),
                       fmt::format("See '{} --help' for what can be said.", command)},
                      target, streams);
}

/// What stands where a command should, when it is none; the parser would only say that one is required.
std::optional<Error> unknown_command(const std::vector<std::string>& arguments,
                                     const std::vector<std::unique_ptr<Command>>& commands) {
  if (arguments.empty() || arguments.front().rfind('-', 0) == 0) return std::nullopt;
  std::string known;
  for (const auto& command : commands) {
    if (command->name() == arguments.front()) return std::nullopt;
    known.append(known.empty() ? "" : ", ").append(command->name());
  }
  return Error{ErrorCode::bad_call,
               fmt::format("'{}' is no command; there are {}.", arguments.front(), known),
               "See 'tintfall --help' for what each does."};
}

int run_parsed(const std::vector<std::string>& arguments, Streams& streams) {
  CLI::App app(
      "Measures the colour of fungal deposits, reagent spots and bruises from photographs that show a "
      "printed chart.",
      "tintfall");
  app.set_version_flag("--version", "tintfall " TINTFALL_VERSION, "Print the version and leave");
  app.set_help_flag("-h,--help", "Print this help and leave");
  app.require_subcommand(1);
  app.footer("\n" + caution_text());

  auto commands = all_commands();
  std::vector<CLI::App*> apps;
  for (const auto& command : commands) {
    apps.push_back(app.add_subcommand(std::string(command->name()), std::string(command->summary())));
    command->declare(*apps.back());
    if (const std::string footer = apps.back()->get_footer(); footer.find("Caution") == std::string::npos)
      apps.back()->footer(footer + "\n\n" + caution_text());
  }

  const JsonTarget target = json_target_of(arguments);
  if (const auto unknown = unknown_command(arguments, commands))
    return report_error(*unknown, target, streams);
  try {
    auto reversed = arguments;
    std::reverse(reversed.begin(), reversed.end());
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    streams.out << app.help();
    return status_done;
  } catch (const CLI::CallForVersion& version) {
    streams.out << version.what() << '\n';
    return status_done;
  } catch (const CLI::ParseError& problem) {
    return wrong_call(problem, app, target, streams);
  }
  for (std::size_t i = 0; i < apps.size(); ++i)
    if (apps[i]->parsed()) return commands[i]->run(streams);
  return status_bad_call;
}

/// What was said may still wait in the stream: only when it has gone out is the work done.
int delivered(int status, const JsonTarget& target, Streams& streams) {
  streams.out << std::flush;
  if (streams.out || status != status_done) return status;
  return report_error(standard_output_failed(), target.to_standard_output() ? JsonTarget{} : target, streams);
}

}  // namespace

int run_command_line(const std::vector<std::string>& arguments, Streams& given) {
  PlainStream out(given.out), err(given.err);
  Streams streams{given.in, out, err, given.colour, given.interactive};
  const JsonTarget target = json_target_of(arguments);
  try {
    return delivered(run_parsed(arguments, streams), target, streams);
  } catch (const std::bad_alloc&) {
    return report_error(
        {ErrorCode::untrustworthy, "The work needed more memory than there is, and was stopped.",
         "Close other programs, or use a smaller photo."},
        target, streams);
  } catch (const std::exception& problem) {
    return report_error(
        {ErrorCode::untrustworthy,
         fmt::format("The program made a mistake of its own and stopped: {}.", problem.what()),
         "Please report it with the call and, if possible, the files."},
        target, streams);
  }
}

}  // namespace tintfall
