#include <gmock/gmock.h>

#include <algorithm>
#include <colorlib/exports/photo_preview.hpp>

namespace colorlib {
namespace {

using testing::Each;
using testing::Eq;

Photo plain_photo(int width, int height, std::uint8_t value) {
  Image8 pixels(height, width, 3);
  std::fill(pixels.data.begin(), pixels.data.end(), value);
  return Photo(std::move(pixels), {}, {}, "plain.png");
}

TEST(PhotoPreview, LongSideIsAsAskedAndTheShapeStays) {
  const Image8 wide = photo_preview(plain_photo(400, 300, 10), 100);
  EXPECT_THAT(wide.columns, Eq(100));
  EXPECT_THAT(wide.rows, Eq(75));
  const Image8 tall = photo_preview(plain_photo(300, 401, 10), 100);
  EXPECT_THAT(tall.rows, Eq(100));
  EXPECT_THAT(tall.columns, Eq(75));
}

TEST(PhotoPreview, SmallPhotosKeepTheirSizeAndValues) {
  const Image8 same = photo_preview(plain_photo(7, 5, 200), 100);
  EXPECT_THAT(same.columns, Eq(7));
  EXPECT_THAT(same.rows, Eq(5));
  EXPECT_THAT(same.data, Each(Eq(200)));
}

TEST(PhotoPreview, NoPhotoNoPicture) { EXPECT_TRUE(photo_preview(Photo(), 100).empty()); }

TEST(PhotoPreview, ThinPhotosKeepOneRow) {
  EXPECT_THAT(photo_preview(plain_photo(1000, 1, 9), 10).rows, Eq(1));
}

TEST(PhotoPreview, PixelsAreMeansOfTheOnesBelow) {
  Image8 pixels(4, 4, 3);
  for (int r = 0; r < 4; ++r)
    for (int c = 0; c < 4; ++c) pixels.at(r, c)[1] = static_cast<std::uint8_t>((r + c) % 2 == 0 ? 0 : 100);
  const Image8 half = photo_preview(Photo(std::move(pixels), {}, {}, "checks.png"), 2);
  for (int r = 0; r < 2; ++r)
    for (int c = 0; c < 2; ++c) EXPECT_THAT(half.at(r, c)[1], Eq(50));
}

TEST(PhotoPreview, LinearPhotosAreDevelopedToABrightPicture) {
  ImageF pixels(10, 10, 3);
  for (std::size_t i = 0; i < pixels.data.size(); ++i) pixels.data[i] = i < 150 ? 0.02f : 0.1f;
  PhotoEncoding encoding;
  encoding.kind = EncodingKind::linear_sensor;
  const Image8 picture = photo_preview(Photo(std::move(pixels), encoding, {}, "raw"), 10);
  EXPECT_THAT(*std::max_element(picture.data.begin(), picture.data.end()), Eq(255));
  // 0.02 / 0.1 = 0.2 of white is 0.4845 sRGB-encoded [IEC 61966-2-1]: 124.
  EXPECT_THAT(*std::min_element(picture.data.begin(), picture.data.end()), Eq(124));
}

}  // namespace
}  // namespace colorlib
