/// How much of a region its deposit covers, against simulated deposits whose bare gaps are known.
#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/specimen/photo_reading.hpp>

#include "tests/scenes/scene.hpp"

namespace colorlib {
namespace {

struct Told {
  double truth = 1;
  std::optional<double> share;
  double area_mm2 = 0;
};

std::vector<Told> coverage_of(const scenes::SceneSettings& settings) {
  static const ChartDefinition chart = find_chart("frame-a5").value();
  static const Namer namer = Namer::load(data_folder()).value();
  const scenes::Scene scene = scenes::render(settings, chart);
  ReadRequest request;
  request.candidates = {chart};
  request.reference_values = scene.reference;
  request.regions = scenes::true_regions(scene);
  Progress progress;
  const auto reading = read_photo(scene.photo, request, namer, progress);
  EXPECT_TRUE(reading) << reading.error().message;
  std::vector<Told> told;
  for (std::size_t i = 0; reading && i < reading->readings.size(); ++i)
    if (!reading->readings[i].refused)
      told.push_back({scene.specimens[i].coverage_share, reading->readings[i].coverage_share,
                      reading->readings[i].area_mm2});
  return told;
}

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
        for (const Told& one : coverage_of(deposits_on(ground, condition, seed++, gap_share))) {
          if (!one.share) {
            ++untold;
            continue;
          }
          ++told;
          sum += *one.share - one.truth;
          errors.push_back(std::abs(*one.share - one.truth));
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
    for (const Told& one : coverage_of(settings))
      if (one.share) ++told, least = std::min(least, *one.share);
  }
  std::printf("6 scenes from seed 71: %d films told, least share %.4f\n", told, least);
  EXPECT_GE(told, 6);
  EXPECT_GE(least, 0.97);
}

TEST(CoverageShare, CannotBeToldOnFoil) {
  auto settings = deposits_on(scenes::Substrate::foil, scenes::Condition::daylight_phone, 81, 0.1);
  settings.view.width_px = 1600, settings.view.height_px = 1200;
  for (const Told& one : coverage_of(settings)) EXPECT_FALSE(one.share) << *one.share;
}

}  // namespace
}  // namespace colorlib
