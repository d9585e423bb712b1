#pragma once
/// The diagram of a reaction on any canvas, for pages that hold more than it. For .cpp files only.

#include <colorlib/exports/series_plot.hpp>
#include <colorlib/exports/vector_canvas_internal.hpp>
#include <variant>

namespace colorlib {

inline constexpr double series_plot_width_pt = 640, series_plot_height_pt = 560;

/// Draws into the canvas's first 640 x 560 points. Errors: bad_call (no kinetics or no frame).
Result<std::monostate> draw_series_plot_on(VectorCanvas& canvas, const SeriesPlot& plot);

}  // namespace colorlib
