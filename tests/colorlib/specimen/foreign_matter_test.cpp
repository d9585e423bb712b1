/// Soil and smears on simulated deposits, whose share and whose own colours are known.
#include <gmock/gmock.h>

#include <algorithm>
#include <colorlib/base/median.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/foreign_matter.hpp>
#include <random>

#include "tests/colorlib/specimen/scene_readings.hpp"
#include "tests/scenes/scenario.hpp"
#include "tests/scenes/scene_picture.hpp"

namespace colorlib {
namespace {

constexpr Lab rust{42, 20, 30}, loam{25, 5, 8};
const Xyz white_card = xyz_from_lab({94, 0, 2}, white_d50);

/// `count` pixels about a colour, noise of `sd` Lab units in each coordinate.
void add_pixels(std::vector<Lab>& pixels, const Lab& about, int count, double sd, std::mt19937& random) {
  std::normal_distribution<double> noise(0, sd);
  for (int i = 0; i < count; ++i)
    pixels.push_back({about.l + noise(random), about.a + noise(random), about.b + noise(random)});
}

TEST(OwnColors, ForeignIsWhatIsNeitherDepositNorGroundNorBetween) {
  std::mt19937 random(1);
  std::vector<Lab> pixels;
  add_pixels(pixels, rust, 950, 1.5, random);
  add_pixels(pixels, loam, 50, 1.5, random);
  const auto own = OwnColors::beside_foreign(pixels, white_card);
  ASSERT_TRUE(own);
  EXPECT_TRUE(own->foreign(loam));
  EXPECT_TRUE(own->foreign({42, -10, 20}));
  EXPECT_FALSE(own->foreign(rust));
  EXPECT_FALSE(own->foreign(lab_from_xyz(white_card, white_d50)));
  const Xyz deposit = xyz_from_lab(rust, white_d50);
  EXPECT_FALSE(own->foreign(lab_from_xyz(
      {(deposit.x + white_card.x) / 2, (deposit.y + white_card.y) / 2, (deposit.z + white_card.z) / 2},
      white_d50)));
}

TEST(OwnColors, NothingIsForeignInADepositAloneOrOneThatRunsOutEvenly) {
  std::mt19937 random(2);
  std::vector<Lab> alone;
  add_pixels(alone, rust, 1000, 2, random);
  EXPECT_FALSE(OwnColors::beside_foreign(alone, white_card));
  std::vector<Lab> uneven;
  std::exponential_distribution<double> way(1);
  for (int i = 0; i < 1000; ++i) {
    const double away = 8 * way(random);
    uneven.push_back({70 - 0.4 * away, 5 + 0.6 * away, 20 + 0.7 * away});
  }
  EXPECT_FALSE(OwnColors::beside_foreign(uneven, white_card));
}

TEST(OwnColors, MoreThanAFifthCannotBeToldFromTheDeposit) {
  std::mt19937 random(3);
  std::vector<Lab> pixels;
  add_pixels(pixels, rust, 750, 1.5, random);
  add_pixels(pixels, loam, 250, 1.5, random);
  EXPECT_FALSE(OwnColors::beside_foreign(pixels, white_card));
}

enum class On { nothing, soil, smear };

struct Outcome {
  int told = 0, covered = 0, flagged = 0;
  double worst_share = 0;              ///< of foreign pixels told
  std::vector<double> errors, unread;  ///< dE00 from the deposit's own colour: as told; had all been read
};

Outcome outcome_of(scenes::Condition condition, On what, std::uint64_t first_seed, int scene_count) {
  constexpr scenes::Substrate grounds[] = {scenes::Substrate::card_white, scenes::Substrate::card_grey,
                                           scenes::Substrate::card_black};
  Outcome outcome;
  for (int i = 0; i < scene_count; ++i) {
    const auto seed = first_seed + static_cast<std::uint64_t>(i);
    auto settings = scenes::random_scene(condition, seed);
    settings.substrate = grounds[i % 3];
    const auto others = scenes::random_scene(condition, seed + 1000).specimens;
    for (std::size_t k = 0; k < settings.specimens.size(); ++k) {
      auto& specimen = settings.specimens[k];
      specimen.kind = RegionKind::deposit;
      specimen.gloss = specimen.height_mm = specimen.slope_deg = 0;
      if (what == On::soil) specimen.soil_share = 0.06;
      if (what == On::smear) specimen.smear_mm = 0.8, specimen.smear = others[k % others.size()].pigment;
    }
    for (const auto& [truth, reading] : scene_readings(settings)) {
      if (!reading.foreign_share) continue;
      ++outcome.told;
      const double error = difference_ciede2000(reading.lab, truth.covered_mean);
      // Where nothing was left out, what is read is the region as seen. Bright smears may go as glints.
      const bool left_out = *reading.foreign_share > 0 || reading.glint_share > 0;
      const Lab& meant = left_out ? truth.covered_mean : truth.as_seen;
      outcome.covered += difference_ciede2000(reading.lab, meant) <= reading.de00_expanded;
      outcome.errors.push_back(error);
      outcome.unread.push_back(difference_ciede2000(truth.as_seen, truth.covered_mean));
      outcome.worst_share = std::max(outcome.worst_share, *reading.foreign_share);
      outcome.flagged += std::any_of(reading.flags.begin(), reading.flags.end(),
                                     [](const Flag& flag) { return flag.code == "foreign-matter"; });
    }
  }
  return outcome;
}

constexpr scenes::Condition conditions[] = {
    scenes::Condition::daylight_phone, scenes::Condition::daylight_linear, scenes::Condition::thin_paper};

TEST(ForeignMatter, IsNoneOnCleanDepositsAndMovesOthersLittle) {
  for (const auto condition : conditions) {
    const Outcome clean = outcome_of(condition, On::nothing, 1001, 6);
    ASSERT_GE(clean.told, 25);
    EXPECT_EQ(clean.worst_share, 0) << "something foreign on clean deposits";
    for (const On what : {On::soil, On::smear}) {
      const Outcome outcome = outcome_of(condition, what, 1001, 6);
      ASSERT_GE(outcome.told, 25);
      const double worse = median(outcome.errors) - median(clean.errors);
      std::printf(
          "%s of %s, 6 scenes from seed 1001: %d of %d flagged, median dE00 %.2f (clean %.2f; %.2f away "
          "had all been read), covered %d (clean %d of %d)\n",
          what == On::soil ? "soil" : "smears", scenes::condition_name(condition).c_str(), outcome.flagged,
          outcome.told, median(outcome.errors), median(clean.errors), median(outcome.unread), outcome.covered,
          clean.covered, clean.told);
      EXPECT_LT(worse, 0.7 * median(outcome.unread));
      // Crumbs of half a millimetre are 4 pixels wide here: many are nothing but blurred rims.
      EXPECT_GE(outcome.flagged, outcome.told / (what == On::soil ? 4 : 3));
      // Foreign pixels that look like the deposit stay in and have no part in the budget.
      EXPECT_GE(outcome.covered, 0.8 * outcome.told);
    }
  }
}

TEST(ForeignMatter, AtAPhonesOwnSizeCrumbsOfSoilAreToldAlmostWholly) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  const Namer namer = Namer::load(data_folder()).value();
  auto settings =
      scenes::scenario_scene(scenes::scenario_item("QH-02"), scenes::Condition::daylight_phone, 1, chart);
  settings.specimens[0].soil_share = 0.06;
  scenes::set_picture_width(settings, 4000);
  const scenes::Scene scene = scenes::render(settings, chart);
  ReadRequest request;
  request.candidates = {chart};
  request.reference_values = scene.reference;
  Progress progress;
  const auto photo = read_photo(scene.photo, request, namer, progress);
  ASSERT_TRUE(photo) << photo.error().message;
  ASSERT_THAT(photo->readings, testing::SizeIs(1));
  const Reading& reading = photo->readings[0];
  ASSERT_TRUE(!reading.refused && reading.foreign_share);
  const scenes::SpecimenTruth& truth = scene.specimens.back();  // the whole print
  std::printf("%d px wide: %.1f %% told of %.1f %%; dE00 %.2f, stated within %.2f\n", scene.photo.width_px(),
              100 * *reading.foreign_share, 100 * truth.foreign_share,
              difference_ciede2000(reading.lab, truth.covered_mean), reading.de00_expanded);
  EXPECT_NEAR(*reading.foreign_share, truth.foreign_share, 0.02);
  EXPECT_LE(difference_ciede2000(reading.lab, truth.covered_mean), reading.de00_expanded);
}

}  // namespace
}  // namespace colorlib
