#include <gmock/gmock.h>

#include <colorlib/exports/screen_color.hpp>
#include <limits>

namespace colorlib {
namespace {

using testing::Eq;

TEST(ScreenColor, WhiteAndBlackAreTheEndsOfTheScreen) {
  EXPECT_THAT(screen_color_from_lab({100, 0, 0}).hex(), Eq("#ffffff"));
  EXPECT_THAT(screen_color_from_lab({0, 0, 0}).hex(), Eq("#000000"));
}

TEST(ScreenColor, ColoursOutsideTheScreenAreClippedAndSaySo) {
  EXPECT_FALSE(screen_color_from_lab({50, 20, 20}).clipped);
  EXPECT_TRUE(screen_color_from_lab({60, -120, 60}).clipped);
  EXPECT_TRUE(screen_color_from_lab({std::numeric_limits<double>::quiet_NaN(), 0, 0}).clipped);
}

}  // namespace
}  // namespace colorlib
