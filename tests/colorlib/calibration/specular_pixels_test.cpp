#include <gtest/gtest.h>

#include <colorlib/calibration/specular_pixels_internal.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <random>

namespace colorlib {
namespace {

constexpr int pixels = 2000;

/// A brown deposit whose grains shade each other by 8 %, with neutral light added to every `each`th pixel.
std::vector<Eigen::Vector3d> brown_cloud(double added, int each) {
  std::mt19937_64 random(7);
  std::normal_distribution<double> shade(0, 0.08), noise(0, 0.004);
  const Xyz body = xyz_from_lab({45, 14, 26}, white_d50);
  std::vector<Eigen::Vector3d> cloud;
  for (int i = 0; i < pixels; ++i) {
    const double shading = 1 + shade(random), light = i % each == 0 ? added : 0;
    cloud.emplace_back(body.x * shading + (light + noise(random) * 0.1) * white_d50.x,
                       body.y * shading + (light + noise(random) * 0.1) * white_d50.y,
                       body.z * shading + (light + noise(random) * 0.1) * white_d50.z);
  }
  return cloud;
}

struct Shares {
  double found = 0, wrong = 0;
};
Shares shares_of(const std::vector<bool>& out, int each) {
  Shares s;
  for (int i = 0; i < pixels; ++i) (i % each == 0 ? s.found : s.wrong) += out[static_cast<std::size_t>(i)];
  s.found /= pixels / each;
  s.wrong /= pixels - pixels / each;
  return s;
}

TEST(SpecularPixels, FindsFaintAndStrongGlints) {
  for (const double light : {0.05, 0.3, 3.0}) {
    const Shares s = shares_of(specular_pixels(brown_cloud(light, 20)), 20);
    EXPECT_GT(s.found, 0.98) << light;
    EXPECT_LT(s.wrong, 0.01) << light;
  }
}

TEST(SpecularPixels, ShadingAndGrainStay) {
  const Shares s = shares_of(specular_pixels(brown_cloud(0, 20)), 20);
  EXPECT_LT(s.wrong, 0.002);
}

TEST(SpecularPixels, BareFoilBetweenPaleGrainsIsFoundThoughItIsDarker) {
  std::mt19937_64 random(11);
  std::normal_distribution<double> shade(0, 0.03);
  const Xyz body = xyz_from_lab({84, 3, 30}, white_d50), foil = xyz_from_lab({66, 0, 0}, white_d50);
  std::vector<Eigen::Vector3d> cloud;
  for (int i = 0; i < pixels; ++i) {
    const Xyz& c = i % 25 == 0 ? foil : body;
    const double shading = 1 + shade(random);
    cloud.emplace_back(c.x * shading, c.y * shading, c.z * shading);
  }
  const Shares s = shares_of(specular_pixels(cloud), 25);
  EXPECT_GT(s.found, 0.98);
  EXPECT_LT(s.wrong, 0.01);
}

TEST(SpecularPixels, FewOrEqualPixelsAreLeftAlone) {
  EXPECT_TRUE(specular_pixels({}).empty());
  const std::vector<Eigen::Vector3d> same(50, {0.2, 0.2, 0.15});
  for (const bool out : specular_pixels(same)) EXPECT_FALSE(out);
}

}  // namespace
}  // namespace colorlib
