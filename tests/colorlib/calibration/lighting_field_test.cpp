#include <gtest/gtest.h>

#include <colorlib/calibration/lighting_field.hpp>

namespace colorlib {
namespace {

TEST(LightingBasis, HasNoConstantAndTheRightCount) {
  for (const auto& [order, count] : {std::pair{1, 2}, {2, 5}, {3, 9}, {4, 14}}) {
    const LightingBasis basis(210, 148, order);
    EXPECT_EQ(basis.size(), count);
    std::vector<double> values(static_cast<std::size_t>(count), 1);
    basis.values({105, 74}, values.data());  // the sheet's centre
    for (const double v : values) EXPECT_EQ(v, 0);
  }
}

TEST(LightingBasis, MeasuresInHalfDiagonals) {
  const LightingBasis basis(80, 60, 2);  // half diagonal 50 mm
  double v[5];
  basis.values({40 + 50, 30 - 25}, v);
  EXPECT_DOUBLE_EQ(v[0], -0.5);  // y
  EXPECT_DOUBLE_EQ(v[1], 1);     // x
  EXPECT_DOUBLE_EQ(v[2], 0.25);  // y^2
  EXPECT_DOUBLE_EQ(v[3], -0.5);  // x y
  EXPECT_DOUBLE_EQ(v[4], 1);     // x^2
}

}  // namespace
}  // namespace colorlib
