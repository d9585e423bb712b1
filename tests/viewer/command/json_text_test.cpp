#include <gmock/gmock.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <viewer/command/counted.hpp>
#include <viewer/command/json_text.hpp>

namespace tintfall {
namespace {

using nlohmann::ordered_json;
using testing::Eq;

TEST(JsonText, NumbersHaveNoDigitsThatMeanNothing) {
  EXPECT_THAT(json_text(rounded(0.1 + 0.2, 3), -1), Eq("0.3"));
  EXPECT_THAT(json_text(rounded(41.23456, 2), -1), Eq("41.23"));
  EXPECT_THAT(json_text(rounded(-0.0004, 3), -1), Eq("0.0"));
}

TEST(JsonText, HoldsNeitherNanNorBytesThatAreNoText) {
  EXPECT_THAT(json_text(ordered_json::array({rounded(NAN, 3), rounded(INFINITY, 3)}), -1), Eq("[null,null]"));
  EXPECT_THAT(json_text({{"name", "a\xff"}}, -1), Eq("{\"name\":\"a\xEF\xBF\xBD\"}"));
}

TEST(Counted, TakesThePluralWhereItBelongs) {
  EXPECT_THAT(counted(0, "record"), Eq("0 records"));
  EXPECT_THAT(counted(1, "record"), Eq("1 record"));
  EXPECT_THAT(counted(2, "record"), Eq("2 records"));
}

}  // namespace
}  // namespace tintfall
