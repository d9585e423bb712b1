#include <gtest/gtest.h>

#include <colorlib/chart/print_scale.hpp>

namespace colorlib {
namespace {

TEST(PrintScale, HalfAMillimetreIsAllowed) {
  EXPECT_TRUE(print_scale_from(50).true_to_size);
  EXPECT_TRUE(print_scale_from(49.5).true_to_size);
  EXPECT_TRUE(print_scale_from(50.5).true_to_size);
  EXPECT_FALSE(print_scale_from(49.4).true_to_size);
}

TEST(PrintScale, SaysWhatToSet) {
  const PrintScale fitted = print_scale_from(48.5);  // "fit to page" on A4: 97 %
  EXPECT_NEAR(fitted.scale, 0.97, 1e-12);
  EXPECT_NEAR(fitted.set_percent, 103.09, 0.01);
  EXPECT_NE(fitted.advice.find("97.0 %"), std::string::npos);
}

}  // namespace
}  // namespace colorlib
