#include <gtest/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <string>

namespace colorlib {
namespace {

namespace fs = std::filesystem;

const fs::path root = TINTFALL_SOURCE_FOLDER;

/// The first cell of every row of the bibliography's tables.
std::set<std::string> listed_keys() {
  std::set<std::string> keys;
  std::ifstream stream(root / "reference" / "bibliography.md");
  const std::regex row(R"(^\| ([A-Z][A-Za-z]*[0-9]{2,}|DwC) \|)");
  std::smatch match;
  for (std::string line; std::getline(stream, line);)
    if (std::regex_search(line, match, row)) {
      EXPECT_TRUE(keys.insert(match[1]).second) << match[1] << " stands twice";
    }
  return keys;
}

TEST(Bibliography, HoldsEveryKeyThatTheCodeCites) {
  const auto keys = listed_keys();
  ASSERT_GT(keys.size(), 20u);
  // A key is a capitalised word that ends in two digits or more, in brackets, in a comment.
  const std::regex citation(R"(//.*\[([A-Z][A-Za-z]*[0-9]{2,})(,[^\]]*)?\])");
  int citations = 0;
  for (const char* folder : {"colorlib", "viewer"})
    for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
      const auto extension = entry.path().extension();
      if (extension != ".cpp" && extension != ".hpp") continue;
      std::ifstream stream(entry.path());
      std::smatch match;
      for (std::string line; std::getline(stream, line);)
        if (std::regex_search(line, match, citation)) {
          ++citations;
          EXPECT_TRUE(keys.count(match[1])) << entry.path().filename() << " cites " << match[1];
        }
    }
  std::printf("%d citations in comments, %zu keys in the bibliography\n", citations, keys.size());
  EXPECT_GT(citations, 5);
}

}  // namespace
}  // namespace colorlib
