#include <algorithm>
#include <colorlib/specimen/photo_limits.hpp>

namespace colorlib {
namespace {

bool paper_is_lost(const SheetSamples& samples) { return samples.paper_clipped_share > mostly_clipped_paper; }

}  // namespace

std::size_t over_exposed_patches(const SheetSamples& samples) {
  return static_cast<std::size_t>(
      std::count_if(samples.patches.begin(), samples.patches.end(),
                    [](const PatchSample& sample) { return over_exposed(sample, {}); }));
}

bool is_over_exposed(const SheetSamples& samples, double most_share) {
  const auto clipped = static_cast<double>(over_exposed_patches(samples));
  return clipped > most_share * static_cast<double>(samples.patches.size()) || paper_is_lost(samples);
}

std::size_t under_exposed_patches(const SheetSamples& samples) {
  return static_cast<std::size_t>(
      std::count_if(samples.patches.begin(), samples.patches.end(),
                    [](const PatchSample& sample) { return under_exposed(sample, {}); }));
}

bool is_under_exposed(const SheetSamples& samples) {
  return static_cast<double>(under_exposed_patches(samples)) >
         dark_patches_share * static_cast<double>(samples.patches.size());
}

bool is_unevenly_lit(const CalibrationSummary& summary, const SheetSamples& samples, double most_de00) {
  return summary.lighting_spread_de00 > most_de00 && !paper_is_lost(samples);
}

}  // namespace colorlib
