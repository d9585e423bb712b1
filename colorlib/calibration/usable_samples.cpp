#include <algorithm>
#include <cmath>
#include <colorlib/calibration/model_start_internal.hpp>
#include <colorlib/calibration/patch_unevenness_internal.hpp>
#include <colorlib/calibration/usable_samples_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>

namespace colorlib {
namespace {

std::vector<SheetPixel> pixels_of(const std::vector<PaperSample>& paper) {
  std::vector<SheetPixel> pixels;
  for (const auto& sample : paper) pixels.push_back({sample.place, sample.encoded});
  return pixels;
}

}  // namespace

UsableSamples usable_samples(const SheetSamples& samples, const ReferenceValues& reference,
                             bool display_referred, const FitConstants& constants) {
  UsableSamples usable;
  const std::vector<double> unevenness = patch_unevenness(samples.patches, display_referred);
  for (std::size_t i = 0; i < samples.patches.size(); ++i) {
    const auto& sample = samples.patches[i];
    if (sample.dropped) continue;
    const auto& value = reference.patches[sample.patch];
    PatchRow row{{sample.place, sample.encoded}, value.lab, ciede2000_metric_root(value.lab), 1};
    const double base = display_referred ? constants.patch_sigma_phone : constants.patch_sigma_linear;
    const auto& u = value.standard_uncertainty;
    row.reference_sd = u;
    const double even = base * base + (u[0] * u[0] + u[1] * u[1] + u[2] * u[2]) / 3;
    row.sigma = std::sqrt(even + unevenness[i] * unevenness[i]);
    usable.trust.push_back(even / (row.sigma * row.sigma));
    usable.input.patches.push_back(row);
    usable.patches.push_back(sample.patch);
    usable.light_neutrals += is_light_neutral(value.lab);
    const auto [low, high] = std::minmax_element(sample.encoded.begin(), sample.encoded.end());
    usable.most_chroma = std::max(usable.most_chroma, *high - *low);
  }
  usable.input.paper = pixels_of(samples.paper);
  usable.input.other_paper = pixels_of(samples.other_paper);
  usable.input.surroundings = samples.surroundings;
  return usable;
}

}  // namespace colorlib
