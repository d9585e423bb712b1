#include <QCoreApplication>
#include <colorlib/base/file_access.hpp>
#include <viewer/command/sheet_adding.hpp>
#include <viewer/tasks/sheet_jobs.hpp>

namespace tintfall::viewer {

using namespace colorlib;

SheetLists sheets_to_choose_from() {
  SheetLists lists;
  if (const auto charts = shipped_charts())
    for (const ChartDefinition& chart : *charts)
      lists.charts.push_back({QString::fromStdString(chart.name),
                              QCoreApplication::translate("colorlib", chart.title.c_str()),
                              {chart.width_mm, chart.height_mm}});
  if (const auto file = sheet_settings_file())
    if (const auto sheets = read_sheets(*file))
      for (const PrintedSheet& sheet : *sheets) lists.labels.push_back(QString::fromStdString(sheet.label));
  return lists;
}

Result<DrawnSheet> draw_sheet_of(const DrawSheetParameters& parameters) {
  const auto chart = find_chart(parameters.chart.toStdString());
  if (!chart) return fail(chart.error());
  const auto bytes = draw_sheet(*chart, parameters.print);
  if (!bytes) return fail(bytes.error());
  return DrawnSheet{QByteArray::fromStdString(*bytes),
                    {chart->width_mm, chart->height_mm},
                    label_is_shortened(*chart, parameters.print.label)};
}

Result<DrawnSheet> write_sheet(const QString& file, const DrawSheetParameters& parameters) {
  auto drawn = draw_sheet_of(parameters);
  if (!drawn) return fail(drawn.error());
  if (const auto written = write_file_atomically(
          file.toStdString(), {drawn->bytes.constData(), static_cast<std::size_t>(drawn->bytes.size())});
      !written)
    return fail(written.error());
  return drawn;
}

Result<QString> add_printed_sheet(const SheetTyped& typed) {
  const auto file = sheet_settings_file();
  if (!file) return fail(file.error());
  const auto added = add_sheet(*file,
                               {typed.label.trimmed().toStdString(), typed.chart.toStdString(),
                                typed.reference.toStdString(), typed.printed.trimmed().toStdString()},
                               typed.replace);
  if (!added) return fail(added.error());
  return QString::fromStdString(added->sheet.label);
}

PrintScale printed_scale(double measured_mm) { return print_scale_from(measured_mm); }

}  // namespace tintfall::viewer
