#include <gmock/gmock.h>

#include <colorlib/base/json_nesting.hpp>
#include <string>

namespace colorlib {
namespace {

using testing::Eq;

TEST(JsonNesting, CountsListsAndObjectsTogether) {
  EXPECT_THAT(json_nesting(""), Eq(0));
  EXPECT_THAT(json_nesting("7"), Eq(0));
  EXPECT_THAT(json_nesting("[]"), Eq(1));
  EXPECT_THAT(json_nesting(R"({"a": [1, {"b": []}], "c": {}})"), Eq(4));
}

TEST(JsonNesting, BracketsInTextDoNotCount) {
  EXPECT_THAT(json_nesting(R"({"a[[[[": "]]]{{{"})"), Eq(1));
  EXPECT_THAT(json_nesting(R"(["\"[[[", "\\", [1]])"), Eq(2));
}

TEST(JsonNesting, AnythingIsTaken) {
  EXPECT_THAT(json_nesting("]]]]["), Eq(0));
  EXPECT_THAT(json_nesting("\"\\"), Eq(0));
  EXPECT_THAT(json_nesting(std::string(1'000'000, '[')), Eq(1'000'000));
}

}  // namespace
}  // namespace colorlib
