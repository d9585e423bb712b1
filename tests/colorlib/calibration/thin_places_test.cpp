#include <gtest/gtest.h>

#include <algorithm>
#include <colorlib/calibration/thin_places_internal.hpp>

namespace colorlib {
namespace {

using Eigen::Vector3d;

const Vector3d body{0.30, 0.25, 0.08}, card{0.80, 0.83, 0.68};

struct Region {
  std::vector<Vector3d> xyz = std::vector<Vector3d>(100, body);
  std::vector<bool> specular = std::vector<bool>(100, false);
  void flag(std::size_t i, const Vector3d& color) { xyz[i] = color, specular[i] = true; }
};

TEST(ThinPlaces, WhatLiesBetweenDepositAndGroundCounts) {
  Region region;
  region.flag(3, 0.5 * body + 0.5 * card);
  region.flag(4, {0.55, 0.52, 0.18});  // a film that absorbs short waves bends on its way
  keep_thin_places(region.specular, region.xyz, card);
  EXPECT_EQ(std::count(region.specular.begin(), region.specular.end(), true), 0);
}

TEST(ThinPlaces, BareGroundBetweenGillsIsNotTheDeposit) {
  Region region;
  for (std::size_t i = 0; i < 20; ++i)
    region.flag(i, i % 4 == 0 ? Vector3d(1.05 * card) : Vector3d(0.5 * body + 0.5 * card));
  keep_thin_places(region.specular, region.xyz, card);
  EXPECT_EQ(std::count(region.specular.begin(), region.specular.end(), true), 20);
}

TEST(ThinPlaces, WhatShinesBrighterThanTheGroundStaysOut) {
  Region region;
  region.flag(3, Vector3d(body + Vector3d::Constant(0.7)));
  region.flag(4, {0.95, 0.99, 0.81});
  keep_thin_places(region.specular, region.xyz, card);
  EXPECT_TRUE(region.specular[3]);
  EXPECT_TRUE(region.specular[4]);
}

TEST(ThinPlaces, OnABlackGroundPaleSpecksAreNoThinPlaces) {
  Region region;
  region.flag(7, Vector3d(body + Vector3d::Constant(0.2)));
  keep_thin_places(region.specular, region.xyz, {0.02, 0.02, 0.02});
  EXPECT_TRUE(region.specular[7]);
}

TEST(ThinPlaces, ARegionOfNothingElseIsLeftAlone) {
  Region region;
  std::fill(region.specular.begin(), region.specular.end(), true);
  keep_thin_places(region.specular, region.xyz, card);
  EXPECT_EQ(std::count(region.specular.begin(), region.specular.end(), true), 100);
}

}  // namespace
}  // namespace colorlib
