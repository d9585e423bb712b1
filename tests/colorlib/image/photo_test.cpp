#include <colorlib/colorimetry/color_spaces.hpp>
#include <random>

#include "photo_checks.hpp"
#include "photo_files.hpp"

namespace colorlib {
namespace {

constexpr unsigned seed = 20310409;

Image8 random_8(int width, int height) {
  std::mt19937 random(seed);
  Image8 image(height, width, 3);
  for (auto& v : image.data) v = static_cast<std::uint8_t>(random());
  return image;
}
Image16 random_16(int width, int height) {
  std::mt19937 random(seed);
  Image16 image(height, width, 3);
  for (auto& v : image.data) v = static_cast<std::uint16_t>(random());
  return image;
}
PhotoEncoding linear_encoding() {
  PhotoEncoding encoding;
  encoding.kind = EncodingKind::linear_sensor;
  return encoding;
}
/// A gamma of 2.2 as to_srgb_curve.
PhotoEncoding gamma_encoding() {
  PhotoEncoding encoding;
  for (auto& curve : encoding.to_srgb_curve)
    for (int i = 0; i < 4096; ++i)
      curve.push_back(static_cast<float>(srgb_from_linear(std::pow(i / 4095.0, 2.2))));
  return encoding;
}
float at(const ImageF& image, int row, int column, int k) { return image.at(row, column)[k]; }

TEST(Photo, EncodedAndLinearValuesOfEightBits) {
  const Image8 pixels = random_8(40, 30);
  const Photo photo(pixels, {}, {}, "a.jpg");
  const ImageF encoded = photo.encoded({0, 0, 40, 30}), linear = photo.linear({0, 0, 40, 30});
  double worst = 0;
  for (std::size_t i = 0; i < pixels.data.size(); ++i) {
    EXPECT_NEAR(encoded.data[i], pixels.data[i] / 255.0, 1e-7);
    worst = std::max(worst, std::abs(linear.data[i] - linear_from_srgb(pixels.data[i] / 255.0)));
  }
  EXPECT_LT(worst, 1e-7);  // the table holds the function's own values in float
}

TEST(Photo, EncodedAndLinearValuesOfSixteenBits) {
  const Image16 pixels = random_16(40, 30);
  const Photo photo(pixels, {}, {}, "a.tif");
  const ImageF encoded = photo.encoded({0, 0, 40, 30}), linear = photo.linear({0, 0, 40, 30});
  for (std::size_t i = 0; i < pixels.data.size(); ++i) {
    EXPECT_NEAR(encoded.data[i], pixels.data[i] / 65535.0, 1e-7);
    EXPECT_NEAR(linear.data[i], linear_from_srgb(pixels.data[i] / 65535.0), 1e-7);
  }
}

TEST(Photo, ACurveIsAppliedInEveryStore) {
  const Image8 bytes = random_8(20, 10);
  const Image16 words = random_16(20, 10);
  ImageF floats(10, 20, 3);
  for (std::size_t i = 0; i < floats.data.size(); ++i)
    floats.data[i] = static_cast<float>(words.data[i]) / 65535.f;
  const PixelRectangle all{0, 0, 20, 10};
  const ImageF of_bytes = Photo(bytes, gamma_encoding(), {}, "").linear(all);
  const ImageF of_words = Photo(words, gamma_encoding(), {}, "").linear(all);
  const ImageF of_floats = Photo(floats, gamma_encoding(), {}, "").linear(all);
  double worst = 0;
  for (std::size_t i = 0; i < bytes.data.size(); ++i) {
    worst = std::max(worst, std::abs(of_bytes.data[i] - std::pow(bytes.data[i] / 255.0, 2.2)));
    worst = std::max(worst, std::abs(of_words.data[i] - std::pow(words.data[i] / 65535.0, 2.2)));
    worst = std::max(worst, std::abs(of_floats.data[i] - std::pow(words.data[i] / 65535.0, 2.2)));
  }
  EXPECT_LT(worst, 5e-6) << "4096 nodes, interpolated linearly";
}

TEST(Photo, LinearPhotosAreHandedOverAsTheyAre) {
  const Image16 pixels = random_16(20, 10);
  const Photo photo(pixels, linear_encoding(), {}, "a.dng");
  const ImageF encoded = photo.encoded({0, 0, 20, 10}), linear = photo.linear({0, 0, 20, 10});
  EXPECT_EQ(encoded.data, linear.data);
  for (std::size_t i = 0; i < pixels.data.size(); ++i)
    EXPECT_NEAR(linear.data[i], pixels.data[i] / 65535.0, 1e-7);
}

TEST(Photo, FloatsMayExceedOne) {
  ImageF pixels(1, 2, 3);
  pixels.data = {0.5f, 1.5f, 0.f, 2.f, 1.f, 0.25f};
  EXPECT_EQ(Photo(pixels, linear_encoding(), {}, "").linear({0, 0, 2, 1}).data, pixels.data);
  const ImageF display = Photo(pixels, {}, {}, "").linear({0, 0, 2, 1});
  for (std::size_t i = 0; i < pixels.data.size(); ++i)
    EXPECT_NEAR(display.data[i], linear_from_srgb(pixels.data[i]), 2e-6);
}

TEST(Photo, RectanglesAreClippedToThePhoto) {
  const Image8 pixels = random_8(40, 30);
  const Photo photo(pixels, {}, {}, "");
  const ImageF corner = photo.encoded({-5, -7, 10, 10});
  ASSERT_EQ(corner.rows, 3);
  ASSERT_EQ(corner.columns, 5);
  EXPECT_FLOAT_EQ(at(corner, 2, 4, 1), pixels.at(2, 4)[1] / 255.f);
  const ImageF end = photo.encoded({35, 28, 1'000'000'000, 2'000'000'000});
  ASSERT_EQ(end.rows, 2);
  ASSERT_EQ(end.columns, 5);
  EXPECT_FLOAT_EQ(at(end, 1, 4, 2), pixels.at(29, 39)[2] / 255.f);
  EXPECT_TRUE(photo.linear({40, 0, 5, 5}).empty());
  EXPECT_TRUE(photo.linear({0, 0, -5, 5}).empty());
  EXPECT_TRUE(photo.linear_grey({2'000'000'000, 0, 2'000'000'000, 5}, 1).empty());
  EXPECT_TRUE(photo.linear_grey({0, 0, 5, 5}, 6).empty());
  EXPECT_TRUE(Photo().encoded({0, 0, 5, 5}).empty());
}

/// Grey by the definition, in double.
double grey_of(const Photo& photo, const PixelRectangle& block) {
  const ImageF linear = photo.linear(block);
  double sum = 0;
  for (std::size_t i = 0; i < linear.data.size(); i += 3)
    sum += 0.25 * linear.data[i] + 0.5 * linear.data[i + 1] + 0.25 * linear.data[i + 2];
  return sum / static_cast<double>(linear.data.size() / 3);
}

TEST(Photo, LinearGreyIsTheMeanOfLinearLightInEveryStore) {
  const Image8 bytes = random_8(103, 71);
  const Image16 words = random_16(103, 71);
  ImageF floats(71, 103, 3);
  for (std::size_t i = 0; i < floats.data.size(); ++i)
    floats.data[i] = static_cast<float>(words.data[i]) / 65535.f;
  const Photo photos[] = {Photo(bytes, {}, {}, ""),  Photo(bytes, gamma_encoding(), {}, ""),
                          Photo(words, {}, {}, ""),  Photo(words, gamma_encoding(), {}, ""),
                          Photo(floats, {}, {}, ""), Photo(floats, gamma_encoding(), {}, "")};
  const PixelRectangle part{3, 5, 90, 60};
  double worst = 0;
  for (const Photo& photo : photos)
    for (const int block : {1, 2, 3, 4, 7, 8}) {
      const Image8 grey = photo.linear_grey(part, block);
      ASSERT_EQ(grey.columns, 90 / block);
      ASSERT_EQ(grey.rows, 60 / block);
      for (int row = 0; row < grey.rows; ++row)
        for (int column = 0; column < grey.columns; ++column) {
          const double exact =
              255 * grey_of(photo, {part.left + column * block, part.top + row * block, block, block});
          worst = std::max(worst, std::abs(*grey.at(row, column) - exact));
        }
    }
  // Half a step of rounding; 16-bit photos are looked up by their upper 12 bits (0.15 of a step).
  EXPECT_LT(worst, 0.66);
}

TEST(Photo, LinearGreyOfLinearPhotosBringsTheBrightPartNear230) {
  Image16 pixels(100, 100, 3);
  for (int y = 0; y < 100; ++y)
    for (int x = 0; x < 100; ++x)
      std::fill_n(pixels.at(y, x), 3, static_cast<std::uint16_t>(x < 50 ? 3000 : 6000));
  std::fill_n(pixels.at(10, 10), 3, std::uint16_t{65535});  // one glint must not set the scale
  const Image8 grey = Photo(pixels, linear_encoding(), {}, "").linear_grey({0, 0, 100, 100}, 4);
  EXPECT_NEAR(*grey.at(20, 20), 230, 1);
  EXPECT_NEAR(*grey.at(20, 5), 115, 1);
  const Image8 part = Photo(pixels, linear_encoding(), {}, "").linear_grey({0, 40, 40, 40}, 1);
  EXPECT_NEAR(*part.at(20, 5), 115, 1) << "the scale belongs to the whole photo, not to the part";
  const Image8 black = Photo(Image16(10, 10, 3), linear_encoding(), {}, "").linear_grey({0, 0, 10, 10}, 1);
  EXPECT_EQ(*black.at(5, 5), 0);
}

}  // namespace
}  // namespace colorlib
