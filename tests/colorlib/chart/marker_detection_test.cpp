#include <gtest/gtest.h>
#include <colorlib/chart/marker_detection.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "tests/colorlib/chart/sheet_photo.hpp"

namespace colorlib {
namespace {

/// A marker of `side` px with its middle at `middle`, turned by `angle` clockwise as seen, in a white
/// picture.
Image8 picture_of(int id, const PointPx& middle, double side, double angle) {
  const std::vector<bool> white = marker_cells(id);
  Image8 grey(200, 200, 1);
  for (int row = 0; row < grey.rows; ++row)
    for (int column = 0; column < grey.columns; ++column) {
      double sum = 0;
      for (int sub = 0; sub < 25; ++sub) {
        const double x = column - 0.4 + 0.2 * (sub % 5) - middle.x,
                     y = row - 0.4 + 0.2 * (sub / 5) - middle.y;
        const double u = (x * std::cos(angle) + y * std::sin(angle)) / side + 0.5;
        const double v = (-x * std::sin(angle) + y * std::cos(angle)) / side + 0.5;
        const bool inside = u >= 0 && v >= 0 && u < 1 && v < 1;
        const bool bright =
            !inside || white[static_cast<std::size_t>(8 * static_cast<int>(8 * v) + static_cast<int>(8 * u))];
        sum += bright ? 220 : 25;
      }
      grey.at(row, column)[0] = static_cast<std::uint8_t>(std::lround(sum / 25));
    }
  return grey;
}

TEST(MarkerCells, HaveABlackBorderAndTheFamilysSize) {
  const auto cells = marker_cells(7);
  ASSERT_EQ(cells.size(), 64u);
  for (std::size_t i = 0; i < 8; ++i)
    EXPECT_FALSE(cells[i] || cells[56 + i] || cells[8 * i] || cells[8 * i + 7]);
  EXPECT_NE(marker_cells(0), marker_cells(1));
  EXPECT_EQ(marker_cells(586).size(), 64u);  // tag36h11 has 587
  EXPECT_TRUE(marker_cells(587).empty());
  EXPECT_TRUE(marker_cells(-1).empty());
}

TEST(MarkerDetector, CornersStartTopLeftAndGoClockwise) {
  MarkerDetector detector;
  for (const double degrees : {0.0, 37.0, 90.0, 180.0, 261.0}) {
    const double angle = degrees * 3.14159265358979 / 180;
    const auto found = detector.detect(picture_of(5, {100, 100}, 80, angle), 1);
    ASSERT_EQ(found.size(), 1u) << degrees;
    EXPECT_EQ(found[0].id, 5);
    const double local[4][2] = {{-40, -40}, {40, -40}, {40, 40}, {-40, 40}};
    for (std::size_t k = 0; k < 4; ++k) {
      EXPECT_NEAR(found[0].corners_px[k].x,
                  100 + local[k][0] * std::cos(angle) - local[k][1] * std::sin(angle), 0.8);
      EXPECT_NEAR(found[0].corners_px[k].y,
                  100 + local[k][0] * std::sin(angle) + local[k][1] * std::cos(angle), 0.8);
    }
    EXPECT_NEAR(side_px(found[0]), 80, 1);
  }
}

TEST(MarkerDetector, CountsFromTheCentreOfTheFirstPixel) {
  // The library counts from the first pixel's outer corner: left as it is, the mean would be 0.5.
  std::printf("seed 41, 50 pictures\n");
  test::RandomStance random(41);
  MarkerDetector detector;
  double x = 0, y = 0;
  int count = 0;
  for (int trial = 0; trial < 50; ++trial) {
    const PointPx middle{random.uniform(95, 105), random.uniform(95, 105)};
    const auto found =
        detector.detect(picture_of(trial, middle, random.uniform(60, 90), random.uniform(0, 6.28)), 1);
    ASSERT_EQ(found.size(), 1u) << trial;
    EXPECT_EQ(found[0].id, trial);
    for (const PointPx& c : found[0].corners_px) {
      x += c.x - middle.x;
      y += c.y - middle.y;
      ++count;
    }
  }
  std::printf("mean offset (%.3f, %.3f) px\n", x / count, y / count);
  EXPECT_NEAR(x / count, 0, 0.05);
  EXPECT_NEAR(y / count, 0, 0.05);
}

TEST(MarkerDetector, DoesNotTakeAMirroredMarker) {
  Image8 grey = picture_of(5, {100, 100}, 80, 0.2);
  for (int r = 0; r < grey.rows; ++r) std::reverse(grey.at(r, 0), grey.at(r, 0) + grey.columns);
  MarkerDetector detector;
  EXPECT_TRUE(detector.detect(grey, 1).empty());
}

TEST(MarkerDetector, TakesSliversAndEmptyPictures) {
  MarkerDetector detector;
  EXPECT_TRUE(detector.detect({}, 2).empty());
  EXPECT_TRUE(detector.detect(Image8(1, 5000, 1), 2).empty());
  EXPECT_TRUE(detector.detect(Image8(19, 19, 1), 1).empty());
  EXPECT_TRUE(detector.detect(Image8(64, 64, 3), 1).empty());
}

}  // namespace
}  // namespace colorlib
