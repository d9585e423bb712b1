#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/records/record_json.hpp>
#include <colorlib/specimen/flags.hpp>
#include <limits>
#include <nlohmann/json.hpp>
#include <random>
#include <tests/colorlib/records/example_records.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using nlohmann::json;
using testing::AllOf;
using testing::Eq;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

Record parsed(const std::string& text) {
  auto record = parse_record(text, "test.json");
  EXPECT_TRUE(record.has_value()) << record.error().message;
  return record.has_value() ? std::move(*record) : Record{};
}

TEST(RecordJson, HoldsWhatTheFormatPromises) {
  const json record = json::parse(record_json(full_record()));
  EXPECT_THAT(record["format"], Eq("tintfall-record"));
  EXPECT_THAT(record["version"], Eq(1));
  EXPECT_THAT(record["subject"]["item"], Eq("QH-03"));
  EXPECT_THAT(record["photo"]["captured"], Eq("2031-04-09T10:12:03.25+02:00"));
  EXPECT_THAT(record["chart"]["reference"], Eq("measured"));
  EXPECT_THAT(record["calibration"]["corners_px"][1][0], Eq(3999.25));
  const json& reading = record["readings"][0];
  EXPECT_THAT(reading["lab"], Eq(json({52.125, 14.25, -33.001})));
  EXPECT_THAT(reading["lab_expanded"], Eq(json({1.2, 0.9, 1.4})));
  EXPECT_THAT(reading["lab_covariance"][0][1], Eq(0.01));
  EXPECT_THAT(reading["name_confidence"], Eq(0.81));
  EXPECT_THAT(reading["alternatives"][0]["name"], Eq("light yellowish brown"));
  EXPECT_THAT(reading["trade_term"], Eq("ochre"));
  EXPECT_THAT(reading["flags"], Eq(json({"specular", "small-region"})));
  EXPECT_THAT(
      record["readings"][2]["refused"],
      Eq(json({{"code", "untrustworthy"}, {"message", "It is over-exposed."}, {"advice", "Expose less."}})));
  EXPECT_FALSE(record["readings"][2].contains("lab"));
}

TEST(RecordJson, MasstoneStandsBesideTheColourAsSeen) {
  const json record = json::parse(record_json(full_record()));
  const json& thin = record["readings"][3];
  EXPECT_THAT(thin["lab"], Eq(json({52.125, 14.25, -33.001})));
  EXPECT_THAT(thin["masstone"]["lab"], Eq(json({40.5, 12.25, 30.125})));
  EXPECT_THAT(thin["masstone"]["contrast_ratio"], Eq(0.7215));
  EXPECT_THAT(thin["masstone"]["with"], Eq("E"));
  const json& too_thin = record["readings"][4]["masstone"];
  EXPECT_THAT(too_thin["refused"]["message"], Eq("It is too thin."));
  EXPECT_THAT(too_thin["contrast_ratio"], Eq(0.31));
  EXPECT_FALSE(too_thin.contains("lab"));
  EXPECT_FALSE(record["readings"][0].contains("masstone"));

  const Record back = parsed(record_json(full_record()));
  ASSERT_TRUE(back.readings[3].layer);
  EXPECT_THAT(back.readings[3].layer->lab.b, Eq(30.125));
  EXPECT_THAT(back.readings[3].layer->words.trade_terms, testing::ElementsAre("rust"));
  ASSERT_TRUE(back.readings[4].layer && back.readings[4].layer->refused);
  EXPECT_THAT(back.readings[4].layer->refused->advice, Eq("Take a thicker one."));
}

TEST(RecordJson, AdviceComesBackWithTheCodesThatAreKnown) {
  Record written = full_record();
  written.flags = {{"assumed-profile", ""}, {"of-a-later-version", ""}};
  const Record back = parsed(record_json(written));
  ASSERT_THAT(back.flags.size(), Eq(2u));
  EXPECT_THAT(back.flags[0].advice, Eq(flag("assumed-profile").advice));
  EXPECT_THAT(back.flags[1].code, Eq("of-a-later-version"));
  EXPECT_THAT(back.flags[1].advice, IsEmpty());
  EXPECT_THAT(back.readings[0].flags[0].advice, Eq(flag("specular").advice));
}

