/// The thickest tenth of simulated deposits against their true colours.
#include <gmock/gmock.h>

#include <algorithm>
#include <colorlib/base/median.hpp>
#include <colorlib/colorimetry/color_difference.hpp>

#include "tests/colorlib/specimen/scene_readings.hpp"

namespace colorlib {
namespace {

scenes::SceneSettings deposits_on(scenes::Substrate ground, scenes::Condition condition, std::uint64_t seed,
                                  bool gills) {
  auto settings = scenes::random_scene(condition, seed);
  settings.substrate = ground;
  for (auto& specimen : settings.specimens) {
    specimen.kind = RegionKind::deposit;
    specimen.gloss = specimen.height_mm = specimen.slope_deg = 0;
    if (!gills) continue;
    specimen.gill_pitch_mm = 1.2;
    specimen.gill_depth = specimen.thickness > 0 ? 0.25 : 0.15;
  }
  return settings;
}

struct Outcome {
  int told = 0, asked = 0, covered = 0;
  std::vector<double> errors, as_mean;  ///< dE00 of the tenth as told, and of the mean in its place
};

Outcome outcome_of(scenes::Condition condition, std::uint64_t first_seed, int scenes) {
  constexpr scenes::Substrate grounds[] = {scenes::Substrate::card_white, scenes::Substrate::card_grey,
                                           scenes::Substrate::card_black};
  Outcome outcome;
  for (int i = 0; i < scenes; ++i)
    for (const SceneReading& one : scene_readings(deposits_on(
             grounds[i % 3], condition, first_seed + static_cast<std::uint64_t>(i), i % 2 == 1))) {
      ++outcome.asked;
      if (!one.reading.tenth) continue;
      ++outcome.told;
      const double error = difference_ciede2000(one.reading.tenth->lab, one.truth.thickest_tenth);
      outcome.covered += error <= one.reading.tenth->de00_expanded;
      outcome.errors.push_back(error);
      outcome.as_mean.push_back(difference_ciede2000(one.truth.as_seen, one.truth.thickest_tenth));
    }
  return outcome;
}

class ThickestTenth : public testing::TestWithParam<scenes::Condition> {};

TEST_P(ThickestTenth, IsToldWithinItsTolerance) {
  const Outcome outcome = outcome_of(GetParam(), 941, 9);
  ASSERT_GE(outcome.told, outcome.asked * 7 / 10);
  const double error = median(outcome.errors), as_mean = median(outcome.as_mean);
  std::printf(
      "%s, 9 scenes from seed 941: %d of %d told, median dE00 %.2f (the true mean is %.2f away), "
      "covered %.1f %%\n",
      scenes::condition_name(GetParam()).c_str(), outcome.told, outcome.asked, error, as_mean,
      100.0 * outcome.covered / outcome.told);
  EXPECT_LT(error, as_mean / 2);
  // 95 % of some 45, less two standard errors of counting.
  EXPECT_GE(outcome.covered, 0.885 * outcome.told);
}

INSTANTIATE_TEST_SUITE_P(Conditions, ThickestTenth,
                         testing::Values(scenes::Condition::daylight_phone,
                                         scenes::Condition::daylight_linear, scenes::Condition::thin_paper),
                         [](const auto& test) {
                           std::string name = scenes::condition_name(test.param);
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST(ThickestTenthOn, FoilCannotBeTold) {
  for (const SceneReading& one :
       scene_readings(deposits_on(scenes::Substrate::foil, scenes::Condition::daylight_phone, 951, false)))
    EXPECT_FALSE(one.reading.tenth) << one.reading.tenth->de00_from_mean;
}

}  // namespace
}  // namespace colorlib
