#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/calibration/refusals_internal.hpp>

namespace colorlib {
namespace {

constexpr int least_patches = 12;
constexpr double most_dark_patches = 0.5;  // of all: the rest do not tell how dark colours come out
constexpr int least_light_neutrals = 3;
constexpr double least_chroma = 0.02;                                // encoded value
constexpr double worst_check_measured = 5, worst_check_nominal = 9;  // dE00, mean of the patches

std::optional<Error> mostly_dark(const SheetSamples& samples) {
  const auto dark = std::count_if(samples.patches.begin(), samples.patches.end(),
                                  [](const PatchSample& sample) { return under_exposed(sample, {}); });
  if (static_cast<double>(dark) <= most_dark_patches * static_cast<double>(samples.patches.size()))
    return std::nullopt;
  return Error{ErrorCode::untrustworthy,
               fmt::format("Calibrating: {} of {} patches have a channel at the bottom of its range, where "
                           "colours that differ look alike.",
                           dark, samples.patches.size()),
               expose_more_advice};
}

std::optional<Error> too_few_patches(const UsableSamples& usable, const SheetSamples& samples) {
  const int used = static_cast<int>(usable.patches.size());
  if (used >= least_patches) return std::nullopt;
  const auto clipped = std::count_if(samples.patches.begin(), samples.patches.end(),
                                     [](const PatchSample& sample) { return over_exposed(sample, {}); });
  const bool mostly_clipped = 2 * clipped > static_cast<std::ptrdiff_t>(samples.patches.size()) - used;
  if (mostly_clipped)
    return Error{ErrorCode::untrustworthy,
                 fmt::format("Calibrating: only {} of {} patches can be used, {} are needed; {} are "
                             "over-exposed.",
                             used, samples.patches.size(), least_patches, clipped),
                 expose_less_advice};
  return Error{
      ErrorCode::untrustworthy,
      fmt::format("Calibrating: only {} of {} patches can be used, {} are needed.", used,
                  samples.patches.size(), least_patches),
      "Take the photo again with the whole sheet in view, sharp, without glare and not over-exposed."};
}

std::optional<Error> unknown_light(const UsableSamples& usable, const SheetSamples& samples) {
  if (!usable.input.paper.empty() || usable.light_neutrals >= least_light_neutrals) return std::nullopt;
  if (samples.paper_clipped_share > mostly_clipped_paper)
    return Error{
        ErrorCode::untrustworthy,
        fmt::format("Calibrating: the bare paper is over-exposed, and only {} light neutral patches can "
                    "be used, {} are needed to know the light.",
                    usable.light_neutrals, least_light_neutrals),
        expose_less_advice};
  return Error{ErrorCode::untrustworthy,
               fmt::format("Calibrating: no bare paper and only {} light neutral patches can be used, {} are "
                           "needed to know the light.",
                           usable.light_neutrals, least_light_neutrals),
               "Keep the paper round the opening clean and in view, and avoid over-exposure."};
}

}  // namespace

std::optional<Error> bad_field_order(int order) {
  if (order >= 1 && order <= LightingBasis::most_order) return std::nullopt;
  return Error{ErrorCode::bad_call,
               fmt::format("Calibrating: a lighting field of order {} was asked for, there are 1 to {}.",
                           order, LightingBasis::most_order),
               "Use order 3."};
}

std::optional<Error> too_little_to_fit(const UsableSamples& usable, const SheetSamples& samples) {
  if (auto why = mostly_dark(samples)) return why;
  if (auto why = too_few_patches(usable, samples)) return why;
  if (auto why = unknown_light(usable, samples)) return why;
  if (usable.most_chroma < least_chroma)
    return Error{ErrorCode::untrustworthy,
                 "Calibrating: the photo shows the coloured patches without colour.",
                 "Use a colour photo, not a black-and-white one."};
  return std::nullopt;
}

std::optional<Error> poorly_fitted(const CalibrationSummary& summary, ReferenceKind reference,
                                   double largest_light_rest) {
  const double worst = reference == ReferenceKind::nominal ? worst_check_nominal : worst_check_measured;
  if (summary.check_de00_mean > worst && largest_light_rest > most_light_rest)
    return Error{
        ErrorCode::untrustworthy,
        fmt::format("Calibrating: the light on the sheet's paper departs by up to {:.0f} % from what "
                    "is smooth, as at a shadow's edge or under heavy "
                    "soil, and the patches differ from their reference values by {:.1f} \u0394E00 on "
                    "average, more than {:.0f} cannot be trusted.",
                    100 * largest_light_rest, summary.check_de00_mean, worst),
        even_light_advice};
  if (!std::isfinite(summary.check_de00_mean) || summary.check_de00_mean > worst)
    return Error{
        ErrorCode::untrustworthy,
        fmt::format("Calibrating: the patches differ from their reference values by {:.1f} \u0394E00 "
                    "on average, more "
                    "than {:.0f} cannot be trusted.",
                    summary.check_de00_mean, worst),
        "Check that the chart and the reference file belong to this sheet, that it lies the right "
        "way round, and "
        "that no patch is dirty, wet, in glare or in a shadow."};
  return std::nullopt;
}

}  // namespace colorlib
