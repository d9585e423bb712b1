#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/calibration/specular_pixels_internal.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <functional>
#include <random>

namespace colorlib {
namespace {

constexpr int width = 60, height = 40;
const Xyz brown = xyz_from_lab({45, 14, 26}, white_d50), straw = xyz_from_lab({84, 3, 30}, white_d50);

std::vector<SheetPixel> lattice() {
  std::vector<SheetPixel> pixels;
  for (int i = 0; i < width * height; ++i) pixels.push_back({{0.2 * (i % width), 0.2 * (i / width)}, {}});
  return pixels;
}

/// A deposit whose grains shade each other by `grain`; `mirror` gives the share of the body that is missing
/// and the neutral light at a place, in pixels.
struct Mirror {
  double missing = 0, light = 0;
};
using MirrorAt = std::function<Mirror(int column, int row)>;
std::vector<Eigen::Vector3d> cloud(const Xyz& body, double grain, const MirrorAt& mirror,
                                   double noise_sd = 0.0004) {
  std::mt19937_64 random(7);
  std::normal_distribution<double> shade(0, grain), noise(0, noise_sd);
  std::vector<Eigen::Vector3d> xyz;
  for (int i = 0; i < width * height; ++i) {
    const Mirror m = mirror(i % width, i / width);
    const double shading = (1 + shade(random)) * (1 - m.missing);
    xyz.emplace_back(body.x * shading + (m.light + noise(random)) * white_d50.x,
                     body.y * shading + m.light + noise(random),
                     body.z * shading + (m.light + noise(random)) * white_d50.z);
  }
  return xyz;
}

struct Shares {
  double found = 0, wrong = 0;
};
Shares shares_of(const Xyz& body, double grain, const MirrorAt& mirror, bool developed = false) {
  const auto out = specular_pixels(cloud(body, grain, mirror), lattice(), developed);
  double found = 0, mirrored = 0, wrong = 0;
  for (int i = 0; i < width * height; ++i) {
    const Mirror m = mirror(i % width, i / width);
    const bool truth = m.light > 0, flagged = out[static_cast<std::size_t>(i)];
    mirrored += truth, found += truth && flagged, wrong += !truth && flagged;
  }
  return {mirrored > 0 ? found / mirrored : 0, wrong / (width * height - mirrored)};
}

/// Squares of `size` pixels, one every `pitch`.
MirrorAt spots(int size, int pitch, Mirror mirror) {
  return [=](int column, int row) { return column % pitch < size && row % pitch < size ? mirror : Mirror{}; };
}

TEST(SpecularPixels, FindsFaintAndStrongGlints) {
  for (const double light : {0.05, 0.3, 3.0})
    for (const int size : {1, 2, 3}) {
      const Shares s = shares_of(brown, 0.08, spots(size, 12, {0, light}));
      EXPECT_GT(s.found, 0.98) << light << " " << size;
      EXPECT_LT(s.wrong, 0.01) << light << " " << size;
    }
}

TEST(SpecularPixels, FindsGlintsThatFillAThirdOfTheRegion) {
  for (const int pitch : {12, 8, 7}) {  // of squares of 4 pixels: 11, 25 and 33 %
    const Shares s = shares_of(brown, 0.08, spots(4, pitch, {0, 0.3}));
    EXPECT_GT(s.found, 0.98) << pitch;
    EXPECT_LT(s.wrong, 0.01) << pitch;
  }
}

/// Soft spots of light in a noisy photo: the same pixels in disorder tell less.
TEST(SpecularPixels, NeighboursTellWhatAPixelAloneDoesNot) {
  const MirrorAt soft = [](int column, int row) {
    const double x = column % 12 - 5.5, y = row % 12 - 5.5;
    return Mirror{0, 0.05 * std::exp(-(x * x + y * y) / 4)};
  };
  const auto xyz = cloud(brown, 0.05, soft, 0.004);
  const auto bright_found = [&](const std::vector<SheetPixel>& pixels) {
    const auto out = specular_pixels(xyz, pixels, false);
    int bright = 0, dim = 0;
    for (int i = 0; i < width * height; ++i)
      (soft(i % width, i / width).light > 0.012 ? bright : dim) += out[static_cast<std::size_t>(i)];
    EXPECT_LE(dim, 10);
    return bright;
  };
  EXPECT_GT(bright_found(lattice()), 1.25 * bright_found(std::vector<SheetPixel>(width * height)));
}

TEST(SpecularPixels, ShadingAndGrainStay) {
  for (const bool developed : {false, true}) {
    EXPECT_LT(shares_of(brown, 0.08, spots(0, 1, {}), developed).wrong, 0.002);
    EXPECT_LT(shares_of(straw, 0.03, spots(0, 1, {}), developed).wrong, 0.002);
  }
}

TEST(SpecularPixels, BareFoilBetweenPaleGrainsIsFoundThoughItIsDarker) {
  for (const bool developed : {false, true}) {
    const Shares s = shares_of(straw, 0.03, spots(2, 10, {1, 0.36}), developed);
    EXPECT_GT(s.found, 0.98);
    EXPECT_LT(s.wrong, 0.01);
  }
}

TEST(SpecularPixels, CracksOfTheBodysOwnColourAreNoFoil) {
  const Shares s = shares_of(straw, 0.03, [](int column, int row) {
    return column % 10 < 2 && row % 10 < 2 ? Mirror{0.5, 0} : Mirror{};
  });
  EXPECT_LT(s.wrong, 0.002);
}

TEST(SpecularPixels, FewOrEqualPixelsAreLeftAlone) {
  EXPECT_TRUE(specular_pixels({}, {}, false).empty());
  const std::vector<Eigen::Vector3d> same(50, {0.2, 0.2, 0.15});
  const std::vector<SheetPixel> at_one_place(50);
  for (const bool out : specular_pixels(same, at_one_place, false)) EXPECT_FALSE(out);
}

TEST(SpecularPixels, PixelsWithoutOrderAreJudgedOneByOne) {
  const auto mirror = spots(1, 5, {0, 0.3});
  const std::vector<SheetPixel> at_one_place(width * height);
  const auto out = specular_pixels(cloud(brown, 0.08, mirror), at_one_place, false);
  for (int i = 0; i < width * height; ++i)
    EXPECT_EQ(out[static_cast<std::size_t>(i)], mirror(i % width, i / width).light > 0) << i;
}

}  // namespace
}  // namespace colorlib
