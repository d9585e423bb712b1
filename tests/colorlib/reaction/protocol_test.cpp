#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <colorlib/reaction/protocol.hpp>
#include <string>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

TEST(Protocol, ReadsBothForms) {
  const auto json = parse_protocol(
      R"({"reagent": "KOH", "strength": "5 %", "temperature_c": 14.5, "batch_age_days": "35", "damage": null})",
      "p.json");
  const auto csv = parse_protocol(
      "field;value\nreagent;KOH\nstrength;5 %\ntemperature_c;14,5\nbatch_age_days;35\n", "p.csv");
  for (const auto* protocol : {&json, &csv}) {
    ASSERT_TRUE(*protocol);
    EXPECT_EQ((*protocol)->reagent, "KOH");
    EXPECT_EQ((*protocol)->temperature_c, 14.5);
    EXPECT_EQ((*protocol)->batch_age_days, 35);
    EXPECT_THAT((*protocol)->tissue, IsEmpty());
    EXPECT_EQ(said_in(**protocol).size(), 4u);
  }
}

TEST(Protocol, UnknownFieldsAreKept) {
  const auto protocol = parse_protocol(R"({"reagent": "KOH", "weather": "fog", "moon": 3})", "p.json");
  ASSERT_TRUE(protocol);
  ASSERT_EQ(protocol->others.size(), 2u);
  EXPECT_THAT(protocol->others, Contains(std::pair<std::string, std::string>("weather", "fog")));
  std::string many = "field,value\n";
  for (int i = 0; i < 101; ++i) many.append("x").append(std::to_string(i)).append(",1\n");
  EXPECT_THAT(parse_protocol(many, "p.csv"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("more than 100")));
}

TEST(Protocol, WhatIsMissingIsAskedForNeverInvented) {
  const Protocol nothing;
  const auto missing = missing_from(nothing, true, false, false);
  for (const char* what : {"the reagent", "its strength", "its batch age", "the tissue", "fresh or dried",
                           "a water drop beside it"})
    EXPECT_THAT(missing, Contains(std::string(what)));
  EXPECT_THAT(missing_from(nothing, false, false, true), Not(Contains(HasSubstr("reagent"))));
  EXPECT_THAT(said_in(nothing), IsEmpty());
}

TEST(Protocol, RefusesByName) {
  EXPECT_THAT(parse_protocol(R"({"temperature_c": "warm"})", "p"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("'warm'")));
  EXPECT_THAT(parse_protocol(R"({"humidity_percent": 140})", "p"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("0 to 100")));
  EXPECT_THAT(parse_protocol("field,value\nzone,a\nzone,b\n", "p"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("second time")));
  EXPECT_THAT(parse_protocol(R"({"zone": ["a"]})", "p"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("neither text nor number")));
  EXPECT_THAT(parse_protocol("{", "p"), FailsWith(ErrorCode::unreadable_table, HasSubstr("no JSON")));
  EXPECT_THAT(parse_protocol(std::string(5000, '{'), "p"),
              FailsWith(ErrorCode::unreadable_table, HasSubstr("nests too deep")));
  EXPECT_FALSE(parse_protocol("", "p"));
}

}  // namespace
}  // namespace colorlib
