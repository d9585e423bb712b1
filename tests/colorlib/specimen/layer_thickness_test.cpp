#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/specimen/layer_thickness.hpp>
#include <random>

#include "tests/support/color_matchers.hpp"

namespace colorlib {
namespace {

// Worked values were computed independently, with Python and numpy, from the form of [KM1931] as it stands in
// the header.

TEST(LayerThickness, ForwardMeetsTheWorkedExample) {
  const LayerOptics ochre{0.35, 1.2};
  EXPECT_NEAR(layer_reflectance(ochre, 0.04), 0.336307, 1e-6);
  EXPECT_NEAR(layer_reflectance(ochre, 0.85), 0.380455, 1e-6);
  EXPECT_NEAR(contrast_ratio(ochre), 0.88396, 1e-5);
}

TEST(LayerThickness, InverseMeetsTheWorkedExamples) {
  struct Row {
    double over_black, black, over_white, white, masstone, scattering;
  };
  const Row rows[] = {{0.3363, 0.04, 0.3805, 0.85, 0.350010, 1.199565},
                      {0.30, 0.0, 0.45, 0.80, 0.3569689, 0.7044166},
                      {0.24, 0.05, 0.42, 0.90, 0.2815133, 0.508404},
                      {0.33, 0.05, 0.36, 0.85, 0.3387819, 1.2979506}};
  for (const Row& row : rows) {
    const auto layer = layer_from_two_grounds(row.over_black, row.black, row.over_white, row.white);
    ASSERT_TRUE(layer) << layer.error().message;
    EXPECT_NEAR(layer->masstone, row.masstone, 1e-6);
    EXPECT_NEAR(layer->scattering_power, row.scattering, 1e-6);
    const auto swapped = layer_from_two_grounds(row.over_white, row.white, row.over_black, row.black);
    EXPECT_NEAR(swapped->masstone, layer->masstone, 1e-12);
  }
}

TEST(LayerThickness, ContrastRatiosOfTheTable) {
  // Three digits were tabulated: half a unit of the last one.
  const double thickness[] = {0.25, 0.5, 1, 2, 4, 8};
  const double ochre[] = {0.300, 0.520, 0.819, 0.983, 1.000, 1.000};
  const double white[] = {0.265, 0.412, 0.596, 0.778, 0.914, 0.983};
  for (int i = 0; i < 6; ++i) {
    EXPECT_NEAR(contrast_ratio({0.35, thickness[i]}), ochre[i], 5.1e-4);
    EXPECT_NEAR(contrast_ratio({0.83, thickness[i]}), white[i], 5.1e-4);
  }
  EXPECT_NEAR(contrast_ratio({0.04, 0.25}), 0.961, 5.1e-4);
  // "Hiding", a contrast ratio of 98 %, is reached at S X = 1.93.
  EXPECT_NEAR(contrast_ratio({0.35, 1.93}), 0.98, 5e-4);
}

TEST(LayerThickness, NoiseGrowsAsTheTableSays) {
  // Noise of 0.005 in each reflectance: standard deviation of the masstone, from 4000 draws (their own
  // standard error is 1.1 %; the table has two digits).
  std::mt19937_64 random(20261125);
  std::normal_distribution<double> noise(0, 0.005);
  struct Row {
    double masstone, scattering, deviation;
  };
  for (const Row& row :
       {Row{0.35, 1.2, 0.0039}, Row{0.35, 0.25, 0.0070}, Row{0.83, 0.5, 0.031}, Row{0.83, 2, 0.009}}) {
    const double black = layer_reflectance({row.masstone, row.scattering}, 0.04);
    const double white = layer_reflectance({row.masstone, row.scattering}, 0.85);
    double sum = 0, squares = 0;
    int count = 0;
    for (int i = 0; i < 4000; ++i) {
      const auto layer = layer_from_two_grounds(black + noise(random), 0.04, white + noise(random), 0.85);
      if (!layer) continue;
      sum += layer->masstone, squares += layer->masstone * layer->masstone, ++count;
    }
    ASSERT_GT(count, 3900);
    const double deviation = std::sqrt(squares / count - sum * sum / count / count);
    EXPECT_NEAR(deviation, row.deviation, 0.12 * row.deviation) << row.masstone << ' ' << row.scattering;
  }
}

TEST(LayerThickness, InverseUndoesForwardForAnyLayer) {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> masstone(0.02, 0.95), power(-2.5, 1.0), ground(0.02, 0.9);
  double worst = 0;
  int tried = 0;
  while (tried < 2000) {
    const LayerOptics layer{masstone(random), std::exp(power(random))};
    const double first = ground(random), second = ground(random);
    const double over_first = layer_reflectance(layer, first), over_second = layer_reflectance(layer, second);
    // Closer ones leave too few digits to invert.
    if (std::abs(first - second) < 0.1 || std::abs(over_first - over_second) < 0.01) continue;
    ++tried;
    const auto back = layer_from_two_grounds(over_first, first, over_second, second);
    ASSERT_TRUE(back) << back.error().message;
    worst = std::max(worst, std::abs(back->masstone - layer.masstone));
  }
  std::printf("2000 layers: worst error of the masstone %.2g\n", worst);
  EXPECT_LT(worst, 1e-9);
}

TEST(LayerThickness, EndsOfTheRange) {
  EXPECT_EQ(layer_reflectance({0.3, 0}, 0.7), 0.7);
  EXPECT_NEAR(layer_reflectance({0.3, 1e-12}, 0.7), 0.7, 1e-9);
  EXPECT_NEAR(layer_reflectance({0.3, 500}, 0.7), 0.3, 1e-9);
  const auto hiding = layer_from_two_grounds(0.35, 0.04, 0.35, 0.85);
  ASSERT_TRUE(hiding);
  EXPECT_NEAR(hiding->masstone, 0.35, 1e-9);
  EXPECT_GT(hiding->scattering_power, 8);
}

TEST(LayerThickness, SaysWhyThereIsNoLayer) {
  using testing::HasSubstr;
  EXPECT_THAT(layer_from_two_grounds(0.3, 0.5, 0.31, 0.52),
              FailsWith(ErrorCode::untrustworthy, HasSubstr("a difference of at least 0.05 is needed")));
  EXPECT_THAT(layer_from_two_grounds(0.1, 0.3, 0.8, 0.6),
              FailsWith(ErrorCode::untrustworthy, HasSubstr("more between its two grounds")));
  EXPECT_THAT(layer_from_two_grounds(0.95, 0.04, 0.99, 0.85),
              FailsWith(ErrorCode::untrustworthy, HasSubstr("no layer that absorbs and scatters")));
}

}  // namespace
}  // namespace colorlib
