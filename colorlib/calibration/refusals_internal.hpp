#pragma once
/// When a photo is not calibrated, in words: before the fit for what its samples lack, after it for what the
/// fit leaves.

#include <colorlib/base/result.hpp>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/calibration/usable_samples_internal.hpp>
#include <optional>

namespace colorlib {

/// bad_call, for an order of the lighting field that there is not.
std::optional<Error> bad_field_order(int order);

/// Patches lost in the dark, too few of them, nothing that tells the light, no colour.
std::optional<Error> too_little_to_fit(const UsableSamples& usable, const SheetSamples& samples);

/// Patches that do not show what their reference values say. `largest_light_rest` in ln light, as
/// `LightRest::largest`.
std::optional<Error> poorly_fitted(const CalibrationSummary& summary, ReferenceKind reference,
                                   double largest_light_rest);

}  // namespace colorlib
