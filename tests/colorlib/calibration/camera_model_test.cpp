#include <gtest/gtest.h>

#include <cmath>
#include <colorlib/calibration/camera_model_internal.hpp>
#include <colorlib/calibration/region_color_internal.hpp>
#include <random>

namespace colorlib {
namespace {

/// A model with every parameter away from its default, so that no derivative is zero by chance.
CameraModel bent_model(bool tone) {
  CameraModel model;
  model.lighting = LightingBasis(210, 148, 3);
  model.layout = {tone, model.lighting.size(), 0};
  model.scale = {0.9, 1.1, 0.7};
  std::mt19937_64 random(20261125);
  model.parameters.resize(model.layout.size());
  for (auto& p : model.parameters) p = (static_cast<double>(random() >> 11) / 9007199254740992.0 - 0.5) * 0.2;
  for (int i = 0; i < 3; ++i) model.parameters[model.layout.correction() + i * root_term_count + i] += 0.8;
  model.parameters.segment(model.layout.flare(), 3) *= 0.05;
  return model;
}

class CameraModelJacobian : public testing::TestWithParam<bool> {};

TEST_P(CameraModelJacobian, EqualsFiniteDifferences) {
  CameraModel model = bent_model(GetParam());
  const SheetPixel pixels[] = {
      {{20, 30}, {0.62, 0.41, 0.22}}, {{180, 120}, {0.15, 0.2, 0.35}}, {{105, 74}, {0.9, 0.88, 0.8}}};
  constexpr double h = 1e-6;
  double worst = 0;
  for (const auto& pixel : pixels) {
    ParameterJacobian jacobian;
    const Eigen::Vector3d value = model.xyz(pixel, jacobian);
    EXPECT_LT((value - model.xyz(pixel)).norm(), 1e-12);
    // The local mix is held while differentiating; make the numeric derivative do the same by removing C1's
    // share.
    for (int p = 0; p < model.layout.size(); ++p) {
      const bool moves_mix = p >= model.layout.red_blue() && p < model.layout.green();
      CameraModel held = model;
      if (moves_mix) held.parameters.segment(held.layout.mix(), 9).setZero();
      ParameterJacobian expected;
      held.xyz(pixel, expected);
      CameraModel up = held, down = held;
      up.parameters[p] += h;
      down.parameters[p] -= h;
      const Eigen::Vector3d numeric = (up.xyz(pixel) - down.xyz(pixel)) / (2 * h);
      worst = std::max(worst, (numeric - expected.col(p)).norm());
      EXPECT_LT((numeric - expected.col(p)).norm(), 1e-6) << "parameter " << p;
    }
  }
  RecordProperty("worst", std::to_string(worst));
}
INSTANTIATE_TEST_SUITE_P(PhoneAndLinear, CameraModelJacobian, testing::Bool());

TEST(FastModel, EqualsTheModel) {
  for (const bool tone : {true, false}) {
    const CameraModel model = bent_model(tone);
    const FastModel fast(model);
    std::mt19937_64 random(7);
    const auto uniform = [&] { return static_cast<double>(random() >> 11) / 9007199254740992.0; };
    double worst = 0;
    for (int i = 0; i < 5000; ++i) {
      const SheetPixel pixel{{210 * uniform(), 148 * uniform()}, {uniform(), uniform(), uniform()}};
      worst = std::max(worst, (model.xyz(pixel) - fast.xyz(model, pixel)).cwiseAbs().maxCoeff());
    }
    EXPECT_LT(worst, 4e-5) << "of white, "
                           << (tone ? "phone" : "linear");  // 4096 linear steps; a tenth of an 8-bit step
  }
}

TEST(RegionMean, LeavesGlintsOutAndKeepsDarkGaps) {
  const CameraModel model = bent_model(true);
  const FastModel fast(model);
  std::vector<SheetPixel> pixels;
  std::mt19937_64 random(11);
  for (int i = 0; i < 1000; ++i) {
    const double noise = 0.01 * (static_cast<double>(random() >> 11) / 9007199254740992.0 - 0.5);
    pixels.push_back({{100, 70}, {0.5 + noise, 0.4 + noise, 0.3 + noise}});
  }
  const RegionMean clean = region_mean(model, fast, pixels, {});
  for (int i = 0; i < 50; ++i) pixels.push_back({{100, 70}, {0.97, 0.97, 0.97}});
  const RegionMean glittering = region_mean(model, fast, pixels, {});
  EXPECT_NEAR(glittering.glint_share, 50.0 / 1050, 1e-9);
  EXPECT_LT((clean.xyz - glittering.xyz).norm(), 1e-9);
  for (int i = 0; i < 50; ++i) pixels[static_cast<std::size_t>(i)].encoded = {0.2, 0.15, 0.1};
  EXPECT_LT(region_mean(model, fast, pixels, {}).xyz[1], 0.98 * clean.xyz[1]);
}

}  // namespace
}  // namespace colorlib
