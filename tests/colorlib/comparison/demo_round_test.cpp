/// The invented exchange of docs/demo, from its files on, against figures computed independently (numpy).
#include <gmock/gmock.h>

#include <colorlib/comparison/comparison_json.hpp>
#include <colorlib/comparison/round_readings.hpp>
#include <colorlib/comparison/scores.hpp>
#include <nlohmann/json.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::Contains;
using testing::DoubleNear;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::SizeIs;

constexpr double three_digits = 5.0001e-4, two_digits = 5.0001e-3;

Comparison demo_comparison(bool with_references) {
  Progress silent;
  const std::filesystem::path folder = std::string(TINTFALL_SOURCE_FOLDER) + "/docs/demo/exchange_1";
  auto round = read_round(folder / "round.json");
  EXPECT_TRUE(round) << (round ? "" : round.error().message);
  auto readings = readings_of_round(*round, folder, silent);
  EXPECT_TRUE(readings) << (readings ? "" : readings.error().message);
  ComparisonOptions options;
  options.unit = ComparedUnit::collector_mean;
  auto comparison =
      compare(std::move(readings->chosen),
              with_references ? readings->references : std::vector<ReferenceColor>{}, options, silent);
  EXPECT_TRUE(comparison) << (comparison ? "" : comparison.error().message);
  return std::move(*comparison);
}

struct Row {
  const char* item;
  double s_r[3], s_l[3], s_big_r[3], mean[3], deviation[3];
};

const Row table[] = {{"QH-01",
                      {0.276, 0.275, 0.178},
                      {1.125, 0.958, 1.549},
                      {1.158, 0.997, 1.559},
                      {88.172, 1.572, 16.712},
                      {1.288, 1.101, 1.761}},
                     {"QH-03",
                      {0.325, 0.568, 0.308},
                      {1.197, 0.859, 1.262},
                      {1.241, 1.030, 1.299},
                      {42.165, 19.419, 28.827},
                      {1.374, 1.043, 1.446}},
                     {"QH-06",
                      {0.252, 0.387, 0.258},
                      {1.285, 0.763, 1.493},
                      {1.309, 0.855, 1.515},
                      {43.101, 5.049, 24.698},
                      {1.466, 0.901, 1.701}}};

TEST(DemoRound, HasThePrecisionAndTheRobustMeansOfItsTable) {
  const Comparison found = demo_comparison(true);
  ASSERT_THAT(found.table.items, ElementsAre("QH-01", "QH-03", "QH-06"));
  ASSERT_THAT(found.precision, SizeIs(3));
  for (std::size_t i = 0; i < 3; ++i) {
    SCOPED_TRACE(table[i].item);
    EXPECT_EQ(found.table.items[found.precision[i].item], table[i].item);
    for (std::size_t k = 0; k < 3; ++k) {
      const Precision& precision = found.precision[i].of_lab[k];
      EXPECT_THAT(precision.repeatability_sd, DoubleNear(table[i].s_r[k], three_digits));
      EXPECT_THAT(precision.between_sd, DoubleNear(table[i].s_l[k], three_digits));
      EXPECT_THAT(precision.reproducibility_sd, DoubleNear(table[i].s_big_r[k], three_digits));
      const RobustMean& robust = found.consensus[i].by_coordinate[k];
      EXPECT_THAT(robust.mean, DoubleNear(table[i].mean[k], three_digits));
      EXPECT_THAT(robust.standard_deviation, DoubleNear(table[i].deviation[k], three_digits));
    }
  }
}

TEST(DemoRound, HasTheScoresOfQh03) {
  const Comparison found = demo_comparison(true);
  const ItemConsensus& item = found.consensus[1];
  ASSERT_THAT(item.participants, SizeIs(4));
  EXPECT_TRUE(item.judged);
  const double en[] = {0.43, 1.24, -1.05, -0.23}, zeta[] = {0.87, 2.48, -2.10, -0.46},
               de00[] = {0.43, 2.35, 1.22, 0.42};
  for (std::size_t j = 0; j < 4; ++j) {
    SCOPED_TRACE(found.table.participants[item.participants[j].participant].name);
    EXPECT_THAT(item.participants[j].agreement->en_lab[0], DoubleNear(en[j], two_digits));
    EXPECT_THAT(item.participants[j].agreement->zeta[0], DoubleNear(zeta[j], two_digits));
    EXPECT_THAT(item.participants[j].de00, DoubleNear(de00[j], two_digits));
  }
}

