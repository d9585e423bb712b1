/// What is found in the opening on a mirror: deposits, and nothing that the mirror shows.
#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/specimen/deposit_finder.hpp>
#include <colorlib/specimen/photo_reading.hpp>

#include "tests/scenes/scenario.hpp"
#include "tests/scenes/scene.hpp"

namespace colorlib {
namespace {

std::vector<FoundSpecimen> found_in(const scenes::Scene& scene, const ChartDefinition& chart) {
  ReadRequest request;
  request.candidates = {chart};
  request.reference_values = scene.reference;
  Progress progress;
  const auto calibrated = calibrate_photo(scene.photo, request, progress);
  if (!calibrated) return {};
  return find_specimens(scene.photo, calibrated->chart, calibrated->sheet.placement, calibrated->calibration,
                        {});
}

/// Share of the area of `region` that lies where `holds` says.
template <class Holds>
double share_of(const Region& region, const Holds& holds) {
  const auto [left, top, right, bottom] = region.bounds();
  int all = 0, inside = 0;
  for (double y = top; y < bottom; y += 0.5)
    for (double x = left; x < right; x += 0.5)
      if (region.contains(x, y)) ++all, inside += holds(x, y);
  return static_cast<double>(inside) / all;
}

double share_found(const Region& deposit, const std::vector<FoundSpecimen>& found) {
  return share_of(deposit, [&](double x, double y) {
    return std::any_of(found.begin(), found.end(),
                       [&](const auto& one) { return one.region.contains(x, y); });
  });
}

/// Of what was found, the share that lies on deposits, their ragged rims included.
double share_on_deposits(const FoundSpecimen& found, const scenes::Scene& scene) {
  constexpr double rim = 1.4;
  return share_of(found.region, [&](double x, double y) {
    return std::any_of(scene.specimens.begin(), scene.specimens.end(), [&](const auto& truth) {
      const auto& e = std::get<EllipseShape>(truth.region.shape);
      return std::hypot((x - e.x) / (rim * e.radius_x), (y - e.y) / (rim * e.radius_y)) < 1;
    });
  });
}

TEST(DepositFinder, TakesNoWrinkleOrGlintOfFoilForADeposit) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  int deposits = 0, missed = 0, others = 0;
  for (const auto condition : {scenes::Condition::foil_phone, scenes::Condition::foil_linear})
    for (std::uint64_t seed = 801; seed <= 806; ++seed) {
      const auto settings = scenes::random_scene(condition, seed);
      const scenes::Scene scene = scenes::render(settings, chart);
      const auto found = found_in(scene, chart);
      for (const FoundSpecimen& one : found) others += share_on_deposits(one, scene) < 0.7;
      for (const auto& truth : scene.specimens) {
        ++deposits;
        missed += share_found(truth.region, found) < 0.7;
      }
    }
  std::printf("12 scenes on foil: %d deposits, %d missed, %d found where there is none\n", deposits, missed,
              others);
  EXPECT_GE(deposits, 40);
  EXPECT_LE(missed, deposits / 10);
  EXPECT_LE(others, 1);
}

TEST(DepositFinder, KeepsWhiteAndBlackDepositsOnFoil) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  for (const char* item : {"QH-08", "QH-05"}) {
    SCOPED_TRACE(item);
    auto settings =
        scenes::scenario_scene(scenes::scenario_item(item), scenes::Condition::daylight_phone, 11, chart);
    settings.view.width_px = 1600, settings.view.height_px = 1200;
    settings.substrate = scenes::Substrate::foil;
    for (auto& deposit : settings.specimens) deposit.thickness = 0;
    const scenes::Scene scene = scenes::render(settings, chart);
    const auto found = found_in(scene, chart);
    ASSERT_THAT(found, testing::SizeIs(1));
    EXPECT_GT(share_on_deposits(found[0], scene), 0.95);
    EXPECT_GT(share_found(scene.specimens[0].region, found), 0.9);
  }
}

TEST(DepositFinder, TakesNoCardForADepositWhereTwoLieInTheOpening) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  auto settings =
      scenes::scenario_scene(scenes::scenario_item("QH-08"), scenes::Condition::daylight_phone, 1, chart);
  settings.view.width_px = 1600, settings.view.height_px = 1200;
  const scenes::Scene scene =
      scenes::render(settings, chart);  // a white film half over black, half over white
  const auto found = found_in(scene, chart);
  ASSERT_THAT(found, testing::SizeIs(1));
  EXPECT_TRUE(found[0].two_grounds);
  // The cards meet at 105 mm. Half a print of 27 x 26 mm, less the stem's place, lies over the black one.
  EXPECT_LT(found[0].region.bounds()[2], 106);
  EXPECT_NEAR(found[0].area_mm2, 1080, 100);
  EXPECT_GT(share_on_deposits(found[0], scene), 0.95);
}

TEST(DepositFinder, TakesAPalePrintForNoCardOnTheSheetsOwnBacking) {
  const ChartDefinition chart = find_chart("two-backings-a5").value();
  for (const std::uint64_t seed : {1u, 4u}) {
    SCOPED_TRACE(seed);
    auto settings = scenes::scenario_scene(scenes::scenario_item("QH-08"), scenes::Condition::daylight_phone,
                                           seed, chart);
    settings.view.width_px = 1600, settings.view.height_px = 1200;
    const scenes::Scene scene = scenes::render(settings, chart);
    const auto found = found_in(scene, chart);
    // Half a print of 27 x 26 mm, less the stem's place; over white it cannot be told from the card.
    ASSERT_THAT(found, testing::SizeIs(1));
    EXPECT_EQ(found[0].region.id, "W1-black");
    EXPECT_FALSE(found[0].two_grounds);
    EXPECT_NEAR(found[0].area_mm2, 1000, 120);
  }
}

TEST(DepositFinder, PartsAFilmThatLiesAcrossTwoCards) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  const auto settings = scenes::random_scene(scenes::Condition::thin_two_backings, 11);
  const auto found = found_in(scenes::render(settings, chart), chart);
  ASSERT_THAT(found, testing::SizeIs(testing::Ge(3)));  // one film on both, one seen over black alone
  constexpr double border = 105;                        // where the cards meet, in mm
  int left = 0, right = 0;
  for (const FoundSpecimen& one : found) {
    EXPECT_TRUE(one.two_grounds);
    EXPECT_FALSE(one.across_grounds);
    const auto bounds = one.region.bounds();
    left += bounds[2] < border;
    right += bounds[0] > border;
  }
  EXPECT_GE(left, 2);
  EXPECT_GE(right, 1);
  EXPECT_EQ(static_cast<std::size_t>(left + right), found.size());
}

}  // namespace
}  // namespace colorlib
