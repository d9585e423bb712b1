#include <gtest/gtest.h>

#include <colorlib/colorimetry/chromatic_adaptation.hpp>

namespace colorlib {
namespace {

// Figures: computed outside this project, seven decimals, from the matrices of ICC.1 annex E (linear
// Bradford) and Li et al. 2017 (CAT16), for the whites of ASTM E308.
constexpr double seven_decimals = 0.5e-7 + 1e-12;

constexpr auto bradford = AdaptationMethod::bradford;
constexpr auto cat16 = AdaptationMethod::cat16;

TEST(AdaptationCheckValues, Matrices) {
  struct {
    White from, to;
    AdaptationMethod method;
    Matrix3 matrix;
  } const rows[] = {
      {white_d65,
       white_d50,
       bradford,
       {{1.0478112, 0.0228866, -0.0501270, 0.0295424, 0.9904844, -0.0170491, -0.0092345, 0.0150436,
         0.7521316}}},
      {white_d50,
       white_d65,
       bradford,
       {{0.9555766, -0.0230393, 0.0631636, -0.0282895, 1.0099416, 0.0210077, 0.0122982, -0.0204830,
         1.3299098}}},
      {white_d65,
       white_d50,
       cat16,
       {{1.0108226, 0.0405991, -0.0341060, 0.0054139, 0.9935956, 0.0011560, 0.0002508, -0.0114802,
         0.7682115}}},
      {white_d50,
       white_d65,
       cat16,
       {{0.9894962, -0.0399233, 0.0439904, -0.0053911, 1.0066457, -0.0017541, -0.0004037, 0.0150564,
         1.3016843}}},
      {white_a,
       white_d65,
       bradford,
       {{0.8446965, -0.1179225, 0.3948108, -0.1366303, 1.1041226, 0.1291718, 0.0798489, -0.1348999,
         3.1924009}}},
      {white_a,
       white_d65,
       cat16,
       {{0.9506894, -0.1873763, 0.2627906, -0.0256652, 1.0323067, -0.0115596, -0.0027406, 0.0909675,
         2.8126265}}},
  };
  int number = 0;
  for (const auto& row : rows) {
    const Matrix3 matrix = adaptation_matrix(row.from, row.to, row.method);
    for (std::size_t i = 0; i < 9; ++i)
      EXPECT_NEAR(matrix.m[i], row.matrix.m[i], seven_decimals) << "matrix " << number << ", entry " << i;
    ++number;
  }
}

TEST(AdaptationCheckValues, OneColour) {
  // Printed for Y = 100: seven decimals there are nine here.
  const Xyz by_bradford = adapted({0.30, 0.28, 0.12}, white_d50, white_d65, bradford);
  EXPECT_NEAR(by_bradford.x, 0.287801604, 1e-9);
  EXPECT_NEAR(by_bradford.y, 0.276817708, 1e-9);
  EXPECT_NEAR(by_bradford.z, 0.157543382, 1e-9);
  const Xyz by_cat16 = adapted({0.30, 0.28, 0.12}, white_d50, white_d65, cat16);
  EXPECT_NEAR(by_cat16.x, 0.290949176, 1e-9);
  EXPECT_NEAR(by_cat16.y, 0.280032975, 1e-9);
  EXPECT_NEAR(by_cat16.z, 0.160296791, 1e-9);
}

}  // namespace
}  // namespace colorlib
