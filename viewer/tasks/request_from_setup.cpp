#include <viewer/command/sheet_settings.hpp>
#include <viewer/tasks/request_from_setup.hpp>

namespace tintfall::viewer {

using namespace colorlib;

Result<ReadRequest> request_from_setup(PhotoSetup setup, SheetOutcome& outcome) {
  ReadRequest request;
  if (!setup.sheet.isEmpty()) {
    const auto file = sheet_settings_file();
    if (!file) return fail(file.error());
    const auto sheets = read_sheets(*file);
    if (!sheets) return fail(sheets.error());
    const auto sheet = find_sheet(*sheets, setup.sheet.toStdString());
    if (!sheet) return fail(sheet.error());
    setup.chart = QString::fromStdString(sheet->chart);
    setup.reference = QString::fromStdString(sheet->reference);
    outcome.label = setup.sheet;
    outcome.printed = QString::fromStdString(sheet->printed);
  }
  if (setup.chart.isEmpty()) {
    auto charts = shipped_charts();
    if (!charts) return fail(charts.error());
    request.candidates = std::move(*charts);
  } else {
    auto chart = find_chart(setup.chart.toStdString());
    if (!chart) return fail(chart.error());
    request.candidates = {std::move(*chart)};
  }
  if (!setup.reference.isEmpty()) request.reference_file = setup.reference.toStdString();
  request.corners = setup.corners;
  request.height_mm = setup.height_mm;
  request.light = light_of(setup.subject);
  return request;
}

}  // namespace tintfall::viewer
