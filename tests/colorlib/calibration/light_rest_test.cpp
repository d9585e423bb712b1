#include <gtest/gtest.h>

#include <colorlib/calibration/light_rest_internal.hpp>

namespace colorlib {
namespace {

/// Paper every 4 mm over 200 x 140 mm.
std::vector<PointMm> places() {
  std::vector<PointMm> all;
  for (int x = 0; x <= 200; x += 4)
    for (int y = 0; y <= 140; y += 4) all.push_back({static_cast<double>(x), static_cast<double>(y)});
  return all;
}

std::vector<double> ones(std::size_t count) { return std::vector<double>(count, 1.0); }

TEST(LightRest, OfEvenRemainsIsTheirSize) {
  const auto where = places();
  const LightRest rest(where, std::vector<double>(where.size(), -0.03), ones(where.size()));
  EXPECT_NEAR(rest.at({100, 70}), 0.03, 1e-12);
}

TEST(LightRest, GrainOfThePaperIsAveragedAway) {
  const auto where = places();
  std::vector<double> grain;
  for (const auto& p : where) grain.push_back((static_cast<int>(p.x + p.y) / 4) % 2 == 0 ? 0.03 : -0.03);
  EXPECT_LT(LightRest(where, grain, ones(where.size())).at({100, 70}), 0.003);
}

TEST(LightRest, AShadowCountsWhereItLies) {
  const auto where = places();
  std::vector<double> shadow;
  for (const auto& p : where) shadow.push_back(p.x > 150 ? -0.1 : 0.0);
  const LightRest rest(where, shadow, ones(where.size()));
  EXPECT_GT(rest.at({180, 70}), 0.08);
  EXPECT_LT(rest.at({40, 70}), 0.01);
}

TEST(LightRest, ASmudgeStandsAloneAndAShadowThatTheFitDoubtedDoesNot) {
  const auto where = places();
  std::vector<double> smudge, shadow, doubted_once, doubted_all;
  for (const auto& p : where) {
    const bool here = p.x == 100 && p.y == 72;
    smudge.push_back(here ? -0.3 : 0.0);
    doubted_once.push_back(here ? 0.1 : 1.0);
    shadow.push_back(p.x > 60 ? -0.1 : 0.0);
    doubted_all.push_back(p.x > 60 ? 0.2 : 1.0);
  }
  EXPECT_NEAR(LightRest(where, smudge, doubted_once).at({100, 70}), 0, 1e-9);
  EXPECT_NEAR(LightRest(where, smudge, ones(where.size())).at({100, 70}), 0, 1e-9);
  EXPECT_NEAR(LightRest(where, shadow, doubted_all).at({140, 70}), 0.1, 0.01);
}

TEST(LightRest, AFifthOfThePaperUnderSmudgesIsNoShadow) {
  const auto where = places();
  std::vector<double> soiled;
  for (std::size_t i = 0; i < where.size(); ++i) soiled.push_back(i % 5 == 2 ? -0.08 : 0.0);
  EXPECT_LT(LightRest(where, soiled, ones(where.size())).at({100, 70}), 1e-9);
}

TEST(LightRest, TheLargestIsFoundWhereverItLies) {
  const auto where = places();
  std::vector<double> shadow;
  for (const auto& p : where) shadow.push_back(p.x > 170 ? -0.06 : 0.01);
  EXPECT_NEAR(LightRest(where, shadow, ones(where.size())).largest(), 0.06, 1e-9);
}

TEST(LightRest, WithoutPaperIsNothing) {
  EXPECT_EQ(LightRest({}, {}, {}).at({10, 10}), 0);
  EXPECT_EQ(LightRest({}, {}, {}).largest(), 0);
}

}  // namespace
}  // namespace colorlib
