#pragma once
/// Charts made in code, for tests that must not depend on the shipped definitions.

#include <colorlib/chart/chart_definition.hpp>

namespace colorlib::scenes {

/// 8 x 6 patches without markers and a window at the right side; sheet 200 mm x 130 mm.
ChartDefinition grid_chart();
/// Four markers, 38 patches round a window of 80 mm x 60 mm; sheet 180 mm x 140 mm.
ChartDefinition small_frame_chart();

}  // namespace colorlib::scenes