TEST(RecordJson, AsWrittenHasTheRoundedFigures) {
  Record record = full_record();
  record.readings[0].lab.a = 4.74983;  // 4.7 to one decimal, and 4.750, as it is written, 4.8
  record.flags = {flag("assumed-profile")};
  const Record written = as_written(record);
  EXPECT_THAT(written.readings[0].lab.a, Eq(4.75));
  EXPECT_THAT(record_json(written), Eq(record_json(record)));
  EXPECT_THAT(written.flags[0].advice, Eq(record.flags[0].advice));
}

TEST(RecordJson, KeysStandInTheOrderOfTheFormat) {
  const std::string text = record_json(full_record(), -1);
  std::size_t last = 0;
  for (const char* key : {"\"format\"", "\"version\"", "\"subject\"", "\"photo\"", "\"chart\"",
                          "\"calibration\"", "\"readings\""}) {
    const auto place = text.find(key);
    ASSERT_NE(place, std::string::npos) << key;
    EXPECT_GE(place, last) << key;
    last = place;
  }
}

TEST(RecordJson, OneLineOrLaidOut) {
  EXPECT_THAT(record_json(full_record(), -1), Not(HasSubstr("\n")));
  EXPECT_THAT(record_json(full_record(), 2),
              AllOf(HasSubstr("\n  \"subject\""), HasSubstr("\"lab\": [52.125, 14.25, -33.001]")));
  EXPECT_THAT(json::parse(record_json(full_record(), 2)), Eq(json::parse(record_json(full_record(), -1))));
}

TEST(RecordJson, EverythingWrittenComesBack) {
  for (const Record& record : {full_record(), bare_record()})
    for (const int indent : {-1, 2}) {
      const std::string text = record_json(record, indent);
      EXPECT_THAT(record_json(parsed(text), indent), Eq(text));
    }
  const Record record = parsed(record_json(full_record()));
  EXPECT_THAT(record.readings[1].frame, Eq(RegionFrame::photo_px));
  EXPECT_THAT(record.readings[1].region.controls, testing::ElementsAre("A"));
  EXPECT_THAT(record.readings[2].refused->code, Eq(ErrorCode::untrustworthy));
  EXPECT_THAT(record.calibration.patches_dropped[1].second, Eq("dirt"));
  EXPECT_THAT(record.scales[0][0].matches[0].within, Eq(Answer::undecided));
  EXPECT_TRUE(record.photo.profile_assumed);
}

TEST(RecordJson, HoldsNoControlCharacterOfTheFilesItIsOf) {
  Record record = full_record();
  record.photo.name = "a\x1b[2J.jpg";
  record.photo.profile = "sRGB\xC2\x9B";
  record.photo.remarks = {"odd\x7f"};
  for (const int indent : {-1, 2}) {
    const Record back = parsed(record_json(record, indent));
    EXPECT_THAT(back.photo.name, Eq("a?[2J.jpg"));
    EXPECT_THAT(back.photo.profile, Eq("sRGB?"));
    EXPECT_THAT(back.photo.remarks, testing::ElementsAre("odd?"));
  }
}

TEST(RecordJson, EverythingWrittenComesBackWhateverTheFigures) {
  constexpr std::uint64_t first_seed = 20310409, trials = 500;
  for (std::uint64_t seed = first_seed; seed < first_seed + trials; ++seed) {
    const Record record = random_record(seed);
    const std::string text = record_json(record, -1);
    ASSERT_THAT(record_json(parsed(text), -1), Eq(text)) << "seed " << seed;
    // Half a unit of the last digit written.
    EXPECT_NEAR(parsed(text).readings[0].lab.a, record.readings[0].lab.a, 0.0005 + 1e-9) << "seed " << seed;
    EXPECT_NEAR(parsed(text).readings[0].lab_covariance(1, 1), record.readings[0].lab_covariance(1, 1),
                0.5e-5 * record.readings[0].lab_covariance(1, 1))
        << "seed " << seed;
  }
}

TEST(RecordJson, NumbersAreWrittenWithTheirDigitsOnly) {
  Record record = full_record();
  record.readings[0].lab = {52.0 + 1.0 / 3, -0.0001, 0.1f};
  const std::string text = record_json(record, -1);
  EXPECT_THAT(text, HasSubstr("\"lab\":[52.333,0.0,0.1]"));
}

