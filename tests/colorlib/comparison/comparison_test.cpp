#include <gmock/gmock.h>

#include <colorlib/comparison/comparison.hpp>
#include <limits>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::AllOf;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

Progress silent;

Record record_of(const std::string& item, const std::string& collector, const Lab& lab, double u = 0.3) {
  Record record;
  record.subject.item = item;
  record.subject.collector = collector;
  record.photo.name = item + collector + ".jpg";
  record.photo.encoding = std::string("linear-sensor");
  Reading reading;
  reading.id = std::string("W1");
  reading.kind = RegionKind::deposit;
  reading.lab = lab;
  reading.lab_covariance = Matrix3::diagonal(u * u, u * u, u * u);
  record.readings.push_back(reading);
  return record;
}

ChosenReadings chosen_from(const std::vector<Record>& records) {
  ChosenReadings chosen;
  for (std::size_t i = 0; i < records.size(); ++i) {
    auto some = compared_readings_from(records[i], fmt::format("r{}", i));
    for (auto& reading : some.readings) chosen.readings.push_back(std::move(reading));
    for (auto& left : some.left_out) chosen.left_out.push_back(std::move(left));
  }
  return chosen;
}

TEST(ComparedReadings, AreThoseOfSpecimens) {
  Record record = record_of("A", "V", {50, 0, 0});
  for (const RegionKind kind :
       {RegionKind::substrate, RegionKind::control, RegionKind::water, RegionKind::spot}) {
    record.readings.push_back(record.readings.front());
    record.readings.back().id = std::string(region_kind_name(kind));
    record.readings.back().kind = kind;
  }
  const auto all = compared_readings_from(record, "r");
  ASSERT_THAT(all.readings, SizeIs(2));
  EXPECT_EQ(all.readings[0].label, "r#W1");
  EXPECT_EQ(all.readings[1].label, "r#spot");
  EXPECT_THAT(compared_readings_from(record, "r", {RegionKind::water, ""}).readings, SizeIs(1));
  EXPECT_THAT(compared_readings_from(record, "r", {std::nullopt, "control"}).readings, SizeIs(1));
  const auto none = compared_readings_from(record, "r", {std::nullopt, "X"});
  EXPECT_THAT(none.readings, IsEmpty());
  ASSERT_THAT(none.left_out, SizeIs(1));
}

TEST(ComparedReadings, LeaveOutWhatSaysNothing) {
  Record refused = record_of("A", "V", {50, 0, 0}), exact = refused, broken = refused;
  refused.readings[0].refused = Error{ErrorCode::untrustworthy, "It is over-exposed.", "Expose less."};
  exact.readings[0].lab_covariance = {};
  broken.readings[0].lab.a = std::numeric_limits<double>::quiet_NaN();
  const auto chosen = chosen_from({refused, exact, broken, record_of("A", "Q", {50, 0, 0})});
  EXPECT_THAT(chosen.readings, SizeIs(1));
  ASSERT_THAT(chosen.left_out, SizeIs(3));
  EXPECT_THAT(chosen.left_out[0].why, HasSubstr("over-exposed"));
  EXPECT_THAT(chosen.left_out[1].why, HasSubstr("no uncertainty"));
  EXPECT_THAT(chosen.left_out[2].why, HasSubstr("number"));
  EXPECT_THAT(
      compare(chosen, {}, {}, silent),
      FailsWith(ErrorCode::untrustworthy, AllOf(HasSubstr("1 can be used"), HasSubstr("over-exposed"))));
}

TEST(ComparedReadings, CountACopyOnce) {
  const Record one = record_of("A", "V", {50, 0, 0});
  Record other = one;
  other.readings[0].lab.l = 50.01;
  auto chosen = chosen_from({one, one, other});
  leave_out_copies(chosen);
  EXPECT_THAT(chosen.readings, SizeIs(2));
  ASSERT_THAT(chosen.left_out, SizeIs(1));
  EXPECT_THAT(chosen.left_out[0].why, HasSubstr("r0#W1 once more"));
}

TEST(RoundTable, KeepsItemsKindsAndCollectorsApart) {
  Record spot = record_of("A", "V", {60, 0, 0});
  spot.readings[0].kind = RegionKind::spot;
  auto chosen = chosen_from({record_of("A", "V", {50, 0, 0}), record_of("A", "V", {52, 2, 4}), spot,
                             record_of("B", "Q", {20, 0, 0}), record_of("B", "", {21, 0, 0})});
  const RoundTable table = round_table_from(std::move(chosen.readings));
  EXPECT_THAT(table.items, ElementsAre("A deposit", "A spot", "B"));
  ASSERT_THAT(table.participants, SizeIs(3));
  EXPECT_EQ(table.participants[2].name, "r4#W1");
  EXPECT_FALSE(table.participants[2].is_collector);
  const RoundCell* cell = table.cell(0, 0);
  ASSERT_NE(cell, nullptr);
  EXPECT_THAT(cell->mean.lab, NearInDeltaE(Lab{51, 1, 2}, 1e-9));
  EXPECT_NEAR(cell->mean.covariance(0, 0), 0.09, 1e-12) << "a collector's readings share their uncertainty";
  EXPECT_EQ(table.cell(2, 0), nullptr);
  EXPECT_THAT(remarks_on(table), Contains(HasSubstr("1 of 5 readings name no collector")));
}

