#pragma once
/// The user's work on one photo as a file: which photo, what was said about it, the regions drawn. Format
/// "tintfall-work", version 1 (docs/reference/work_file.md). Readings are not in it: they follow from these.

#include <colorlib/base/result.hpp>
#include <colorlib/specimen/regions.hpp>
#include <viewer/tasks/photo_jobs.hpp>

namespace tintfall::viewer {

struct Work {
  QString photo;  ///< full path
  QString file;   ///< of the work itself when it was recovered; empty: never saved
  PhotoSetup setup;
  bool regions_drawn = false;  ///< false: they are looked for
  colorlib::Regions regions;
};

/// For jobs. Errors: unreadable_table, naming the key; cannot_write.
colorlib::Result<Work> read_work(const QString& file);
colorlib::Result<std::monostate> write_work(const Work& work, const QString& file);

}  // namespace tintfall::viewer
