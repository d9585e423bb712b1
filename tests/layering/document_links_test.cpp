// Links between the documents: a page that moved is noticed before a reader notices.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <regex>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

/// Targets of [text](target) and ![text](target) that are files of the tree, without their #anchor.
std::vector<std::string> local_links(const std::string& text) {
  static const std::regex link(R"(\]\(([^)\s#]+)(#[^)\s]*)?\))");
  std::vector<std::string> targets;
  for (auto it = std::sregex_iterator(text.begin(), text.end(), link); it != std::sregex_iterator(); ++it) {
    const std::string target = (*it)[1];
    if (target.find("://") == std::string::npos && !target.starts_with("mailto:")) targets.push_back(target);
  }
  return targets;
}

std::vector<fs::path> documents(const fs::path& root) {
  std::vector<fs::path> pages;
  for (const auto& entry : fs::directory_iterator(root))
    if (entry.path().extension() == ".md") pages.push_back(entry.path());
  for (const auto* folder : {"docs", "charts", "reference", "tests", "colorlib", "viewer"}) {
    if (!fs::exists(root / folder)) continue;
    for (const auto& entry : fs::recursive_directory_iterator(root / folder))
      if (entry.path().extension() == ".md") pages.push_back(entry.path());
  }
  return pages;
}

TEST(LocalLinks, AreFound) {
  EXPECT_EQ(local_links("see [a](docs/a.md#part), ![b](b.svg) and [c](https://example.org/c.md), [d](#here)"),
            (std::vector<std::string>{"docs/a.md", "b.svg"}));
}

TEST(Documents, LinkToFilesThatExist) {
  const fs::path root = TINTFALL_SOURCE_FOLDER;
  int links = 0;
  const auto pages = documents(root);
  for (const auto& page : pages) {
    std::ifstream stream(page, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
    for (const auto& target : local_links(text)) {
      ++links;
      EXPECT_TRUE(fs::exists(page.parent_path() / target))
          << page.lexically_relative(root).string() << " links to " << target << ", which is not there";
    }
  }
  std::cout << pages.size() << " pages, " << links << " links\n";
  EXPECT_GT(links, 20);
}

}  // namespace
