#include <gtest/gtest.h>

#include <colorlib/base/data_folder.hpp>
#include <colorlib/specimen/flags.hpp>
#include <fstream>
#include <set>
#include <sstream>

namespace colorlib {
namespace {

TEST(Flags, EachHasAdviceAndStandsOnce) {
  std::set<std::string> codes;
  for (const auto& known : known_flags()) {
    EXPECT_TRUE(codes.insert(known.code).second) << known.code;
    EXPECT_FALSE(known.advice.empty());
    EXPECT_EQ(flag(known.code).advice, known.advice);
  }
}

TEST(Flags, EachIsExplainedInTheDocs) {
  std::ifstream file(std::string(TINTFALL_SOURCE_FOLDER) + "/docs/reference/flags.md");
  std::stringstream text;
  text << file.rdbuf();
  for (const auto& known : known_flags())
    EXPECT_NE(text.str().find("`" + known.code + "`"), std::string::npos)
        << known.code << " is not in docs/reference/flags.md";
}

}  // namespace
}  // namespace colorlib
