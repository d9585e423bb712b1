#include <gtest/gtest.h>
#include <colorlib/chart/edge_refinement.hpp>

#include <cmath>
#include <cstdio>

#include "tests/colorlib/chart/sheet_photo.hpp"

namespace colorlib {
namespace {

using test::RandomStance;

struct Border {
  PointPx through{60, 60};
  double angle = 0;  // of the normal, which points to the second colour
  Vector3 inside{0.02, 0.02, 0.02}, outside{0.6, 0.6, 0.6};
  double blur_px = 1;
  double width_px = 1e9;  // a second border back to `inside` at this distance
};

/// Linear light of a blurred half plane (or stripe), sRGB-encoded to 8 bit.
Photo picture_of(const Border& border, double noise_sd, unsigned seed) {
  Image8 file(120, 120, 3);
  RandomStance random(seed);
  const double nx = std::cos(border.angle), ny = std::sin(border.angle);
  for (int row = 0; row < file.rows; ++row)
    for (int column = 0; column < file.columns; ++column)
      for (std::size_t k = 0; k < 3; ++k) {
        double sum = 0;
        for (int sub = 0; sub < 16; ++sub) {
          const double x = column - 0.375 + 0.25 * (sub % 4), y = row - 0.375 + 0.25 * (sub / 4);
          const double s = (x - border.through.x) * nx + (y - border.through.y) * ny;
          const auto step = [&](double d) { return 0.5 * std::erfc(-d / (border.blur_px * std::sqrt(2.0))); };
          sum += border.inside[k] +
                 (border.outside[k] - border.inside[k]) * (step(s) - step(s - border.width_px));
        }
        const double linear = sum / 16;
        double v = linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
        double bell = -1.5;
        for (int i = 0; i < 3; ++i) bell += random.uniform(0, 1);
        v += 2 * noise_sd * bell;
        file.at(row, column)[k] =
            static_cast<std::uint8_t>(std::lround(255 * std::min(1.0, std::max(0.0, v))));
      }
  return Photo(std::move(file), {}, {}, "border.png");
}

EdgeSearch search_near(const Border& border, double off_px) {
  EdgeSearch search;
  search.normal = {std::cos(border.angle), std::sin(border.angle)};
  search.at = {border.through.x + off_px * search.normal.x, border.through.y + off_px * search.normal.y};
  search.reach_px = 12;
  return search;
}

TEST(LocateEdge, FindsSharpAndBlurredBordersAtAnyAngle) {
  RandomStance random(31);
  double sum = 0, bias = 0, worst = 0, spread = 0;
  constexpr int trials = 300;
  for (int trial = 0; trial < trials; ++trial) {
    Border border;
    border.angle = trial % 5 == 0 ? 1.5707963267948966 * (trial % 4) : random.uniform(0, 6.28);
    border.through = {random.uniform(58, 62), random.uniform(58, 62)};
    border.blur_px = random.uniform(0.6, 2);
    if (trial % 2) std::swap(border.inside, border.outside);
    const double off = random.uniform(-4, 4);
    const auto found =
        locate_edge(picture_of(border, 0.01, static_cast<unsigned>(trial)), search_near(border, off));
    ASSERT_TRUE(found) << "trial " << trial;
    const double error = found->offset_px + off;
    sum += error * error;
    bias += error;
    worst = std::max(worst, std::fabs(error));
    spread = std::max(spread, std::fabs(found->spread_px - std::hypot(border.blur_px, 0.4)));
  }
  std::printf("seed 31, %d trials: rms %.3f px, mean %.3f px, worst %.3f px; spread off by at most %.2f px\n",
              trials, std::sqrt(sum / trials), bias / trials, worst, spread);
  EXPECT_LE(std::sqrt(sum / trials), 0.05);  // the header's bound
  EXPECT_LE(std::fabs(bias / trials), 0.01);
  EXPECT_LE(spread, 0.4);
}

TEST(LocateEdge, TellsAWideBlurThroughNoise) {
  for (const double blur_px : {3.0, 6.0, 9.0}) {
    SCOPED_TRACE(blur_px);
    Border border;
    border.blur_px = blur_px;
    EdgeSearch search = search_near(border, 0.5);
    search.reach_px = 4 * blur_px + 4;
    search.spread_px = blur_px;
    const auto found = locate_edge(picture_of(border, 0.01, 5), search);
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->wide_spread_px, blur_px, 0.1 * blur_px);
    EXPECT_NEAR(found->spread_px, blur_px, 0.15 * blur_px);
  }
}

TEST(LocateEdge, ADarkSquareDoesNotShrinkByItsBlur) {
  // The trap of encoded values: half height of the *encoded* profile lies about 0.7 blurs inside the dark
  // side.
  Border border;
  border.blur_px = 1.5;
  const auto found = locate_edge(picture_of(border, 0, 1), search_near(border, 0));
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->offset_px, 0, 0.02);
}

TEST(LocateEdge, SeesBordersOfHueAlone) {
  // Equal luminance weights, red against green.
  Border border;
  border.inside = {0.40, 0.20, 0.10};
  border.outside = {0.18, 0.30, 0.10};
  const auto found = locate_edge(picture_of(border, 0.005, 2), search_near(border, 2));
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->offset_px, -2, 0.15);
}

TEST(LocateEdge, IsNotMovedByANeighbouringBorder) {
  Border border;
  border.blur_px = 1.2;
  border.width_px = 6;
  EdgeSearch search = search_near(border, 0.4);
  search.reach_px = 4.5;
  search.clear_px = 6;
  const auto found = locate_edge(picture_of(border, 0.003, 3), search);
  ASSERT_TRUE(found);
  EXPECT_NEAR(found->offset_px, -0.4, 0.1);
}

TEST(LocateEdge, RefusesWhatIsNotOneBorder) {
  Border plain;
  plain.outside = plain.inside = {0.3, 0.3, 0.3};
  EXPECT_FALSE(locate_edge(picture_of(plain, 0.01, 4), search_near(plain, 0)));

  Border stripe;
  stripe.width_px = 5;  // starts and ends inside the profile
  EXPECT_FALSE(locate_edge(picture_of(stripe, 0.003, 5), search_near(stripe, 2)));

  Border border;
  EdgeSearch wrong_way = search_near(border, 0);
  wrong_way.brighter_outside = -1;
  EXPECT_FALSE(locate_edge(picture_of(border, 0.003, 6), wrong_way));

  Border noisy;
  noisy.inside = {0.300, 0.300, 0.300};
  noisy.outside = {0.308, 0.308, 0.308};
  EXPECT_FALSE(locate_edge(picture_of(noisy, 0.05, 7), search_near(noisy, 0)));
}

TEST(LocateEdge, RefusesToLeaveThePhoto) {
  const Border border;
  const Photo photo = picture_of(border, 0, 8);
  EdgeSearch search = search_near(border, 0);
  search.at = {5, 60};
  EXPECT_FALSE(locate_edge(photo, search));
  search.at = {1e300, 60};
  EXPECT_FALSE(locate_edge(photo, search));
  search.at = {std::nan(""), 60};
  EXPECT_FALSE(locate_edge(photo, search));
}

}  // namespace
}  // namespace colorlib
