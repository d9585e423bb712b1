#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/base/small_matrix.hpp>
#include <cstdio>
#include <random>

namespace colorlib {
namespace {

// The unsymmetric example that all cases below use; its determinant, by hand: 1(50-48) - 2(40-42) + 3(32-35)
// = -3.
constexpr Matrix3 example{{1, 2, 3, 4, 5, 6, 7, 8, 10}};

TEST(SmallMatrix, IsRowMajor) {
  EXPECT_EQ(example(0, 2), 3);
  EXPECT_EQ(example(2, 0), 7);
}

TEST(SmallMatrix, MultipliesVectorsFromTheRight) {
  EXPECT_EQ((example * Vector3{1, 0, 0}), (Vector3{1, 4, 7}));
  EXPECT_EQ((example * Vector3{1, -1, 2}), (Vector3{5, 11, 19}));
}

TEST(SmallMatrix, MultipliesMatricesInOrder) {
  const Matrix3 right = Matrix3::diagonal(2, 3, 4);
  EXPECT_EQ(example * right, (Matrix3{{2, 6, 12, 8, 15, 24, 14, 24, 40}}));
  EXPECT_EQ(right * example, (Matrix3{{2, 4, 6, 12, 15, 18, 28, 32, 40}}));
}

TEST(SmallMatrix, AddsScalesAndTransposes) {
  EXPECT_EQ(2 * example, example + example);
  EXPECT_EQ(transpose(example), (Matrix3{{1, 4, 7, 2, 5, 8, 3, 6, 10}}));
  EXPECT_EQ(example * Matrix3::identity(), example);
}

TEST(SmallMatrix, ChangesIntoAnotherLibrarysMatrixAndBack) {
  struct Columnwise {
    double column[3][3];
    double& operator()(int row, int at) { return column[at][row]; }
    double operator()(int row, int at) const { return column[at][row]; }
  };
  const auto other = converted<Columnwise>(example);
  EXPECT_EQ(other.column[2][0], 3) << "first row, last column";
  EXPECT_EQ(matrix3_from(other), example);
}

TEST(SmallMatrix, DeterminantOfTheExample) { EXPECT_EQ(determinant(example), -3); }

TEST(SmallMatrix, InverseTimesMatrixIsIdentity) {
  constexpr unsigned seed = 20310409;
  constexpr int trials = 100'000;
  std::mt19937_64 generator(seed);
  std::uniform_real_distribution<double> entry(-1, 1);
  double worst = 0;
  for (int trial = 0; trial < trials; ++trial) {
    Matrix3 matrix;
    for (double& value : matrix.m) value = entry(generator);
    const double size = std::abs(determinant(matrix));
    if (size < 1e-3) continue;
    const Matrix3 product = matrix * inverse(matrix);
    for (int r = 0; r < 3; ++r)
      for (int c = 0; c < 3; ++c) worst = std::max(worst, size * std::abs(product(r, c) - (r == c)));
  }
  std::printf("seed %u, %d trials: worst |A inv(A) - 1| times |det A| is %.2e\n", seed, trials, worst);
  // A dozen roundings of numbers below 3, made larger by 1/det only.
  EXPECT_LT(worst, 2e-15);
}

}  // namespace
}  // namespace colorlib
