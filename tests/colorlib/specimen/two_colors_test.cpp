/// Two separate colours in one region, and what only looks like them.
#include <gmock/gmock.h>

#include <colorlib/base/data_folder.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <colorlib/specimen/two_colors.hpp>
#include <random>

#include "tests/scenes/scenario.hpp"
#include "tests/scenes/scene.hpp"

namespace colorlib {
namespace {

constexpr std::size_t pixels = 4000;

/// Pixels scattered by `sd` in each coordinate about colours that `colour` draws; seed 5.
template <class Draw>
std::vector<Lab> scattered(double sd, const Draw& colour) {
  std::mt19937_64 random(5);
  std::normal_distribution<double> noise(0, sd);
  std::vector<Lab> all;
  for (std::size_t i = 0; i < pixels; ++i) {
    const Lab lab = colour(random);
    all.push_back({lab.l + noise(random), lab.a + noise(random), lab.b + noise(random)});
  }
  return all;
}

Lab on_the_way(double share) { return {66 + 28 * share, 0, -2 + 4 * share}; }

TEST(TwoColors, AreFoundWithTheirMeansAndShares) {
  const auto found = two_colors(scattered(2, [](auto& random) {
    return on_the_way(std::uniform_real_distribution<double>(0, 1)(random) < 0.3 ? 1 : 0);
  }));
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->first.l, 66, 0.2);
  EXPECT_NEAR(found->second.l, 94, 0.3);
  EXPECT_NEAR(found->first_share, 0.7, 0.03);
  EXPECT_GT(found->de00, 15);
}

TEST(TwoColors, AFewPixelsOfAnotherColourAreNone) {
  EXPECT_FALSE(two_colors(scattered(2, [](auto& random) {
    return on_the_way(std::uniform_real_distribution<double>(0, 1)(random) < 0.05 ? 1 : 0);
  })));
}

TEST(TwoColors, OneScatteredColourIsNone) {
  EXPECT_FALSE(two_colors(scattered(8, [](auto&) { return on_the_way(0.5); })));
}

TEST(TwoColors, AColourThatThinsOutIsNone) {
  EXPECT_FALSE(two_colors(scattered(
      1, [](auto& random) { return on_the_way(std::uniform_real_distribution<double>(0, 1)(random)); })));
  // Thick in the middle, thin along the rim: by area most of it is thin.
  EXPECT_FALSE(two_colors(scattered(1, [](auto& random) {
    return on_the_way(std::sqrt(std::uniform_real_distribution<double>(0, 1)(random)));
  })));
}

class ThinFilmOverBlackAndWhite : public testing::Test {
 protected:
  ThinFilmOverBlackAndWhite() : chart(find_chart("frame-a5").value()) {
    auto settings =
        scenes::scenario_scene(scenes::scenario_item("QH-08"), scenes::Condition::daylight_phone, 1, chart);
    settings.view.width_px = 1600, settings.view.height_px = 1200;
    scene = scenes::render(settings, chart);
  }

  Result<PhotoReading> read(std::optional<Regions> regions) {
    ReadRequest request;
    request.candidates = {chart};
    request.reference_values = scene.reference;
    request.regions = std::move(regions);
    Progress quiet;
    return read_photo(scene.photo, request, Namer::load(data_folder()).value(), quiet);
  }

  Regions drawn(RegionKind kind, double x, double y, double radius) {
    Region region;
    region.id = std::string("A");
    region.kind = kind;
    region.shape = EllipseShape{x, y, radius, radius};
    return {RegionFrame::chart_mm, {region}};
  }

  ChartDefinition chart;
  scenes::Scene scene;
};

TEST_F(ThinFilmOverBlackAndWhite, ARegionAcrossTheBorderIsRefusedNamingBothColours) {
  const auto photo = read(drawn(RegionKind::deposit, 105, 74, 20));
  ASSERT_FALSE(photo);
  EXPECT_EQ(photo.error().code, ErrorCode::untrustworthy);
  EXPECT_THAT(photo.error().message, testing::HasSubstr("two separate colours"));
  EXPECT_THAT(photo.error().message, testing::HasSubstr("(L* 6"));
  EXPECT_THAT(photo.error().message, testing::HasSubstr("(L* 9"));
  EXPECT_THAT(photo.error().advice, testing::HasSubstr("--two-backings"));
}

TEST_F(ThinFilmOverBlackAndWhite, TheWhiteSideIsNoGlint) {
  // In the bare spot of the stem, where the dark side is of many shades and the white one shines beside it.
  for (const double x : {103.0, 104.0}) {
    const auto photo = read(drawn(RegionKind::deposit, x, 74, 4));
    ASSERT_FALSE(photo);
    EXPECT_THAT(photo.error().message, testing::HasSubstr("two separate colours"));
    EXPECT_THAT(photo.error().message, testing::HasSubstr("white (L* 9"));
  }
}

TEST_F(ThinFilmOverBlackAndWhite, ASpotMayCoverPartOfItsRegion) {
  EXPECT_TRUE(read(drawn(RegionKind::spot, 105, 74, 20)));
}

}  // namespace
}  // namespace colorlib
