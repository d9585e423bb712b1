#include <gmock/gmock.h>

#include <cmath>
#include <colorlib/reaction/change_map.hpp>
#include <random>

namespace colorlib {
namespace {

using testing::DoubleNear;
using testing::Ge;
using testing::Optional;

/// 30 mm x 30 mm at 4 px a mm; `stain(distance from the middle)` is taken off L*.
template <class Stain>
RectifiedWindow window(Stain stain, float noise_sd, unsigned seed) {
  RectifiedWindow w{{60, 40, 30, 30}, 4, ImageF(120, 120, 3)};
  std::mt19937 random(seed);
  std::normal_distribution<float> noise(0, noise_sd);
  for (int r = 0; r < 120; ++r)
    for (int c = 0; c < 120; ++c) {
      const PointMm p = w.mm_of(r, c);
      float* lab = w.lab.at(r, c);
      lab[0] = static_cast<float>(80 - stain(std::hypot(p.x - 75, p.y - 55))) + noise(random);
      lab[1] = 2, lab[2] = 15;
    }
  return w;
}

const auto nothing = [](double) { return 0.0; };
const Region spot{"A", RegionKind::spot, {}, EllipseShape{75, 55, 4, 4}};
const Region corner{"C", RegionKind::control, {}, EllipseShape{64, 44, 3, 3}};

ChangedArea area_of(const RectifiedWindow& now, const Vector3& light = {1, 1, 1}) {
  const ChangeMap map = change_map(window(nothing, 0.5f, 1), now, light);
  return changed_area(map, spot, map_noise_de00(map, corner));
}

TEST(ChangeMap, AreaOfADiscIsMeasuredInSquareMillimetres) {
  const ChangedArea area = area_of(window([](double d) { return d < 6 ? 20.0 : 0.0; }, 0.5f, 2));
  EXPECT_TRUE(area.trusted);
  // The map is smoothed over 3 x 3 pixels: the edge lies within one pixel of a quarter millimetre, 9 mm2
  // round the rim.
  EXPECT_THAT(area.area_mm2, DoubleNear(3.14159 * 36, 9.5));
  EXPECT_THAT(area.radius_mm, DoubleNear(6, 0.25));
  EXPECT_THAT(area.centre.x, DoubleNear(75, 0.2));
  EXPECT_FALSE(area.ring);
}

TEST(ChangeMap, ARingIsToldFromADisc) {
  const ChangedArea area =
      area_of(window([](double d) { return d > 4 && d < 6 ? 20.0
                                           : d < 4        ? 6.0
                                                          : 0.0; }, 0.5f, 3));
  EXPECT_TRUE(area.trusted);
  EXPECT_TRUE(area.ring);
}

TEST(ChangeMap, LightThatChangedIsTakenOut) {
  // Everything is darker by 4 L*: as a factor of Y from 80 to 76.
  const auto darker = window([](double) { return 4.0; }, 0.5f, 4);
  EXPECT_THAT(area_of(darker).noise_de00, Ge(2.0));
  const double factor = std::pow((76.0 + 16) / (80.0 + 16), 3);
  const ChangedArea area = area_of(darker, {factor, factor, factor});
  EXPECT_TRUE(area.trusted);
  EXPECT_THAT(area.area_mm2, DoubleNear(0, 0));
}

TEST(ChangeMap, BelowItsOwnNoiseNoMapIsTrusted) {
  const ChangedArea area = area_of(window(nothing, 25.f, 5));
  EXPECT_FALSE(area.trusted);
  EXPECT_FALSE(
      changed_area(change_map(window(nothing, 0, 1), window(nothing, 0, 1), {1, 1, 1}), spot, std::nullopt)
          .trusted);
}

TEST(ChangeMap, WettingRaisesTheTolerance) {
  const ChangeMap map = change_map(window(nothing, 0.2f, 1),
                                   window([](double d) { return d < 5 ? 4.0 : 0.0; }, 0.2f, 6), {1, 1, 1});
  ChangedAreaOptions options;
  EXPECT_THAT(changed_area(map, spot, map_noise_de00(map, corner), options).area_mm2, Ge(50));
  options.wetting_de00 = 3.0;
  EXPECT_THAT(changed_area(map, spot, map_noise_de00(map, corner), options).area_mm2, DoubleNear(0, 0));
}

TEST(SpreadingSpeed, IsTheSlopeWhileTheStainGrows) {
  std::vector<SpreadPoint> points;
  for (int t = 0; t <= 100; t += 5) points.push_back({static_cast<double>(t), std::min(0.1 * t, 6.0)});
  EXPECT_THAT(spreading_speed_mm_s(points), Optional(DoubleNear(0.1, 1e-9)));
  EXPECT_FALSE(spreading_speed_mm_s({{0, 0}, {1, 0.1}, {2, 0.2}}).has_value());
  EXPECT_FALSE(spreading_speed_mm_s({{0, 0}, {1, 6}, {2, 6}}).has_value());
}

}  // namespace
}  // namespace colorlib
