#include <gmock/gmock.h>

#include <colorlib/image/photo_pyramid.hpp>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

using testing::Eq;

std::shared_ptr<const Photo> ramp(int width, int height) {
  Image8 pixels(height, width, 3);
  for (int r = 0; r < height; ++r)
    for (int c = 0; c < width; ++c)
      for (int k = 0; k < 3; ++k)
        pixels.at(r, c)[k] = static_cast<std::uint8_t>((7 * r + 3 * c + 40 * k) % 256);
  return std::make_shared<const Photo>(std::move(pixels), PhotoEncoding{}, CaptureMetadata{}, "ramp.png");
}

TEST(PhotoPyramid, HalvesUntilSmallEnough) {
  Progress progress;
  const auto pyramid = PhotoPyramid::build(ramp(1001, 640), 130, progress);
  ASSERT_TRUE(pyramid);
  EXPECT_THAT(pyramid->levels(), Eq(4));
  EXPECT_THAT(pyramid->width_px(1), Eq(500));
  EXPECT_THAT(pyramid->height_px(3), Eq(80));
}

TEST(PhotoPyramid, EveryLevelIsTheMeanOfThePhotosPixels) {
  Progress progress;
  const auto photo = ramp(400, 304);
  const auto pyramid = PhotoPyramid::build(photo, 60, progress);
  ASSERT_TRUE(pyramid);
  for (int level = 0; level < pyramid->levels(); ++level) {
    const int block = 1 << level;
    const ImageF values = pyramid->encoded(level, {3, 5, 4, 4});
    const ImageF whole = photo->encoded({3 * block, 5 * block, 4 * block, 4 * block});
    for (int r = 0; r < 4; ++r)
      for (int c = 0; c < 4; ++c)
        for (int k = 0; k < 3; ++k) {
          double sum = 0;
          for (int y = 0; y < block; ++y)
            for (int x = 0; x < block; ++x) sum += whole.at(r * block + y, c * block + x)[k];
          // Each halving rounds to 16 bits.
          EXPECT_NEAR(values.at(r, c)[k], sum / block / block, level * 1.0 / 65535 + 1e-6);
        }
    // The centre of the level's pixel is the centre of what it covers.
    EXPECT_DOUBLE_EQ(PhotoPyramid::photo_px_from(level, 3), 3 * block + (block - 1) / 2.0);
  }
}

TEST(PhotoPyramid, RectanglesAreClipped) {
  Progress progress;
  const auto pyramid = PhotoPyramid::build(ramp(64, 64), 20, progress);
  ASSERT_TRUE(pyramid);
  EXPECT_THAT(pyramid->encoded(1, {-5, -5, 8, 8}).columns, Eq(3));
  EXPECT_THAT(pyramid->encoded(1, {30, 30, 8, 8}).rows, Eq(2));
  EXPECT_TRUE(pyramid->encoded(1, {40, 40, 8, 8}).empty());
}

TEST(PhotoPyramid, StopsWhenAsked) {
  struct Impatient : Progress {
    bool cancelled() const override { return true; }
  } impatient;
  EXPECT_THAT(PhotoPyramid::build(ramp(64, 64), 20, impatient),
              FailsWith(ErrorCode::cancelled, testing::HasSubstr("stopped")));
}

}  // namespace
}  // namespace colorlib
