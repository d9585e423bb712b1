#pragma once
/// Whether the sheet lay flat: how far its printed borders lie from where a flat sheet would have them.

#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement_refinement.hpp>

namespace colorlib {

/// rms over the sheet's patches and markers of the smooth part (mean within `neighbourhood_mm`) of the
/// borders' displacement, in sheet mm. Single borders that are off, and patches printed too large or small,
/// average out; a curl does not. 0 when too little was seen to say.
double flatness_mm(const ChartDefinition& chart, const RefinedPlacement& refined,
                   double neighbourhood_mm = 18);

/// rms of what is left of the borders' residuals after that smooth part, px.
double rough_rms_px(const RefinedPlacement& refined, double neighbourhood_mm = 18);

}  // namespace colorlib
