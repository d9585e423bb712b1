#include <colorlib/specimen/another_print.hpp>

namespace colorlib {
namespace {

/// Patches met within this on average (leave-one-out) are this print's: two prints differ by more.
constexpr double surely_own_de00 = 1;
/// On 66 simulated photos of eleven conditions (tuning scenes) another print's values were met 1.08 to 1.6
/// times as far off as the nominal ones, the sheet's own at most 0.6 times. On a print that came out just as
/// asked both fit alike: hence the twentieth.
constexpr double nominal_fits_better = 0.95;

}  // namespace

bool of_another_print(const ChartDefinition& chart, const ReferenceValues& values,
                      const SheetSamples& samples, double met_de00, const CalibrationOptions& options) {
  if (values.kind == ReferenceKind::nominal || met_de00 < surely_own_de00) return false;
  const auto nominal = calibrate(chart, nominal_reference(chart), samples, options);
  return nominal && nominal->summary().check_de00_mean < nominal_fits_better * met_de00;
}

}  // namespace colorlib
