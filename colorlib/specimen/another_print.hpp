#pragma once
/// Reference values that were measured on another print of the chart than the one in the photo.

#include <colorlib/calibration/calibration.hpp>
#include <colorlib/chart/patch_sampler.hpp>
#include <colorlib/chart/reference_values.hpp>

namespace colorlib {

/// Whether `values`, met within `met_de00` (leave-one-out, mean) by a calibration with `options`, were
/// measured on another print: then what the chart asks its printer for, which both prints depart from, is met
/// better than what the other print departed to. False for nominal values.
bool of_another_print(const ChartDefinition& chart, const ReferenceValues& values,
                      const SheetSamples& samples, double met_de00, const CalibrationOptions& options);

}  // namespace colorlib
