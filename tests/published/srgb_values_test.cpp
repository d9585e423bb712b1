#include <gtest/gtest.h>

#include <colorlib/colorimetry/color_spaces.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

Lab lab_from_srgb8(int red, int green, int blue) {
  return lab_from_xyz(xyz_from_linear_srgb({linear_from_srgb(red / 255.0), linear_from_srgb(green / 255.0),
                                            linear_from_srgb(blue / 255.0)}),
                      white_d65);
}

TEST(SrgbCheckValues, DecodingOfEightBitValues) {
  // Computed outside this project from IEC 61966-2-1, seven decimals.
  struct {
    int encoded;
    double linear;
  } const rows[] = {{0, 0},           {1, 0.0003035},   {10, 0.0030353},  {11, 0.0033465},
                    {64, 0.0512695},  {119, 0.1844750}, {127, 0.2122308}, {128, 0.2158605},
                    {188, 0.5028865}, {200, 0.5775804}, {254, 0.9911021}, {255, 1}};
  for (const auto& row : rows)
    EXPECT_NEAR(linear_from_srgb(row.encoded / 255.0), row.linear, 0.5e-7 + 1e-12) << row.encoded;
}

TEST(SrgbCheckValues, EncodingOnTheEightBitScale) {
  EXPECT_NEAR(255 * srgb_from_linear(0.18), 117.6458, 0.5e-4 + 1e-9);
  EXPECT_NEAR(255 * srgb_from_linear(0.5), 187.5160, 0.5e-4 + 1e-9);
}

TEST(SrgbCheckValues, XyzToRgbIsTheSevenDigitMatrixOfTheAmendment) {
  // IEC 61966-2-1/A1:2003, cited from memory; equal to the exact inverse of the four-digit matrix.
  constexpr double published[3][3] = {{3.2406255, -1.5372080, -0.4986286},
                                      {-0.9689307, 1.8757561, 0.0415175},
                                      {0.0557101, -0.2040211, 1.0569959}};
  const LinearRgb columns[3] = {linear_srgb_from_xyz({1, 0, 0}), linear_srgb_from_xyz({0, 1, 0}),
                                linear_srgb_from_xyz({0, 0, 1})};
  for (int c = 0; c < 3; ++c) {
    EXPECT_NEAR(columns[c].r, published[0][c], 0.5e-7 + 1e-12) << c;
    EXPECT_NEAR(columns[c].g, published[1][c], 0.5e-7 + 1e-12) << c;
    EXPECT_NEAR(columns[c].b, published[2][c], 0.5e-7 + 1e-12) << c;
  }
}

TEST(SrgbCheckValues, LabOfTwoColours) {
  // The standard's four-digit matrix and the white (0.95047, 1, 1.08883), computed outside this project, four
  // decimals.
  EXPECT_NEAR(difference_cie76(lab_from_srgb8(255, 0, 0), {53.2329, 80.1093, 67.2201}), 0, 1e-4);
  EXPECT_NEAR(difference_cie76(lab_from_srgb8(200, 150, 90), {65.6163, 11.8725, 38.6593}), 0, 1e-4);
}

}  // namespace
}  // namespace colorlib
