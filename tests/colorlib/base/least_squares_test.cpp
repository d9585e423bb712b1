#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/base/least_squares.hpp>
#include <limits>

namespace colorlib {
namespace {

using Values = std::vector<double>;

/// y = b0 + b1 x through four points; the answers by the normal equations.
LeastSquaresProblem line() {
  LeastSquaresProblem problem;
  problem.residual_count = 4;
  problem.start = {0, 0};
  problem.residuals = [](const Values& b, Values& r) {
    constexpr double x[] = {0, 1, 2, 3}, y[] = {1.1, 2.9, 5.2, 6.8};
    for (std::size_t i = 0; i < 4; ++i) r[i] = b[0] + b[1] * x[i] - y[i];
  };
  return problem;
}

TEST(LeastSquares, MeetsTheStraightLineInClosedForm) {
  const auto fit = least_squares(line());
  ASSERT_TRUE(fit);
  EXPECT_TRUE(fit->converged());
  EXPECT_NEAR(fit->parameters[0], 1.09, 1e-9);
  EXPECT_NEAR(fit->parameters[1], 1.94, 1e-9);
  EXPECT_NEAR(fit->residual_sum_of_squares, 0.082, 1e-9);
  const double s2 = 0.082 / 2;  // two residuals to spare
  EXPECT_NEAR(fit->standard_errors[0], std::sqrt(s2 * 14 / 20), 1e-7);
  EXPECT_NEAR(fit->standard_errors[1], std::sqrt(s2 * 4 / 20), 1e-7);
  EXPECT_NEAR(fit->covariance[1], -s2 * 6 / 20, 1e-7);
}

TEST(LeastSquares, StopsAtABound) {
  auto problem = line();
  problem.lower = {-10, -10};
  problem.upper = {10, 1.5};
  const auto fit = least_squares(problem);
  ASSERT_TRUE(fit);
  EXPECT_TRUE(fit->converged());
  EXPECT_EQ(fit->parameters[1], 1.5);
  EXPECT_NEAR(fit->parameters[0], 1.75, 1e-9);  // mean of y - 1.5 x
  EXPECT_EQ(fit->standard_errors[1], 0);
  EXPECT_GT(fit->standard_errors[0], 0);
}

TEST(LeastSquares, UsesAGivenJacobian) {
  auto problem = line();
  int calls = 0;
  problem.jacobian = [&](const Values&, Values& j) {
    ++calls;
    j = {1, 0, 1, 1, 1, 2, 1, 3};
  };
  const auto fit = least_squares(problem);
  ASSERT_TRUE(fit);
  EXPECT_GT(calls, 0);
  EXPECT_NEAR(fit->parameters[1], 1.94, 1e-9);
}

TEST(LeastSquares, StepsBackFromWhereResidualsAreNotDefined) {
  LeastSquaresProblem problem;
  problem.residual_count = 1;
  problem.start = {0.001};
  problem.residuals = [](const Values& b, Values& r) { r[0] = std::log(b[0]) - 1; };  // not defined below 0
  const auto fit = least_squares(problem);
  ASSERT_TRUE(fit);
  EXPECT_TRUE(fit->converged());
  EXPECT_NEAR(fit->parameters[0], std::exp(1.0), 1e-6);
}

TEST(LeastSquares, SaysWhenItDidNotArrive) {
  auto problem = line();
  LeastSquaresOptions options;
  options.most_iterations = 1;
  const auto fit = least_squares(problem, options);
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->stop, LeastSquaresStop::iteration_limit);
  EXPECT_FALSE(fit->converged());

  problem.residuals = [](const Values&, Values& r) { r[0] = std::numeric_limits<double>::quiet_NaN(); };
  const auto undefined = least_squares(problem);
  ASSERT_TRUE(undefined);
  EXPECT_EQ(undefined->stop, LeastSquaresStop::undefined_start);
  EXPECT_FALSE(undefined->converged());
  EXPECT_FALSE(stop_sentence(undefined->stop).empty());
}

TEST(LeastSquares, AParameterThatNothingFeelsHasNoError) {
  auto problem = line();
  problem.start = {0, 0, 7};
  const auto fit = least_squares(problem);
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->parameters[2], 7);
  EXPECT_EQ(fit->standard_errors[2], 0);
}

TEST(LeastSquares, RefusesWhatCannotBeMeant) {
  auto problem = line();
  problem.start.clear();
  EXPECT_FALSE(least_squares(problem));
  problem = line();
  problem.lower = {0};
  EXPECT_FALSE(least_squares(problem));
  problem = line();
  problem.lower = {1, 1};
  const auto outside = least_squares(problem);
  ASSERT_FALSE(outside);
  EXPECT_EQ(outside.error().code, ErrorCode::bad_call);
  EXPECT_THAT(outside.error().message, testing::HasSubstr("outside the bounds"));
}

}  // namespace
}  // namespace colorlib