/// The story: Q is off, H narrowly, V and P are not.
TEST(DemoRound, SaysWhoIsOffAndWhichWay) {
  const Comparison found = demo_comparison(true);
  ASSERT_THAT(found.biases, SizeIs(4));
  EXPECT_THAT(found.biases[0].words, IsEmpty());
  EXPECT_THAT(found.biases[1].words, ElementsAre("bluer", "lighter", "redder"));
  EXPECT_THAT(found.biases[2].words, ElementsAre("yellower", "darker"));
  EXPECT_THAT(found.differences[1],
              Contains(HasSubstr("photo: developed by the camera or a program (others: raw)")));
  EXPECT_THAT(found.differences[1], Contains("light: kitchen LED, warm"));
  EXPECT_THAT(found.differences[2], Contains(HasSubstr("light across the sheet differs by ΔE00 4.6")));
  for (const auto& difference : found.differences[0]) EXPECT_THAT(difference, Not(HasSubstr("photo:")));
  // The offsets that the data were drawn with (trueness of the whole chain): within the stated intervals.
  const double offsets[4][3] = {{0.2, -0.1, 0.3}, {1.9, 1.2, -2.4}, {-0.9, 0.2, 1.0}, {-0.3, -0.8, -0.4}};
  for (std::size_t j = 0; j < 4; ++j)
    for (std::size_t k = 0; k < 3; ++k)
      EXPECT_THAT(found.biases[j].bias[k], DoubleNear(offsets[j][k], found.biases[j].half_width[k]));
}

TEST(DemoRound, WithoutReferencesDescribesButDoesNotJudgeFourCollectors) {
  const Comparison found = demo_comparison(false);
  for (const auto& item : found.consensus) {
    EXPECT_FALSE(item.judged);
    EXPECT_FALSE(item.reference);
    // The robust mean in Lab lies close to that of each coordinate by itself.
    for (std::size_t k = 0; k < 3; ++k)
      EXPECT_THAT(vector_from(item.assigned.lab)[k], DoubleNear(item.by_coordinate[k].mean, 0.35));
  }
  EXPECT_THAT(found.remarks, Contains(HasSubstr("Below 8 collectors")));
  EXPECT_THAT(found.biases[1].words, Contains("bluer"));
  EXPECT_EQ(found.biases[1].against, BiasAgainst::others);
}

TEST(DemoRound, IsWrittenAsJsonWithoutGaps) {
  const auto json = nlohmann::json::parse(comparison_json(demo_comparison(true), {"title", "remark"}));
  EXPECT_EQ(json["format"], "tintfall-comparison");
  EXPECT_EQ(json["pairs"].size(), 18u);
  EXPECT_EQ(json["readings"].size(), 36u);
  EXPECT_EQ(json["consensus"][1]["collectors"][1]["verdict"], "different");
  EXPECT_EQ(json["consensus"][1]["collectors"][1]["zeta"][0], 2.485);
  EXPECT_EQ(json["consensus"][1]["algorithm_a"][0]["mean"], 42.165);
  EXPECT_EQ(json["precision"][1]["coordinates"][1]["repeatability_sd"], 0.568);
  EXPECT_EQ(json["bias"][1]["words"], (std::vector<std::string>{"bluer", "lighter", "redder"}));
  const auto without = nlohmann::json::parse(comparison_json(demo_comparison(false), {}, -1));
  EXPECT_TRUE(without["consensus"][0]["collectors"][0]["verdict"].is_null());
  EXPECT_EQ(without.count("title"), 0u);
}

}  // namespace
}  // namespace colorlib
