#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/reference_table.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <cstdio>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

// Half a unit of the fourth decimal, and a little for figures that lie on the edge of rounding.
constexpr double four_decimals = 0.5e-4 + 1e-9;

TEST(PublishedCiede2000Pairs, AllThirtyFourComeOutInBothOrders) {
  const auto table =
      ReferenceTable::read(TINTFALL_SOURCE_FOLDER "/tests/published/ciede2000_pairs.csv", "the pairs");
  ASSERT_TRUE(table) << table.error().message;
  const auto columns = table->require({"L1", "a1", "b1", "L2", "a2", "b2", "dE00"});
  ASSERT_TRUE(columns) << columns.error().message;
  ASSERT_EQ(table->rows(), 34u);
  double worst = 0;
  for (std::size_t row = 0; row < table->rows(); ++row) {
    const auto value = [&](std::size_t column) { return table->number(row, (*columns)[column]).value(); };
    const Lab first{value(0), value(1), value(2)}, second{value(3), value(4), value(5)};
    const double published = value(6);
    EXPECT_NEAR(difference_ciede2000(first, second), published, four_decimals) << "pair " << row + 1;
    EXPECT_NEAR(difference_ciede2000(second, first), published, four_decimals)
        << "pair " << row + 1 << ", swapped";
    worst = std::max(worst, std::abs(difference_ciede2000(first, second) - published));
  }
  std::printf("34 pairs: worst distance from the published four decimals %.2e\n", worst);
}

TEST(PublishedCiede2000Pairs, AFurtherPair) {
  // Computed independently of this project, four decimals each.
  const Lab first{42, 19, 29}, second{45, 15, 25};
  EXPECT_NEAR(difference_ciede2000(first, second), 3.7358, four_decimals);
  EXPECT_NEAR(difference_cie76(first, second), 6.4031, four_decimals);
}

}  // namespace
}  // namespace colorlib
