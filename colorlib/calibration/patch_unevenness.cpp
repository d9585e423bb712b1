#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/calibration/patch_unevenness_internal.hpp>

namespace colorlib {
namespace {

constexpr double usual_spread = 1.3;  // of the scatter of clean patches about their median
constexpr double mean_per_scatter = 1.3;
constexpr double least_light = 0.01;  // of the brightest patch: linear values below it are noise

/// Noise of a clean patch grows as the root of the light; developed values have it about even.
double noise_shape(double light, bool display_referred) {
  return display_referred ? 1.0 : std::sqrt(light + least_light);
}

/// dL* for a value: developed values stand for L* themselves, linear ones for its cube (CIE 1976).
double lightness_slope(double light, bool display_referred) {
  return display_referred ? 100.0 : 116.0 / 3 * std::pow(light + least_light, -2.0 / 3);
}

}  // namespace

std::vector<double> patch_unevenness(const std::vector<PatchSample>& samples, bool display_referred) {
  Vector3 brightest{1, 1, 1}, typical{};
  const auto light = [&](const PatchSample& sample, std::size_t c) {
    return std::max(sample.encoded[c] / brightest[c], 0.0);
  };
  for (std::size_t c = 0; c < 3; ++c) {
    if (!display_referred) {
      brightest[c] = 1e-6;
      for (const auto& sample : samples) brightest[c] = std::max(brightest[c], sample.encoded[c]);
    }
    std::vector<double> scatter;
    for (const auto& sample : samples)
      if (!sample.dropped)
        scatter.push_back(sample.noise_sd[c] / brightest[c] /
                          noise_shape(light(sample, c), display_referred));
    typical[c] = median(std::move(scatter));
  }
  std::vector<double> unevenness;
  for (const auto& sample : samples) {
    std::vector<double> excess;
    for (std::size_t c = 0; c < 3; ++c) {
      const double usual = usual_spread * typical[c] * noise_shape(light(sample, c), display_referred);
      const double seen = sample.noise_sd[c] / brightest[c];
      excess.push_back(lightness_slope(light(sample, c), display_referred) *
                       std::sqrt(std::max(seen * seen - usual * usual, 0.0)));
    }
    unevenness.push_back(sample.dropped ? 0 : mean_per_scatter * median(std::move(excess)));
  }
  return unevenness;
}

}  // namespace colorlib
