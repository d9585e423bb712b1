#pragma once
/// What leaves the window: record, text, picture, regions.

#include <viewer/tasks/photo_jobs.hpp>

namespace tintfall::viewer {

struct ExportParameters {
  std::shared_ptr<const OpenedPhoto> photo;
  CalibratedPhoto sheet;
  std::vector<colorlib::Reading> readings;
  colorlib::Subject subject;
  QString sheet_label, printed;
};

/// The record as JSON, as `tintfall read --json` writes it.
std::string record_text(const ExportParameters& parameters);
/// The lines of `tintfall read`, cautions included.
std::string summary_text(const ExportParameters& parameters);
/// The overlay as PNG bytes.
colorlib::Result<std::string> overlay_picture(const ExportParameters& parameters);

enum class ExportKind { record, text, picture };
colorlib::Result<std::string> exported(ExportKind kind, const ExportParameters& parameters);
/// Writes what `exported` gives; an old file survives a failure.
colorlib::Result<std::monostate> export_to(const QString& file, ExportKind kind,
                                           const ExportParameters& parameters);

/// Regions file of the contract. Errors: cannot_write.
colorlib::Result<std::monostate> save_regions(const QString& file, const colorlib::Regions& regions);
/// Errors: unreadable_regions.
colorlib::Result<colorlib::Regions> load_regions(const QString& file);

}  // namespace tintfall::viewer
