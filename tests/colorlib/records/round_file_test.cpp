#include <gmock/gmock.h>

#include <colorlib/base/json_nesting.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/records/record_lines.hpp>
#include <colorlib/records/round_file.hpp>
#include <nlohmann/json.hpp>
#include <random>
#include <tests/colorlib/records/example_records.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::HasSubstr;
using testing::SizeIs;

json sound() {
  return json::parse(
      R"({"format": "tintfall-round", "version": 1, "title": "T", "tolerance_de00": 2.5, "later": {"x": 1},
    "items": [{"id": "A", "title": "first", "reference": {"lab": [50, 1, 2], "lab_expanded": [0.6, 0.5, 0.4], "source": "s"}},
              {"id": "B", "reference": {"record": "ref/b.json", "reading": "W1"}}],
    "collectors": [{"id": "V", "name": "Vell", "camera": "raw", "light": "window"}, {"id": "Q"}],
    "readings": [{"item": "A", "collector": "V", "record": "./v/a.json"},
                 {"item": "B", "collector": "Q", "record": "q/b.json", "reading": "W1"}]})");
}

Result<Round> parsed(const json& round) { return parse_round(round.dump(), "round.json"); }

/// The sound file with `value` put at `pointer`, or taken out when null.
Result<Round> changed(const char* pointer, const json& value) {
  json round = sound();
  round[json::json_pointer(pointer)] = value;
  return parsed(round);
}

auto refused(const char* word) {
  return FailsWith(ErrorCode::unreadable_record, AllOf(HasSubstr("round.json"), HasSubstr(word)));
}

TEST(RoundFile, IsRead) {
  const auto round = parsed(sound());
  ASSERT_TRUE(round) << round.error().message;
  EXPECT_EQ(round->title, "T");
  EXPECT_EQ(round->tolerance_de00, 2.5);
  ASSERT_THAT(round->items, SizeIs(2));
  EXPECT_THAT(round->items[0].reference->lab, NearInDeltaE(Lab{50, 1, 2}, 1e-12));
  EXPECT_DOUBLE_EQ(round->items[0].reference->covariance(1, 1), 0.0625);
  EXPECT_EQ(round->items[1].reference->record, "ref/b.json");
  EXPECT_EQ(round->collectors[0].light, "window");
  EXPECT_EQ(round->entries[0].record, "v/a.json");
  EXPECT_EQ(round->entries[1].reading, "W1");
}

TEST(RoundFile, ComesBackAsWritten) {
  const auto once = parsed(sound());
  ASSERT_TRUE(once);
  const std::string text = round_json(*once);
  const auto again = parse_round(text, "again");
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ(round_json(*again), text);
}

TEST(RoundFile, SaysWhatIsWrongAndWhere) {
  EXPECT_THAT(parse_round("{", "round.json"), refused("not JSON"));
  EXPECT_THAT(parse_round("[]", "round.json"), refused("format"));
  EXPECT_THAT(parse_round("", "round.json"), refused("round.json"));
  EXPECT_THAT(changed("/format", "tintfall-record"), refused("tintfall-round"));
  EXPECT_THAT(changed("/version", 2), refused("version"));
  EXPECT_THAT(changed("/tolerance_de00", 0), refused("tolerance_de00"));
  EXPECT_THAT(changed("/tolerance_de00", "2"), refused("must be a number"));
  EXPECT_THAT(changed("/items", nullptr), refused("items is missing"));
  EXPECT_THAT(changed("/items/1", "B"), refused("items[1]"));
  EXPECT_THAT(changed("/items/1/id", "A"), refused("'A' stands twice"));
  EXPECT_THAT(changed("/items/0/id", ""), refused("items[0].id is empty"));
  EXPECT_THAT(changed("/collectors/1/id", "V"), refused("collectors[1].id 'V' stands twice"));
  EXPECT_THAT(changed("/readings/1/item", "C"), refused("'C' is not among the round's items"));
  EXPECT_THAT(changed("/readings/1/collector", "X"), refused("'X' is not among the round's collectors"));
  EXPECT_THAT(changed("/readings", json::array()), refused("holds no reading"));
  EXPECT_THAT(changed("/readings/1/record", ""), refused("is empty"));
  EXPECT_THAT(changed("/items/0/reference/lab", json{1, 2}), refused("reference.lab"));
  EXPECT_THAT(changed("/items/0/reference/lab_expanded", json{0.5, 0, 0.5}),
              refused("must be 0.001 to 1000"));
  EXPECT_THAT(changed("/items/0/reference", json{{"lab", {1, 2, 3}}}), refused("lab_expanded is missing"));
  EXPECT_THAT(changed("/items/0/reference/lab/0", 1e300), refused("beyond any meaningful number"));
}

