#include <gtest/gtest.h>

#include <colorlib/specimen/same_regions.hpp>

namespace colorlib {
namespace {

Reading at(const std::string& id, double x, double y, double radius = 8) {
  Reading reading;
  reading.id = reading.region.id = id;
  reading.region.shape = EllipseShape{x, y, radius, radius};
  return reading;
}

TEST(SameRegions, FoundOnesByTheirPlaceOnTheSheet) {
  // In the second photo they were found in another order, and one more.
  const std::vector<std::vector<Reading>> photos{{at("A", 50, 50), at("B", 100, 50)},
                                                 {at("A", 101, 52), at("B", 140, 50), at("C", 49, 51)},
                                                 {at("A", 50.5, 49.5)}};
  const auto regions = same_regions(photos, false);
  ASSERT_EQ(regions.size(), 3u);
  EXPECT_EQ(regions[0][0], &photos[0][0]);
  EXPECT_EQ(regions[0][1], &photos[1][2]);
  EXPECT_EQ(regions[0][2], &photos[2][0]);
  EXPECT_EQ(regions[1][0], &photos[0][1]);
  EXPECT_EQ(regions[1][1], &photos[1][0]);
  EXPECT_EQ(regions[1][2], nullptr);
  EXPECT_EQ(regions[2][0], nullptr);
  EXPECT_EQ(regions[2][1], &photos[1][1]);
}

TEST(SameRegions, DrawnOnesByTheirId) {
  const std::vector<std::vector<Reading>> photos{{at("A", 50, 50), at("B", 52, 50)},
                                                 {at("A", 50, 50), at("B", 52, 50)}};
  const auto regions = same_regions(photos, true);
  ASSERT_EQ(regions.size(), 2u);
  EXPECT_EQ(regions[1][1], &photos[1][1]) << "however near they lie";
}

}  // namespace
}  // namespace colorlib