TEST(RoundTable, SaysWhenItemsAreMixedOrNotNamed) {
  Record stem = record_of("A", "Q", {50, 0, 0}), cap = record_of("A", "V", {50, 0, 0});
  stem.subject.tissue = "stem";
  cap.subject.tissue = "cap";
  EXPECT_THAT(remarks_on(round_table_from(chosen_from({stem, cap}).readings)),
              Contains(HasSubstr("Item A mixes readings of different tissue: cap, stem")));
  EXPECT_THAT(remarks_on(round_table_from(
                  chosen_from({record_of("", "V", {1, 0, 0}), record_of("", "Q", {1, 0, 0})}).readings)),
              Contains(HasSubstr("all are taken as one item")));
}

TEST(Comparison, PairsReadingsWithinItemsOrAcrossSeveralThings) {
  const std::vector<Record> two_each{record_of("A", "V", {50, 0, 0}), record_of("A", "Q", {50.2, 0, 0}),
                                     record_of("B", "V", {70, 0, 0}), record_of("B", "Q", {70.1, 0, 0})};
  EXPECT_THAT(compare(chosen_from(two_each), {}, {}, silent)->pairs, SizeIs(2));
  ComparisonOptions all;
  all.all_pairs = true;
  EXPECT_THAT(compare(chosen_from(two_each), {}, all, silent)->pairs, SizeIs(6));
  const auto things = compare(chosen_from({two_each[0], two_each[2]}), {}, {}, silent);
  ASSERT_THAT(things->pairs, SizeIs(1));
  EXPECT_EQ(things->pairs[0].agreement.verdict, Verdict::different);
  EXPECT_THAT(things->groups, SizeIs(2));
}

TEST(Comparison, TakesReferences) {
  const std::vector<Record> records{record_of("A", "V", {50, 0, 0}), record_of("A", "Q", {53, 0, 0})};
  const UncertainColor known{{50, 0.1, 0}, Matrix3::diagonal(0.01, 0.01, 0.01)};
  const auto found = compare(chosen_from(records), {{"A", known, "lab"}}, {}, silent);
  ASSERT_TRUE(found);
  EXPECT_EQ(found->consensus[0].reference, "lab");
  EXPECT_EQ(found->consensus[0].participants[0].agreement->verdict, Verdict::same);
  EXPECT_EQ(found->consensus[0].participants[1].agreement->verdict, Verdict::different);
  EXPECT_TRUE(compare(chosen_from(records), {{"", known, "lab"}}, {}, silent)) << "the only item is meant";
  EXPECT_TRUE(compare(chosen_from({records[0]}), {{"A", known, "lab"}}, {}, silent))
      << "one reading and a reference";
  EXPECT_THAT(compare(chosen_from(records), {{"C", known, "lab"}}, {}, silent),
              FailsWith(ErrorCode::bad_call, HasSubstr("'C', which no reading shows")));
  EXPECT_THAT(compare(chosen_from(records), {{"A", known, "lab"}, {"A", known, "other"}}, {}, silent),
              FailsWith(ErrorCode::bad_call, HasSubstr("two references: lab and other")));
}

TEST(Comparison, DescribesTooFewReadingsAndDoesNotJudge) {
  const auto found = compare(chosen_from({record_of("A", "V", {50, 0, 0}), record_of("A", "Q", {58, 3, 9})}),
                             {}, {}, silent);
  ASSERT_TRUE(found);
  ASSERT_THAT(found->biases, SizeIs(2));
  for (const auto& bias : found->biases) {
    EXPECT_EQ(bias.basis, BiasBasis::too_few);
    EXPECT_THAT(bias.words, IsEmpty());
    EXPECT_NEAR(std::abs(bias.bias[0]), 8, 1e-9);
  }
  EXPECT_THAT(found->precision, IsEmpty());
  EXPECT_THAT(found->ellipsoids, IsEmpty());
  EXPECT_THAT(found->remarks, Contains(HasSubstr("described, not judged")));
  EXPECT_FALSE(found->consensus[0].judged);
}

TEST(Comparison, IsBoundedAndCanBeStopped) {
  std::vector<Record> many;
  for (int i = 0; i < 700; ++i) many.push_back(record_of("A", fmt::format("c{}", i), {50 + i * 0.001, 0, 0}));
  EXPECT_THAT(compare(chosen_from(many), {}, {}, silent),
              FailsWith(ErrorCode::bad_call, HasSubstr("more than 200000 pairs")));
  class Stopped : public Progress {
    bool cancelled() const override { return true; }
  } stopped;
  many.resize(3);
  EXPECT_THAT(compare(chosen_from(many), {}, {}, stopped),
              FailsWith(ErrorCode::cancelled, HasSubstr("stopped")));
}

TEST(Consensus, OfOthersDoesNotHoldTheOneCompared) {
  std::vector<Record> records;
  for (const char* who : {"a", "b", "c", "d", "e"}) records.push_back(record_of("A", who, {50, 0, 0}));
  records.push_back(record_of("A", "far", {60, 0, 0}));
  const auto found = compare(chosen_from(records), {}, {}, silent);
  ASSERT_TRUE(found);
  // All others read exactly 50: no trace of the far one may be in what it is compared with.
  const auto& far = found->consensus[0].participants.back();
  EXPECT_NEAR(far.agreement->zeta[0], 10 / 0.3, 1e-3);
}

TEST(Ellipsoids, OfItemsWithFourCollectors) {
  const auto found = compare(chosen_from({record_of("A", "a", {50, 0, 0}), record_of("A", "b", {51, 1, 0}),
                                          record_of("A", "c", {50, 1, 2}), record_of("A", "d", {49, 2, 1})}),
                             {}, {}, silent);
  ASSERT_THAT(found->ellipsoids, SizeIs(1));
  EXPECT_TRUE(found->ellipsoids[0].of_collectors);
  EXPECT_LT(found->ellipsoids[0].ellipsoid.readings, ellipsoid_worth_printing);
}

}  // namespace
}  // namespace colorlib
