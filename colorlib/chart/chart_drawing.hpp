#pragma once
/// Sheets drawn true to size.

#include <colorlib/base/result.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <string>

namespace colorlib {

enum class SheetFormat { pdf, svg, png };

struct SheetPrint {
  SheetFormat format = SheetFormat::pdf;
  std::string label;       ///< written in the label field; empty leaves a line to write on
  std::string print_date;  ///< ISO 8601 date, written in the date field; empty leaves a line
  int png_dots_per_inch = 300;
};

/// The file's bytes: patches, markers, opening outline, ruler, label and date fields, short instructions,
/// cautions. Colours: nominal Lab (D50) -> sRGB, clipped; device RGB in PDF and SVG.
Result<std::string> draw_sheet(const ChartDefinition& chart, const SheetPrint& print);

/// Whether the label is too long for its field even in the smallest print, so that the sheet shows its
/// beginning and "…". `label` is one that `draw_sheet` takes.
bool label_is_shortened(const ChartDefinition& chart, const std::string& label);

}  // namespace colorlib
