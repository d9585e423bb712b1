#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <cstdio>
#include <random>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

constexpr AdaptationMethod both_methods[] = {AdaptationMethod::bradford, AdaptationMethod::cat16};
constexpr White every_white[] = {white_d50, white_d65, white_c, white_a};

double largest_difference(const Matrix3& a, const Matrix3& b) {
  double largest = 0;
  for (std::size_t i = 0; i < 9; ++i) largest = std::max(largest, std::abs(a.m[i] - b.m[i]));
  return largest;
}

TEST(Adaptation, CarriesWhiteToWhite) {
  for (const auto method : both_methods)
    for (const auto& from : every_white)
      for (const auto& to : every_white) {
        const Xyz xyz = adapted(from, from, to, method);
        // Rounding of a matrix and its inverse with entries below 3.
        EXPECT_NEAR(xyz.x, to.x, 1e-14);
        EXPECT_NEAR(xyz.y, to.y, 1e-14);
        EXPECT_NEAR(xyz.z, to.z, 1e-14);
      }
}

TEST(Adaptation, ToTheSameWhiteChangesNothingAtAll) {
  const Lab lab{51.3, -20.7, 33.1};
  for (const auto method : both_methods) {
    EXPECT_EQ(adaptation_matrix(white_c, white_c, method), Matrix3::identity());
    EXPECT_EQ(adapted_lab(lab, white_c, white_c, method), lab);
  }
}

TEST(Adaptation, ThereAndBackIsIdentity) {
  for (const auto method : both_methods) {
    const Matrix3 there_and_back =
        adaptation_matrix(white_a, white_d50, method) * adaptation_matrix(white_d50, white_a, method);
    EXPECT_LT(largest_difference(there_and_back, Matrix3::identity()), 1e-14);
  }
}

TEST(Adaptation, OverAThirdWhiteIsTheSame) {
  for (const auto method : both_methods) {
    const Matrix3 by_c =
        adaptation_matrix(white_c, white_d50, method) * adaptation_matrix(white_a, white_c, method);
    EXPECT_LT(largest_difference(by_c, adaptation_matrix(white_a, white_d50, method)), 1e-14);
  }
}

TEST(Adaptation, KeepsLabOfNeutrals) {
  for (const auto method : both_methods)
    for (const double lightness : {0.0, 5.0, 18.0, 50.0, 95.0, 100.0})
      // A grey is its white times a number, and von Kries adaptation is linear: only rounding remains.
      EXPECT_THAT(adapted_lab({lightness, 0, 0}, white_a, white_d65, method),
                  NearInDeltaE(Lab{lightness, 0, 0}, 1e-11));
}

TEST(Adaptation, LabThereAndBackReturns) {
  constexpr unsigned seed = 20310409;
  constexpr int trials = 20'000;
  std::mt19937_64 generator(seed);
  std::uniform_real_distribution<double> lightness(1, 100), chromatic(-60, 60);
  double worst = 0;
  for (int trial = 0; trial < trials; ++trial) {
    const Lab lab{lightness(generator), chromatic(generator), chromatic(generator)};
    for (const auto method : both_methods) {
      const Lab there = adapted_lab(lab, white_d65, white_d50, method);
      worst = std::max(worst, difference_cie76(adapted_lab(there, white_d50, white_d65, method), lab));
    }
  }
  std::printf("seed %u, %d colours: worst %.2e after D65 to D50 and back\n", seed, trials, worst);
  // XYZ keep 1e-15; d(a*)/dX is up to 500 * 7.8 in the dark.
  EXPECT_LT(worst, 1e-10);
}

}  // namespace
}  // namespace colorlib
