#pragma once
/// The words and the ruler of a drawn sheet; private to chart_drawing.cpp.

#include <cairo.h>

#include <colorlib/chart/chart_definition.hpp>
#include <string>

namespace colorlib {

/// Draws the chart's text blocks. `context` counts millimetres from the sheet's top-left corner; `label` and
/// `print_date` are valid UTF-8, empty ones leave a line to write on. Text shrinks to fit its block and never
/// leaves it.
void draw_sheet_words(cairo_t* context, const ChartDefinition& chart, const std::string& label,
                      const std::string& print_date);

/// Whether `draw_sheet_words` would have to cut `label`, valid UTF-8, to fit its field. `context` counts
/// millimetres at about the resolution of a print; nothing is drawn on it.
bool label_is_cut(cairo_t* context, const ChartDefinition& chart, const std::string& label);

}  // namespace colorlib
