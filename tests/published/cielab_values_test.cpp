#include <gtest/gtest.h>

#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

// Figures: computed outside this project from ISO/CIE 11664-4 with its exact fractions, four decimals.
constexpr double four_decimals = 0.5e-4 + 1e-9;

TEST(CielabCheckValues, XyzUnderTwoWhites) {
  // XYZ and Lab with Y = 100 for white, as printed.
  struct {
    Xyz xyz;
    White white;
    Lab lab;
  } const rows[] = {
      {{20, 20, 20}, white_d65, {51.8372, 4.9934, 3.2713}},
      {{20, 20, 20}, white_d50, {51.8372, 3.5730, -7.7351}},
      {{10, 9, 5}, white_d65, {35.9843, 11.9724, 18.0083}},
      {{10, 9, 5}, white_d50, {35.9843, 10.8451, 11.0747}},
      {{70, 72, 50}, white_d65, {87.9686, 3.3929, 24.9559}},
      {{70, 72, 50}, white_d50, {87.9686, 1.2363, 10.0179}},
      {{0.5, 0.5, 0.5}, white_d65, {4.5165, 1.0145, 0.6353}},
      {{0.5, 0.5, 0.5}, white_d50, {4.5165, 0.7224, -1.6494}},
  };
  for (const auto& row : rows) {
    const Xyz xyz{row.xyz.x / 100, row.xyz.y / 100, row.xyz.z / 100};
    const Lab lab = lab_from_xyz(xyz, row.white);
    EXPECT_NEAR(lab.l, row.lab.l, four_decimals);
    EXPECT_NEAR(lab.a, row.lab.a, four_decimals);
    EXPECT_NEAR(lab.b, row.lab.b, four_decimals);
    const Xyz back = xyz_from_lab(row.lab, row.white);
    // Four decimals of Lab are worth at most 0.00005 * 3 / 116 of XYZ, and a* and b* add to it.
    EXPECT_NEAR(back.x, xyz.x, 3e-6);
    EXPECT_NEAR(back.y, xyz.y, 3e-6);
    EXPECT_NEAR(back.z, xyz.z, 3e-6);
  }
}

TEST(CielabCheckValues, LightnessOfLuminance) {
  struct {
    double y_percent, lightness;
  } const rows[] = {{100, 100},  {50, 76.0693},  {18.4187, 50.0001}, {18, 49.4961}, {10, 37.8424},
                    {1, 8.9914}, {0.8856452, 8}, {0.5, 4.5165},      {0, 0}};
  for (const auto& row : rows)
    EXPECT_NEAR(lab_from_xyz({0, row.y_percent / 100, 0}, white_d50).l, row.lightness, four_decimals)
        << row.y_percent;
}

}  // namespace
}  // namespace colorlib
