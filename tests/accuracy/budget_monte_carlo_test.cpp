/// The parts of the budget that follow from known inputs, held against the propagation of distributions
/// [JCGM101]: inputs drawn from what is stated of them, the whole calibration done anew for each draw.

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <colorlib/specimen/region_pixels.hpp>

#include "tests/scenes/random.hpp"
#include "tests/scenes/scene.hpp"

namespace colorlib::accuracy {
namespace {

/// A simulated photo up to its samples, and what is needed to calibrate it again.
struct Sampled {
  PhotoReading photo;
  std::vector<SheetPixel> pixels;
  CalibrationOptions options;
};

Sampled sampled(scenes::Condition condition, std::uint64_t seed, std::size_t specimen) {
  const ChartDefinition chart = find_chart("frame-a5").value();
  const scenes::Scene scene = scenes::render(scenes::random_scene(condition, seed), chart);
  ReadRequest request;
  request.candidates = {chart};
  request.reference_values = scene.reference;
  Progress quiet;
  Sampled s{calibrate_photo(scene.photo, request, quiet).value(), {}, {}};
  s.pixels = gather_pixels(scene.photo, s.photo.sheet.placement, scene.specimens.at(specimen).region,
                           RegionFrame::chart_mm)
                 .pixels;
  s.options.encoding = scene.photo.encoding().kind;
  return s;
}

Matrix3 part(const CalibratedColor& color, std::string_view name) {
  for (const auto& component : color.budget)
    if (component.name == name) return component.covariance;
  ADD_FAILURE() << "no part " << name;
  return {};
}

/// Standard deviations of L*, a*, b* over the draws.
class Spread {
 public:
  void add(const Lab& lab) {
    const std::array<double, 3> v{lab.l, lab.a, lab.b};
    ++count_;
    for (std::size_t k = 0; k < 3; ++k) {
      const double away = v[k] - mean_[k];
      mean_[k] += away / count_;
      squares_[k] += away * (v[k] - mean_[k]);
    }
  }
  double sd(std::size_t axis) const { return std::sqrt(squares_[axis] / (count_ - 1)); }

 private:
  double count_ = 0;
  std::array<double, 3> mean_{}, squares_{};
};

/// Two hundred draws know a standard deviation to 5 %; what is beyond comes from the robust weights and the
/// curvature that the law of propagation leaves out.
void expect_alike(const Spread& drawn, const Matrix3& stated, double tolerance) {
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const double propagated = std::sqrt(stated(static_cast<int>(axis), static_cast<int>(axis)));
    std::printf("  %c*: drawn %.4f, propagated %.4f\n", "Lab"[axis], drawn.sd(axis), propagated);
    EXPECT_NEAR(drawn.sd(axis) / propagated, 1, tolerance);
  }
}

void reference_errors_propagate(scenes::Condition condition, std::uint64_t seed) {
  const Sampled s = sampled(condition, seed, 0);
  const Matrix3 stated = part(s.photo.calibration.color_of(s.pixels), "reference");
  scenes::Random random(seed, 77);
  Spread drawn;
  for (int draw = 0; draw < 200; ++draw) {
    ReferenceValues reference = s.photo.reference;
    for (auto& patch : reference.patches) {
      patch.lab.l += random.normal(0, patch.standard_uncertainty[0]);
      patch.lab.a += random.normal(0, patch.standard_uncertainty[1]);
      patch.lab.b += random.normal(0, patch.standard_uncertainty[2]);
    }
    const auto calibration = calibrate(s.photo.chart, reference, s.photo.samples, s.options);
    ASSERT_TRUE(calibration) << calibration.error().message;
    drawn.add(calibration->color_of(s.pixels).lab);
  }
  std::printf("reference values, %s seed %llu, 200 draws\n", scenes::condition_name(condition).c_str(),
              static_cast<unsigned long long>(seed));
  expect_alike(drawn, stated, 0.25);
}

TEST(MonteCarlo, ErrorsOfTheReferenceValuesInLinearPhotos) {
  reference_errors_propagate(scenes::Condition::two_lights_linear, 3);
}
TEST(MonteCarlo, ErrorsOfTheReferenceValuesInPhonePhotos) {
  reference_errors_propagate(scenes::Condition::daylight_phone, 4);
}

TEST(MonteCarlo, NoiseOfTheRegionsPixels) {
  const Sampled s = sampled(scenes::Condition::daylight_phone, 5, 1);
  const Matrix3 stated = part(s.photo.calibration.color_of(s.pixels), "noise");
  scenes::Random random(5, 78);
  Spread drawn;
  // Values change places, the places stay: mirrored light is judged with what lies beside a pixel.
  const std::vector<bool> specular = s.photo.calibration.specular(s.pixels);
  std::vector<Vector3> plain;
  for (std::size_t i = 0; i < s.pixels.size(); ++i)
    if (!specular[i]) plain.push_back(s.pixels[i].encoded);
  std::vector<SheetPixel> chosen = s.pixels;
  for (int draw = 0; draw < 200; ++draw) {
    for (auto& pixel : chosen)
      pixel.encoded = plain[static_cast<std::size_t>(random.below(static_cast<int>(plain.size())))];
    drawn.add(s.photo.calibration.color_of(chosen).lab);
  }
  std::printf("pixels of the region drawn anew (bootstrap), 200 draws\n");
  expect_alike(drawn, stated, 0.25);
}

}  // namespace
}  // namespace colorlib::accuracy