TEST(RecordJson, NeverHoldsNaN) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN(),
                   infinite = std::numeric_limits<double>::infinity();
  for (const double bad : {nan, infinite, -infinite}) {
    Record record = full_record();
    record.readings[0].lab.b = bad;
    record.readings[1].lab_covariance(2, 2) = bad;
    record.calibration.check_de00_mean = bad;
    record.photo.exposure_s = bad;
    const std::string text = record_json(record, -1);
    EXPECT_THAT(text, AllOf(Not(HasSubstr("nan")), Not(HasSubstr("inf,")), Not(HasSubstr("NaN"))));
    const json written = json::parse(text);
    EXPECT_THAT(written["readings"][0]["refused"]["code"], Eq("untrustworthy"));
    EXPECT_FALSE(written["readings"][0].contains("lab"));
    EXPECT_TRUE(written["readings"][1].contains("refused"));
    EXPECT_TRUE(written["calibration"]["check_de00_mean"].is_null());
    EXPECT_TRUE(std::isnan(parsed(text).calibration.check_de00_mean));
    EXPECT_THAT(record_json(parsed(text), -1), HasSubstr("\"check_de00_mean\":null"));
  }
}

TEST(RecordJson, NamesThatAreNoUtf8AreReplacedNotThrownAt) {
  Record record = full_record();
  record.photo.name = "photo\xff.jpg";
  EXPECT_FALSE(json::parse(record_json(record, 2), nullptr, false).is_discarded());
  EXPECT_FALSE(json::parse(record_json(record, -1), nullptr, false).is_discarded());
}

TEST(ParseRecord, LaterKeysAreIgnored) {
  json record = json::parse(record_json(full_record()));
  record["moon_phase"] = "full";
  record["readings"][0]["smell"] = {{"strength", 3}};
  EXPECT_THAT(parsed(record.dump()).readings.size(), Eq(5u));
}

TEST(ParseRecord, ExpandedUncertaintyAloneGivesTheCovariance) {
  json record = json::parse(record_json(full_record()));
  record["readings"][0].erase("lab_covariance");
  EXPECT_DOUBLE_EQ(parsed(record.dump()).readings[0].lab_covariance(0, 0), 0.36);
}

TEST(ParseRecord, TakesAByteOrderMark) { parsed("\xEF\xBB\xBF" + record_json(full_record())); }

/// A change to a sound record and a word of the sentence that names the place.
struct Damage {
  const char* word;
  void (*make)(json&);
};

TEST(ParseRecord, NamesWhatIsWrong) {
  const Damage damages[] = {
      {"format", [](json& r) { r["format"] = "other"; }},
      {"format",
       [](json& r) {
         r = json::array({1, 2});
       }},
      {"version", [](json& r) { r["version"] = 2; }},
      {"version", [](json& r) { r["version"] = "1"; }},
      {"readings", [](json& r) { r.erase("readings"); }},
      {"readings",
       [](json& r) {
         r["readings"] = {{"a", 1}};
       }},
      {"readings[0]", [](json& r) { r["readings"][0] = 7; }},
      {"readings[1].id", [](json& r) { r["readings"][1]["id"] = "A"; }},
      {"readings[1].id", [](json& r) { r["readings"][1].erase("id"); }},
      {"readings[0].kind", [](json& r) { r["readings"][0]["kind"] = "potato"; }},
      {"readings[0].lab",
       [](json& r) {
         r["readings"][0]["lab"] = {1, 2};
       }},
      {"readings[0].lab",
       [](json& r) {
         r["readings"][0]["lab"] = {1, 2, "3"};
       }},
      {"readings[0].lab",
       [](json& r) {
         r["readings"][0]["lab"] = {1, 2, 1e300};
       }},
      {"readings[0].lab", [](json& r) { r["readings"][0].erase("lab"); }},
      {"readings[0].lab_covariance", [](json& r) { r["readings"][0]["lab_covariance"][0][1] = 0.5; }},
      {"readings[0].lab_covariance", [](json& r) { r["readings"][0]["lab_covariance"][0][0] = -1; }},
      {"readings[0].lab_covariance",
       [](json& r) {
         r["readings"][0]["lab_covariance"] = {1, 2, 3};
       }},
      {"readings[0].lab_expanded", [](json& r) { r["readings"][0]["lab_expanded"][2] = -1; }},
      {"readings[0].flags", [](json& r) { r["readings"][0]["flags"] = {1}; }},
      {"readings[0].region.shape", [](json& r) { r["readings"][0]["region"]["shape"] = "star"; }},
      {"readings[0].pixels", [](json& r) { r["readings"][0]["pixels"] = -1; }},
      {"readings[0].pixels", [](json& r) { r["readings"][0]["pixels"] = 1.5; }},
      {"readings[2].refused", [](json& r) { r["readings"][2]["refused"] = "no"; }},
      {"readings[2].refused.message", [](json& r) { r["readings"][2]["refused"].erase("message"); }},
      {"subject", [](json& r) { r["subject"] = "QH-03"; }},
      {"subject.item", [](json& r) { r["subject"]["item"] = 3; }},
      {"subject.item holds a control character", [](json& r) { r["subject"]["item"] = "\x1b[2J"; }},
      {"readings[0].flags holds a control character",
       [](json& r) { r["readings"][0]["flags"] = {"\xC2\x9B"}; }},
      {"photo.width_px", [](json& r) { r["photo"]["width_px"] = 1e12; }},
      {"photo.profile_assumed", [](json& r) { r["photo"]["profile_assumed"] = "yes"; }},
      {"calibration.corners_px",
       [](json& r) {
         r["calibration"]["corners_px"] = {{0, 0}};
       }},
      {"calibration.check_de00_mean", [](json& r) { r["calibration"]["check_de00_mean"] = "small"; }},
  };
  for (const auto& damage : damages) {
    json record = json::parse(record_json(full_record()));
    damage.make(record);
    EXPECT_THAT(
        parse_record(record.dump(), "test.json"),
        FailsWith(ErrorCode::unreadable_record, AllOf(HasSubstr("'test.json'"), HasSubstr(damage.word))))
        << damage.word;
  }
}

