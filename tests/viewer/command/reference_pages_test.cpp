/// The pages of docs/reference say what the program does: every option and every error code stands there.
#include <gmock/gmock.h>

#include <fmt/format.h>

#include <colorlib/base/result.hpp>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <tests/viewer/command/command_run.hpp>
#include <viewer/command/exit_status.hpp>

namespace tintfall {
namespace {

using testing::Gt;
using testing::HasSubstr;

std::string page(const std::string& name) {
  std::ifstream stream(std::string(TINTFALL_SOURCE_FOLDER) + "/docs/reference/" + name);
  EXPECT_TRUE(stream) << name;
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// The long options that a help text lists.
std::set<std::string> options_of(const std::vector<std::string>& command) {
  std::vector<std::string> call = command;
  call.push_back("--help");
  const std::string help = run_tintfall(call).out;
  const std::regex option("(^|\n)  (-[a-z],)?(--[a-z][a-z-]*)");
  std::set<std::string> found;
  for (auto match = std::sregex_iterator(help.begin(), help.end(), option); match != std::sregex_iterator();
       ++match)
    found.insert((*match)[3]);
  return found;
}

TEST(ReferencePages, AWatchedFolderIsCalledAFolder) {
  const std::string help = run_tintfall({"watch", "--help"}).out;
  EXPECT_THAT(help, HasSubstr("FOLDER REQUIRED"));
  EXPECT_THAT(help, testing::Not(HasSubstr("PHOTO FOLDER")));
  EXPECT_THAT(run_tintfall({"watch"}).err, HasSubstr("FOLDER"));
}

/// One section (.SS) of the manual: a command, or options that several commands share.
struct ManualSection {
  std::string text;
  std::set<std::string> options;  ///< that have an entry of their own (.TP), not those that are mentioned
};

std::set<std::string> options_in(const std::string& line) {
  const std::regex option("--[a-z][a-z-]*");
  std::set<std::string> found;
  for (auto match = std::sregex_iterator(line.begin(), line.end(), option); match != std::sregex_iterator();
       ++match)
    found.insert(match->str());
  return found;
}

/// The sections by title, in lower case; arguments after it ("catalogue show NUMBER") are left out.
std::map<std::string, ManualSection> sections_of(const std::string& manual) {
  std::map<std::string, ManualSection> sections;
  std::string title;
  bool entry = false;
  std::istringstream lines(manual);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with(".SH ")) title.clear();
    if (line.starts_with(".SS ")) {
      title = line.substr(4, line.find(" \\f") - 4);
      EXPECT_FALSE(sections.contains(title)) << title;
      sections[title];
    } else if (!title.empty()) {
      sections[title].text += line + "\n";
      if (entry) sections[title].options.merge(options_in(line));
    }
    entry = line == ".TP";
  }
  return sections;
}

/// What the manual says that the command takes: in its section, in that of its family ("catalogue"), and in
/// sections of shared options that its own names in bold and quotes.
std::set<std::string> documented(const std::vector<std::string>& command,
                                 const std::map<std::string, ManualSection>& sections) {
  std::set<std::string> options;
  const auto take = [&](const std::string& title) {
    if (const auto section = sections.find(title); section != sections.end())
      options.insert(section->second.options.begin(), section->second.options.end());
  };
  const std::string name = fmt::format("{}", fmt::join(command, " "));
  take(name);
  take(command.front());
  for (const auto& [title, section] : sections)
    if (sections.at(name).text.find("\"" + title + "\"") != std::string::npos) take(title);
  return options;
}

TEST(ReferencePages, TheManualHasTheOptionsOfEachCommandAndNoOthers) {
  std::string manual = page("tintfall.1.in");
  for (std::size_t at; (at = manual.find("\\-")) != std::string::npos;) manual.erase(at, 1);
  for (const auto& option : options_of({})) EXPECT_THAT(manual, HasSubstr(option));
  const auto sections = sections_of(manual);
  std::size_t seen = 0;
  const std::vector<std::vector<std::string>> commands{{"read"},
                                                       {"name"},
                                                       {"compare"},
                                                       {"round", "report"},
                                                       {"series"},
                                                       {"watch"},
                                                       {"scale", "check"},
                                                       {"chart", "list"},
                                                       {"chart", "print"},
                                                       {"chart", "transfer"},
                                                       {"chart", "fading"},
                                                       {"sheet", "add"},
                                                       {"sheet", "list"},
                                                       {"sheet", "remove"},
                                                       {"catalogue", "add"},
                                                       {"catalogue", "list"},
                                                       {"catalogue", "show"},
                                                       {"catalogue", "find"},
                                                       {"catalogue", "edit"},
                                                       {"catalogue", "remove"},
                                                       {"catalogue", "export"},
                                                       {"catalogue", "import"},
                                                       {"catalogue", "check"},
                                                       {"catalogue", "backup"}};
  for (const auto& command : commands) {
    const std::string name = fmt::format("{}", fmt::join(command, " "));
    ASSERT_TRUE(sections.contains(name)) << name;
    auto options = options_of(command);
    options.erase("--help");
    EXPECT_THAT(documented(command, sections), testing::ContainerEq(options)) << "of " << name;
    seen += options.size();
  }
  EXPECT_THAT(seen, Gt(200u)) << "the options were not found in the help texts";
}

TEST(ReferencePages, EveryErrorCodeStandsWithItsStatus) {
  using colorlib::ErrorCode;
  const std::string text = page("error_codes.md");
  for (int i = 0; i <= static_cast<int>(ErrorCode::cancelled); ++i) {
    const auto code = static_cast<ErrorCode>(i);
    EXPECT_THAT(text, HasSubstr(fmt::format("| `{}` | {} |", colorlib::code_name(code), exit_status(code))));
  }
}

}  // namespace
}  // namespace tintfall
