#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/chart/surroundings.hpp>

namespace colorlib {
namespace {

/// Left half dark, right half bright, 640 x 480 px.
Photo two_halves(float dark, float bright) {
  ImageF picture(480, 640, 3);
  for (int r = 0; r < picture.rows; ++r)
    for (int c = 0; c < picture.columns; ++c)
      for (int k = 0; k < 3; ++k) picture.at(r, c)[k] = c < 320 ? dark : bright;
  PhotoEncoding encoding;
  encoding.kind = EncodingKind::linear_sensor;  // values are light: the expectation needs no curve
  return {std::move(picture), encoding, {}, "halves"};
}

ChartDefinition sheet() {
  ChartDefinition chart;
  chart.width_mm = 160;
  chart.height_mm = 120;
  return chart;
}

Placement four_px_a_mm() {
  Placement placement;
  placement.homography = Matrix3{{4, 0, 0, 0, 4, 0, 0, 0, 1}};
  return placement;
}

TEST(Surroundings, FollowTheLogOfTheLightAroundAPlace) {
  const Surroundings around(two_halves(0.05f, 0.4f), sheet(), four_px_a_mm());
  const double step = std::log(0.4 / 0.05);
  const auto dark = around.at({5, 60}), bright = around.at({155, 60}), edge = around.at({80, 60});
  for (std::size_t s = 0; s < 2; ++s) {
    // Far from the edge (at least 75 mm = 300 px, over five standard deviations) nothing of the other side is
    // left.
    EXPECT_NEAR(bright[s] - dark[s], step, 0.01);
    EXPECT_NEAR(edge[s] - dark[s], step / 2, 0.1 * step);
  }
  // The wider scale is the smoother one: a little to the right of the edge it has climbed less.
  EXPECT_LT(around.at({88, 60})[1], around.at({88, 60})[0]);
}

TEST(Surroundings, HaveMeanZeroOverTheSheetAndHoldAtItsEdge) {
  const Surroundings around(two_halves(0.1f, 0.1f), sheet(), four_px_a_mm());
  for (const PointMm place : {PointMm{0, 0}, PointMm{160, 120}, PointMm{-30, 500}})
    for (const double value : around.at(place)) EXPECT_NEAR(value, 0, 1e-6);
}

TEST(Surroundings, ASenselessPlacementGivesNothing) {
  Placement nowhere;
  nowhere.homography = Matrix3{{0, 0, 0, 0, 0, 0, 0, 0, 0}};
  const Surroundings around(two_halves(0.05f, 0.4f), sheet(), nowhere);
  for (const double value : around.at({80, 60})) EXPECT_EQ(value, 0);
}

}  // namespace
}  // namespace colorlib
