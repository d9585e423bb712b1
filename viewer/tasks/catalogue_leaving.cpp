/// What comes into a catalogue as files, and what goes out of it.
#include <QCoreApplication>
#include <QFileInfo>
#include <QImage>
#include <colorlib/base/file_access.hpp>
#include <colorlib/exports/report_pdf.hpp>
#include <colorlib/records/record_json.hpp>
#include <viewer/tasks/catalogue_address_of.hpp>
#include <viewer/tasks/catalogue_jobs.hpp>
#include <viewer/tasks/image_from.hpp>

namespace tintfall::viewer {

using namespace colorlib;

namespace {

constexpr std::size_t most_pages = 24;
constexpr double preview_px_per_mm = 5;  // sharp at 200 % in a column of the window

Result<std::vector<CatalogueEntry>> leaving(const CatalogueExport& wanted, std::size_t most,
                                            Progress& progress) {
  if (wanted.numbers.isEmpty())
    return fail(ErrorCode::bad_call, "No collection is listed, so there is nothing to export.",
                "Search for something that is there first.");
  auto catalogue = open_catalogue(wanted.address, Catalogue::Open::existing);
  if (!catalogue) return fail(catalogue.error());
  std::vector<std::string> numbers;
  for (const QString& number : wanted.numbers)
    if (numbers.size() < most) numbers.push_back(number.toStdString());
  std::vector<CatalogueEntry> entries;
  const auto read =
      catalogue->each(numbers, false, [&](const CatalogueEntry& entry) -> Result<std::monostate> {
        if (progress.cancelled())
          return fail(ErrorCode::cancelled, "The export was stopped; nothing was written.");
        entries.push_back({with_place(entry.collection, wanted.places), entry.records, {}});
        progress.report(static_cast<double>(entries.size()) / static_cast<double>(numbers.size()),
                        "reading records");
        return std::monostate{};
      });
  if (!read) return fail(read.error());
  return entries;
}

}  // namespace

Result<AddedToCatalogue> add_files_to_catalogue(const QString& address, const QStringList& files,
                                                Progress& progress) {
  std::vector<NamedRecord> records;
  for (const QString& file : files) {
    if (progress.cancelled()) return fail(ErrorCode::cancelled, "Adding was stopped; nothing was added.");
    auto text =
        read_file(file.toStdString(), "the record", ErrorCode::unreadable_record, RecordLimits::bytes);
    if (!text) return fail(text.error());
    records.push_back({QFileInfo(file).fileName(), std::move(*text)});
  }
  return add_to_catalogue(address, records, {}, progress);
}

Result<QString> export_catalogue(const CatalogueExport& wanted, Progress& progress) {
  const auto format = catalogue_format_of_file(wanted.file.toStdString());
  if (!format) return fail(format.error());
  const auto entries = leaving(wanted, static_cast<std::size_t>(wanted.numbers.size()), progress);
  if (!entries) return fail(entries.error());
  const auto bytes = exported(*entries, *format, wanted.pictures.toStdString());
  if (!bytes) return fail(bytes.error());
  if (const auto written = write_file_atomically(wanted.file.toStdString(), *bytes); !written)
    return fail(written.error());
  const std::size_t without = not_exported(*entries, *format).collections.size();
  QString said = QCoreApplication::translate("CatalogueJobs", "%1 collection(s) written to '%2'.")
                     .arg(entries->size() - without)
                     .arg(wanted.file);
  if (without > 0)
    said += QLatin1Char(' ') +
            QCoreApplication::translate(
                "CatalogueJobs", "Left out, as CGATS holds colours only: %1 collection(s) without one.")
                .arg(without);
  return said;
}

Result<std::vector<QImage>> preview_report(const CatalogueExport& wanted, Progress& progress) {
  const auto entries = leaving(wanted, most_pages, progress);
  if (!entries) return fail(entries.error());
  const auto pages = report_pictures(*entries, wanted.pictures.toStdString(), preview_px_per_mm, most_pages);
  if (!pages) return fail(pages.error());
  std::vector<QImage> images;
  for (const Image8& page : *pages) images.push_back(image_from(page));
  return images;
}

}  // namespace tintfall::viewer
