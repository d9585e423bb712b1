/// How much of a region its deposit covers, against simulated deposits whose bare gaps are known.
#include <gmock/gmock.h>

#include <cmath>

#include "tests/colorlib/specimen/scene_readings.hpp"

namespace colorlib {
namespace {

scenes::SceneSettings deposits_on(scenes::Substrate ground, scenes::Condition condition, std::uint64_t seed,
                                  double gap_share) {
  auto settings = scenes::random_scene(condition, seed);
  settings.view.width_px = 2000, settings.view.height_px = 1500;
  settings.substrate = ground;
  for (auto& specimen : settings.specimens) {
    specimen.kind = RegionKind::deposit;
    specimen.thickness = 0;
    specimen.gap_share = gap_share;
    specimen.gill_pitch_mm = 1.5;
    specimen.gill_depth = 0.15;
    specimen.gloss = 0;
    specimen.height_mm = specimen.slope_deg = 0;
  }
  return settings;
}

TEST(CoverageShare, IsThatOfDepositsWithBareGaps) {
  std::vector<double> errors;
  double sum = 0;
  int told = 0, untold = 0;
  std::uint64_t seed = 61;
  for (const auto condition : {scenes::Condition::daylight_phone, scenes::Condition::daylight_linear})
    for (const auto ground :
         {scenes::Substrate::card_white, scenes::Substrate::card_grey, scenes::Substrate::card_black})
      for (const double gap_share : {0.0, 0.1, 0.3})
        for (const SceneReading& one : scene_readings(deposits_on(ground, condition, seed++, gap_share))) {
          if (!one.reading.coverage_share) {
            ++untold;
            continue;
          }
          ++told;
          sum += *one.reading.coverage_share - one.truth.coverage_share;
          errors.push_back(std::abs(*one.reading.coverage_share - one.truth.coverage_share));
        }
  ASSERT_GE(told, 60);
  std::sort(errors.begin(), errors.end());
  const double p95 = errors[errors.size() * 95 / 100], worst = errors.back();
  std::printf(
      "18 scenes from seed 61: %d deposits told, %d not; mean error %+.4f, 95th percentile %.4f, worst "
      "%.4f\n",
      told, untold, sum / told, p95, worst);
  EXPECT_LE(std::abs(sum / told), 0.01);
  EXPECT_LE(p95, 0.03);
  EXPECT_LE(worst, 0.06) << "unsharp lines on a ground that is nearly as light";
}

TEST(CoverageShare, OfAThinFilmWithoutGapsIsAll) {
  double least = 1;
  int told = 0;
  for (std::uint64_t seed = 71; seed < 77; ++seed) {
    auto settings = scenes::random_scene(scenes::Condition::thin_paper, seed);
    settings.view.width_px = 1600, settings.view.height_px = 1200;
    for (auto& specimen : settings.specimens) specimen.gap_share = 0;
    for (const SceneReading& one : scene_readings(settings))
      if (one.reading.coverage_share) ++told, least = std::min(least, *one.reading.coverage_share);
  }
  std::printf("6 scenes from seed 71: %d films told, least share %.4f\n", told, least);
  EXPECT_GE(told, 6);
  EXPECT_GE(least, 0.97);
}

TEST(CoverageShare, CannotBeToldOnFoil) {
  auto settings = deposits_on(scenes::Substrate::foil, scenes::Condition::daylight_phone, 81, 0.1);
  settings.view.width_px = 1600, settings.view.height_px = 1200;
  for (const SceneReading& one : scene_readings(settings))
    EXPECT_FALSE(one.reading.coverage_share) << *one.reading.coverage_share;
}

}  // namespace
}  // namespace colorlib
