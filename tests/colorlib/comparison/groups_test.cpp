#include <gmock/gmock.h>

#include <colorlib/comparison/groups.hpp>
#include <tests/colorlib/comparison/normal_colors.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

Progress silent;
const Matrix3 small = Matrix3::diagonal(0.09, 0.09, 0.09);

std::vector<UncertainColor> readings_of(const std::vector<Lab>& colors) {
  std::vector<UncertainColor> readings;
  for (const Lab& lab : colors) readings.push_back({lab, small});
  return readings;
}

TEST(Groups, AreWhatCannotBeToldApart) {
  const auto found = groups_of(
      readings_of({{50, 0, 0}, {70, 5, 5}, {50.3, 0.1, 0}, {70, 5.2, 5}, {20, 1, 1}}), 0.05, silent);
  ASSERT_TRUE(found);
  ASSERT_THAT(*found, SizeIs(3));
  EXPECT_THAT((*found)[0].members, ElementsAre(0u, 2u));
  EXPECT_THAT((*found)[1].members, ElementsAre(1u, 3u));
  EXPECT_THAT((*found)[2].members, ElementsAre(4u));
  EXPECT_THAT((*found)[0].mean, NearInDeltaE(Lab{50.15, 0.05, 0}, 1e-9));
  EXPECT_FALSE((*found)[0].chained);
  EXPECT_EQ((*found)[2].widest_de00, 0);
}

TEST(Groups, SayWhenTheyAreChains) {
  const auto found = groups_of(readings_of({{50, 0, 0}, {51, 0, 0}, {52, 0, 0}, {53, 0, 0}}), 0.05, silent);
  ASSERT_TRUE(found);
  ASSERT_THAT(*found, SizeIs(1));
  EXPECT_TRUE(found->front().chained);
  EXPECT_GT(found->front().widest_de00, 2.5);
}

TEST(Groups, AreMoreWithAHigherRisk) {
  const auto readings = readings_of({{50, 0, 0}, {50.8, 0, 0}});
  EXPECT_THAT(*groups_of(readings, 0.05, silent), SizeIs(1));
  EXPECT_THAT(*groups_of(readings, 0.9, silent), SizeIs(2));
}

/// The stated risk is that of a pair.
TEST(Groups, SplitPairsOfOneColourAtTheStatedRisk) {
  NormalColors colors(23);
  constexpr int pairs = 5000;
  for (const double risk : {0.01, 0.05, 0.2}) {
    int split = 0;
    for (int i = 0; i < pairs; ++i) {
      const Lab truth = colors.any_color();
      const Matrix3 covariance = colors.any_covariance();
      const auto found = groups_of(
          {{colors.draw(truth, covariance), covariance}, {colors.draw(truth, covariance), covariance}}, risk,
          silent);
      split += found->size() == 2;
    }
    std::printf("risk %.2f: %.3f of %d pairs of one colour split, seed 23\n", risk,
                static_cast<double>(split) / pairs, pairs);
    EXPECT_NEAR(static_cast<double>(split) / pairs, risk, 3 * std::sqrt(risk * (1 - risk) / pairs));
  }
}

TEST(Groups, RefuseWhatCannotBeMeant) {
  EXPECT_THAT(groups_of({}, 0, silent), FailsWith(ErrorCode::bad_call, HasSubstr("risk")));
  EXPECT_THAT(groups_of({}, 1, silent), FailsWith(ErrorCode::bad_call, HasSubstr("risk")));
  EXPECT_THAT(groups_of(std::vector<UncertainColor>(most_grouped + 1), 0.05, silent),
              FailsWith(ErrorCode::bad_call, HasSubstr("at most 5000")));
  EXPECT_THAT(*groups_of({}, 0.05, silent), IsEmpty());
  class Stopped : public Progress {
    bool cancelled() const override { return true; }
  } stopped;
  EXPECT_THAT(groups_of(readings_of({{1, 2, 3}}), 0.05, stopped),
              FailsWith(ErrorCode::cancelled, HasSubstr("stopped")));
}

}  // namespace
}  // namespace colorlib
