#include <gmock/gmock.h>

#include <colorlib/base/distribution_quantiles.hpp>
#include <limits>

namespace colorlib {
namespace {

using testing::DoubleNear;

/// Figures of scipy 1.10.1, an implementation independent of ours.
TEST(DistributionQuantiles, AgreeWithAnIndependentImplementation) {
  EXPECT_THAT(normal_quantile(0.975), DoubleNear(1.959963984540054, 1e-10));
  EXPECT_THAT(student_quantile(0.975, 2), DoubleNear(4.302652729911275, 1e-9));
  EXPECT_THAT(student_quantile(0.975, 7.5), DoubleNear(2.333039626555376, 1e-9));
  EXPECT_THAT(chi_squared_quantile(0.95, 3), DoubleNear(7.814727903251179, 1e-9));
  EXPECT_THAT(chi_squared_quantile(0.5, 3), DoubleNear(2.3659738843753377, 1e-9));
  EXPECT_THAT(fisher_quantile(0.95, 3, 5), DoubleNear(5.409451, 5e-7));
  EXPECT_THAT(chi_squared_upper_tail(7.814727903251179, 3), DoubleNear(0.05, 1e-12));
}

TEST(DistributionQuantiles, HaveTheirLimits) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  EXPECT_DOUBLE_EQ(student_quantile(0.9, infinity), normal_quantile(0.9));
  EXPECT_EQ(chi_squared_upper_tail(infinity, 3), 0);
  EXPECT_EQ(chi_squared_upper_tail(0, 3), 1);
}

}  // namespace
}  // namespace colorlib
