#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/reaction/frame_alignment.hpp>
#include <cstdio>
#include <random>

namespace colorlib {
namespace {

using testing::DoubleNear;
using testing::Ge;
using testing::Lt;

/// A piece of tissue with an uneven rim and a few blotches on a ground, 4 px a mm, moved and turned about the
/// window's centre.
RectifiedWindow tissue(double dx_mm, double dy_mm, double turn_deg, double inside_l, unsigned noise_seed) {
  RectifiedWindow window{{60, 40, 28, 28}, 4, ImageF(112, 112, 3)};
  std::mt19937 random(noise_seed);
  std::normal_distribution<float> noise(0, 0.4f);
  const double turn = turn_deg * 3.14159265358979 / 180;
  for (int r = 0; r < 112; ++r)
    for (int c = 0; c < 112; ++c) {
      const PointMm p = window.mm_of(r, c);
      const double x = p.x - 74 - dx_mm, y = p.y - 54 - dy_mm;
      const double u = std::cos(turn) * x + std::sin(turn) * y, v = -std::sin(turn) * x + std::cos(turn) * y;
      const double angle = std::atan2(v, u), distance = std::hypot(u, v);
      const double rim = 8 + 0.6 * std::sin(3 * angle) + 0.4 * std::sin(5 * angle + 1);
      const double share = 1 / (1 + std::exp((distance - rim) * 6));
      const double blotch = 3 * std::exp(-((u - 5.2) * (u - 5.2) + (v + 3.5) * (v + 3.5)) / 1.5);
      window.lab.at(r, c)[0] = static_cast<float>(40 + share * (inside_l - 40 - blotch)) + noise(random);
    }
  return window;
}

bool outside_spot(const PointMm& p) { return std::hypot(p.x - 74, p.y - 54) > 4.5; }

TEST(FrameAlignment, FollowsShiftAndTurnWithinATenthOfAMillimetre) {
  double worst_mm = 0, worst_deg = 0;
  unsigned seed = 1;
  for (const auto& [dx, dy, turn] :
       {std::tuple{0.0, 0.0, 0.0}, {0.8, -0.5, 0.0}, {-2.3, 1.7, 3.0}, {4.0, 3.0, -4.0}, {0.3, 0.1, 8.0}}) {
    const Movement movement =
        movement_between(tissue(0, 0, 0, 75, seed), tissue(dx, dy, turn, 75, seed + 50), outside_spot);
    ++seed;
    worst_mm = std::max(worst_mm, std::hypot(movement.dx_mm - dx, movement.dy_mm - dy));
    worst_deg = std::max(worst_deg, std::abs(movement.turn_deg - turn));
    EXPECT_THAT(movement.quality, Ge(0.8)) << dx << " " << dy << " " << turn;
  }
  std::printf("worst: %.3f mm, %.2f degrees\n", worst_mm, worst_deg);
  EXPECT_THAT(worst_mm, Lt(0.1));  // as the header promises
  EXPECT_THAT(worst_deg, Lt(1.0));
}

TEST(FrameAlignment, AStainThatTurnsFromPaleToDarkIsNoMovement) {
  const Movement movement = movement_between(tissue(0, 0, 0, 75, 1), tissue(0, 0, 0, 20, 2), outside_spot);
  EXPECT_THAT(std::hypot(movement.dx_mm, movement.dy_mm), Lt(0.15));
  EXPECT_THAT(movement.quality, Ge(0.7));
}

TEST(FrameAlignment, SomethingElseInThePictureHasNoQuality) {
  RectifiedWindow hand = tissue(0, 0, 0, 75, 3);
  for (int r = 0; r < 112; ++r)
    for (int c = 0; c < 112; ++c) hand.lab.at(r, c)[0] = 55 + (c / 9 % 2 == 0 ? 8.f : -8.f);
  EXPECT_THAT(movement_between(tissue(0, 0, 0, 75, 4), hand, outside_spot).quality, Lt(0.3));
}

TEST(FrameAlignment, BareGroundCannotBeFollowed) {
  const Movement movement = movement_between(tissue(0, 0, 0, 40, 5), tissue(0, 0, 0, 40, 6), outside_spot);
  EXPECT_THAT(movement.contrast, Lt(AlignmentOptions().least_contrast));
  EXPECT_THAT(movement.dx_mm, DoubleNear(0, 0));
}

TEST(FrameAlignment, PointsMoveAboutTheCentre) {
  Movement movement;
  movement.dx_mm = 1, movement.turn_deg = 90;
  const PointMm p = moved_point(movement, {10, 10}, {12, 10});
  EXPECT_THAT(p.x, DoubleNear(11, 1e-9));
  EXPECT_THAT(p.y, DoubleNear(12, 1e-9));
}

}  // namespace
}  // namespace colorlib
