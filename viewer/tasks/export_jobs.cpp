#include <colorlib/base/file_access.hpp>
#include <colorlib/exports/overlay.hpp>
#include <colorlib/records/record_json.hpp>
#include <sstream>
#include <viewer/command/reading_summary.hpp>
#include <viewer/tasks/export_jobs.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

Record record_of(const ExportParameters& parameters) {
  const PhotoReading& sheet = *parameters.sheet;
  Record record = record_from(parameters.photo->pyramid.photo(), sheet, parameters.subject);
  record.photo.sha256 = parameters.photo->sha256;
  record.readings = parameters.readings;
  record.chart.sheet_label = parameters.sheet_label.toStdString();
  record.chart.printed = parameters.printed.toStdString();
  record.scales.resize(record.readings.size());
  return record;
}

}  // namespace

std::string record_text(const ExportParameters& parameters) {
  return record_json(record_of(parameters)) + "\n";
}

std::string summary_text(const ExportParameters& parameters) {
  const Record record = record_of(parameters);
  std::vector<ColorDescription> words;
  for (const Reading& reading : record.readings) words.push_back(reading.words);
  std::ostringstream out;
  print_summary(record, words, {}, out);
  print_reading_cautions(shows_reagent_spot(record), out);
  return out.str();
}

Result<std::string> overlay_picture(const ExportParameters& parameters) {
  return draw_overlay(parameters.photo->pyramid.photo(), *parameters.sheet, parameters.readings);
}

Result<std::string> exported(ExportKind kind, const ExportParameters& parameters) {
  switch (kind) {
    case ExportKind::record:
      return record_text(parameters);
    case ExportKind::text:
      return summary_text(parameters);
    case ExportKind::picture:
      break;
  }
  return overlay_picture(parameters);
}

Result<std::monostate> export_to(const QString& file, ExportKind kind, const ExportParameters& parameters) {
  const auto bytes = exported(kind, parameters);
  if (!bytes) return fail(bytes.error());
  return write_file_atomically(file.toStdString(), *bytes);
}

Result<std::monostate> save_regions(const QString& file, const Regions& regions) {
  return write_file_atomically(file.toStdString(), regions_json(regions) + "\n");
}

Result<Regions> load_regions(const QString& file) {
  return read_regions(std::filesystem::path(file.toStdString()));
}

}  // namespace tintfall::viewer