TEST(RoundFile, KeepsToItsFolderAndCountsAReadingOnce) {
  for (const char* path : {"/etc/passwd", "../other/a.json", "a/../../b.json"})
    EXPECT_THAT(changed("/readings/1/record", path), refused("leads out of the round's folder")) << path;
  EXPECT_THAT(changed("/items/1/reference/record", "../x.json"), refused("items[1].reference.record"));
  json twice = sound();
  twice["readings"].push_back(twice["readings"][1]);
  EXPECT_THAT(parsed(twice), refused("readings[2] lists 'q/b.json' a second time"));
}

TEST(RoundFile, IsBounded) {
  json many = sound();
  for (std::size_t i = 0; i <= RoundLimits::entries; ++i)
    many["readings"].push_back({{"item", "A"}, {"collector", "V"}, {"record", fmt::format("r{}", i)}});
  EXPECT_THAT(parsed(many), refused("at most 20000 are taken"));
  std::string deep = R"({"format": "tintfall-round", "version": 1, "x": )";
  for (int i = 0; i < 100'000; ++i) deep += '[';
  EXPECT_THAT(parse_round(deep, "round.json"), refused("nested"));
  EXPECT_THAT(read_round("/nowhere/round.json"),
              FailsWith(ErrorCode::unreadable_record, HasSubstr("round.json")));
}

/// Texts that are nearly right: refused or read, in words, never worse.
TEST(RoundFile, StandsDamagedTexts) {
  const std::string text = sound().dump();
  std::mt19937_64 engine(41);
  int read = 0;
  constexpr int trials = 3000;
  for (int i = 0; i < trials; ++i) {
    std::string damaged = text;
    for (int k = 0; k <= i % 4; ++k) {
      const std::size_t at = engine() % damaged.size();
      if (i % 3 == 0)
        damaged.erase(at, 1 + engine() % 20);
      else
        damaged[at] = static_cast<char>(i % 3 == 1 ? engine() % 256 : "{}[]\",:0-e"[engine() % 10]);
      if (damaged.empty()) damaged = std::string(1, 0x20);
    }
    const auto round = parse_round(damaged, "round.json");
    read += round.has_value();
    if (!round) {
      ASSERT_FALSE(round.error().message.empty());
      ASSERT_FALSE(round.error().advice.empty());
    }
  }
  std::printf("%d of %d damaged texts could still be read, seed 41\n", read, trials);
}

TEST(RecordLines, HoldOneRecordOrSeveral) {
  const std::string one = record_json(full_record()), line = record_json(bare_record(), -1);
  EXPECT_THAT(*parse_records(one, "a"), SizeIs(1));
  EXPECT_THAT(*parse_records(line, "a"), SizeIs(1));
  EXPECT_THAT(*parse_records(line + "\n\n" + record_json(full_record(), -1) + "\r\n", "a"), SizeIs(2));
  EXPECT_THAT(parse_records(line + "\n{\"format\": 3}\n", "a"),
              FailsWith(ErrorCode::unreadable_record, HasSubstr("a (record 2)")));
  EXPECT_THAT(parse_records("", "a"), FailsWith(ErrorCode::unreadable_record, HasSubstr("'a'")));
  EXPECT_THAT(read_records("/nowhere/a.json"), FailsWith(ErrorCode::unreadable_record, HasSubstr("a.json")));
}

}  // namespace
}  // namespace colorlib
