// The rules, asked of this very tree.
#include <gtest/gtest.h>

#include <iostream>
#include <tests/layering/include_rules.hpp>

namespace layering {
namespace {

TEST(Tree, KeepsItsRules) {
  const auto files = read_tree(TINTFALL_SOURCE_FOLDER);
  // An empty list would keep every rule: the base room alone has a dozen files.
  ASSERT_GT(files.size(), 50u);
  std::size_t includes = 0;
  for (const auto& file : files) includes += includes_of(file.text).size();
  std::cout << files.size() << " files, " << includes << " includes\n";
  const auto violations = violations_in(files);
  EXPECT_TRUE(violations.empty()) << listed(violations);
}

}  // namespace
}  // namespace layering
