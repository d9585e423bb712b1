#pragma once
/// The sheets there are, and getting one on paper.

#include <QByteArray>
#include <QSizeF>
#include <QString>
#include <QStringList>
#include <colorlib/base/result.hpp>
#include <colorlib/chart/chart_drawing.hpp>
#include <colorlib/chart/print_scale.hpp>
#include <vector>

namespace tintfall::viewer {

struct ChartEntry {
  QString name, title;
  QSizeF size_mm;
};
struct SheetLists {
  std::vector<ChartEntry> charts;  ///< shipped ones
  QStringList labels;              ///< of the user's printed sheets
};
/// Empty lists where files cannot be read: choosing is an extra, not a need.
SheetLists sheets_to_choose_from();

struct DrawSheetParameters {
  QString chart;
  colorlib::SheetPrint print;
};
struct DrawnSheet {
  QByteArray bytes;
  QSizeF size_mm;
  bool label_shortened = false;  ///< it was longer than its field
};
colorlib::Result<DrawnSheet> draw_sheet_of(const DrawSheetParameters& parameters);
/// Returns what it wrote.
colorlib::Result<DrawnSheet> write_sheet(const QString& file, const DrawSheetParameters& parameters);
/// A printed sheet as it is typed.
struct SheetTyped {
  QString label, chart, reference, printed;  ///< reference and day of printing may be empty
  bool replace = false;                      ///< the sheet that has this label already
};
/// Puts it on the list, as `tintfall sheet add` does; gives its label. Errors: of that command.
colorlib::Result<QString> add_printed_sheet(const SheetTyped& typed);

/// Whether the printed ruler has its length.
colorlib::PrintScale printed_scale(double measured_mm);

}  // namespace tintfall::viewer
