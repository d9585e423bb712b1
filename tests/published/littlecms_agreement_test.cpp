#include <gtest/gtest.h>
#include <lcms2.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <cstdio>
#include <random>

namespace colorlib {
namespace {

constexpr unsigned seed = 20310409;
constexpr int trials = 1'000'000;

TEST(LittleCms, AgreesOnCiede2000) {
  std::mt19937_64 generator(seed);
  std::uniform_real_distribution<double> lightness(0, 100), chromatic(-128, 128), near(-3, 3);
  double worst = 0;
  Lab worst_first, worst_second;
  for (int trial = 0; trial < trials; ++trial) {
    const double l = lightness(generator), a = chromatic(generator), b = chromatic(generator);
    const Lab first{l, a, b};
    // Every other pair is a close one, as most of this program's are.
    const double x = near(generator), y = near(generator), z = near(generator);
    const double m = lightness(generator), c = chromatic(generator), d = chromatic(generator);
    const Lab second = trial % 2 == 0 ? Lab{m, c, d} : Lab{l + x, a + y, b + z};
    const cmsCIELab one{first.l, first.a, first.b}, two{second.l, second.a, second.b};
    const double error =
        std::abs(cmsCIE2000DeltaE(&one, &two, 1, 1, 1) - difference_ciede2000(first, second));
    if (error > worst) worst = error, worst_first = first, worst_second = second;
  }
  std::printf(
      "seed %u, %d pairs: CIEDE2000 differs from LittleCMS by at most %.2e, at (%.3f, %.3f, %.3f) and (%.3f, "
      "%.3f, %.3f)\n",
      seed, trials, worst, worst_first.l, worst_first.a, worst_first.b, worst_second.l, worst_second.a,
      worst_second.b);
  // Rounding only: hues good to 1e-14 degree, and differences up to 200.
  EXPECT_LT(worst, 1e-11);
}

TEST(LittleCms, AgreesOnLab) {
  std::mt19937_64 generator(seed);
  std::uniform_real_distribution<double> value(0, 1.2);
  const cmsCIEXYZ white{white_d50.x, white_d50.y, white_d50.z};
  double worst = 0, worst_back = 0;
  for (int trial = 0; trial < trials; ++trial) {
    // The square crowds the dark, where the straight piece lies.
    const double x = value(generator), y = value(generator), z = value(generator);
    const Xyz xyz{x * x, y * y, z * z};
    const cmsCIEXYZ theirs{xyz.x, xyz.y, xyz.z};
    cmsCIELab lab;
    cmsXYZ2Lab(&white, &lab, &theirs);
    const Lab ours = lab_from_xyz(xyz, white_d50);
    worst = std::max({worst, std::abs(ours.l - lab.L), std::abs(ours.a - lab.a), std::abs(ours.b - lab.b)});
    cmsCIEXYZ back;
    cmsLab2XYZ(&white, &back, &lab);
    const Xyz our_back = xyz_from_lab({lab.L, lab.a, lab.b}, white_d50);
    worst_back = std::max({worst_back, std::abs(our_back.x - back.X), std::abs(our_back.y - back.Y),
                           std::abs(our_back.z - back.Z)});
  }
  std::printf("seed %u, %d colours: Lab differs from LittleCMS by at most %.2e, XYZ by %.2e\n", seed, trials,
              worst, worst_back);
  // Rounding of numbers near 1, times 500.
  EXPECT_LT(worst, 1e-12);
  EXPECT_LT(worst_back, 1e-14);
}

TEST(LittleCms, AgreesOnBradfordAdaptation) {
  std::mt19937_64 generator(seed);
  std::uniform_real_distribution<double> value(0, 1);
  double worst = 0;
  for (int trial = 0; trial < 10'000; ++trial) {
    const double x = value(generator), y = value(generator), z = value(generator);
    for (const auto& from : {white_a, white_c, white_d65}) {
      const cmsCIEXYZ theirs{x, y, z}, source{from.x, from.y, from.z},
          target{white_d50.x, white_d50.y, white_d50.z};
      cmsCIEXYZ result;
      ASSERT_TRUE(cmsAdaptToIlluminant(&result, &source, &target, &theirs));
      const Xyz ours = adapted({x, y, z}, from, white_d50, AdaptationMethod::bradford);
      worst = std::max(
          {worst, std::abs(ours.x - result.X), std::abs(ours.y - result.Y), std::abs(ours.z - result.Z)});
    }
  }
  std::printf("seed %u, 30000 adaptations: Bradford differs from LittleCMS by at most %.2e\n", seed, worst);
  // The same matrix; only the order of its products differs.
  EXPECT_LT(worst, 1e-14);
}

}  // namespace
}  // namespace colorlib