TEST(ParseRecord, TextThatIsNoJsonIsNamedByPlace) {
  const std::string sound = record_json(full_record());
  EXPECT_THAT(parse_record(sound.substr(0, sound.size() / 2), "t"),
              FailsWith(ErrorCode::unreadable_record, HasSubstr("line ")));
  EXPECT_THAT(parse_record("", "t"), FailsWith(ErrorCode::unreadable_record, HasSubstr("line 1")));
  EXPECT_THAT(parse_record("{\n \"format\": tintfall}", "t"),
              FailsWith(ErrorCode::unreadable_record, HasSubstr("line 2")));
  EXPECT_THAT(parse_record("{\"format\": 1e999}", "t"),
              FailsWith(ErrorCode::unreadable_record, HasSubstr("too large")));
  EXPECT_THAT(parse_record("NaN", "t"), FailsWith(ErrorCode::unreadable_record, HasSubstr("not JSON")));
}

TEST(ParseRecord, DeepNestingIsRefusedWithoutFollowingIt) {
  const std::string deep(1'000'000, '[');
  EXPECT_THAT(parse_record(deep, "t"), FailsWith(ErrorCode::unreadable_record, testing::_));
}

TEST(ParseRecord, TooManyReadingsAreRefused) {
  json record = json::parse(record_json(bare_record()));
  for (std::size_t i = 0; i <= RecordLimits::readings; ++i) record["readings"].push_back(json::object());
  EXPECT_THAT(parse_record(record.dump(), "t"),
              FailsWith(ErrorCode::unreadable_record, HasSubstr("at most 10000")));
}

TEST(ParseRecord, SpoiltBytesGiveARecordOrAnErrorInWords) {
  constexpr std::uint64_t seed = 4711;
  constexpr int trials = 3000;
  std::mt19937_64 engine(seed);
  const std::string sound = record_json(full_record(), -1);
  const std::string pieces[] = {"null", "-1", "1e308", "[]", "{}", "\"\"", "\"A\"", ",", "\xff", "true"};
  int refused = 0;
  for (int trial = 0; trial < trials; ++trial) {
    std::string text = sound;
    for (int change = 0; change < 1 + trial % 4; ++change) {
      const std::size_t at = engine() % text.size();
      if (engine() % 2 == 0)
        text[at] = static_cast<char>(engine());
      else
        text.replace(at, engine() % 6, pieces[engine() % std::size(pieces)]);
    }
    const auto record = parse_record(text, "spoilt");
    if (record.has_value()) {
      EXPECT_TRUE(parse_record(record_json(*record), "again").has_value()) << text;
    } else {
      ++refused;
      EXPECT_THAT(record, FailsWith(ErrorCode::unreadable_record, HasSubstr("'spoilt'"))) << text;
    }
  }
  std::printf("%d of %d spoilt records refused (seed %llu)\n", refused, trials,
              static_cast<unsigned long long>(seed));
  EXPECT_GT(refused, trials / 2);
}

TEST(ReadRecord, MissingFileIsNamed) {
  EXPECT_THAT(read_record("/no/such/record.json"),
              FailsWith(ErrorCode::unreadable_record, HasSubstr("does not exist")));
}

}  // namespace
}  // namespace colorlib
