/// The pages of docs/reference say what the program does: every option and every error code stands there.
#include <gmock/gmock.h>

#include <fmt/format.h>

#include <colorlib/base/result.hpp>
#include <regex>
#include <set>
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

TEST(ReferencePages, TheManualHasEveryCommandAndOption) {
  std::string manual = page("tintfall.1.in");
  for (std::size_t at; (at = manual.find("\\-")) != std::string::npos;) manual.erase(at, 1);
  std::size_t seen = 0;
  const std::vector<std::vector<std::string>> commands{{},
                                                       {"read"},
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
                                                       {"catalogue", "add"},
                                                       {"catalogue", "list"},
                                                       {"catalogue", "show"},
                                                       {"catalogue", "find"},
                                                       {"catalogue", "edit"},
                                                       {"catalogue", "remove"},
                                                       {"catalogue", "export"},
                                                       {"catalogue", "import"},
                                                       {"catalogue", "check"},
                                                       {"catalogue", "backup"},
                                                       {"sheet", "remove"}};
  for (const auto& command : commands) {
    for (const auto& word : command) EXPECT_THAT(manual, HasSubstr(word));
    for (const auto& option : options_of(command)) {
      EXPECT_THAT(manual, HasSubstr(option)) << "of " << fmt::format("{}", fmt::join(command, " "));
      ++seen;
    }
  }
  EXPECT_THAT(seen, Gt(40u)) << "the options were not found in the help texts";
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
