#pragma once
/// A reaction over time: its photos read, its pictures under one white, its course.

#include <QImage>
#include <QStringList>
#include <colorlib/records/series_record.hpp>
#include <memory>
#include <optional>
#include <vector>
#include <viewer/tasks/photo_jobs.hpp>

namespace tintfall {
struct SeriesJob;
}

namespace tintfall::viewer {

/// One point of a spot's course with everything that is drawn of it.
struct CourseMark {
  double seconds = 0, change_de00 = 0;
  double change_expanded = 0;  ///< k = 2, ΔE00
  std::size_t frame = 0;       ///< into SeriesOutcome::frames
  QString words;               ///< "pale yellow to strong yellow; ..."
  ScreenSwatch swatch;
};
/// A moment of the fitted course with its 95 % interval, in seconds of the series.
struct CourseTime {
  double seconds = 0, low_s = 0, high_s = 0;
  double change_de00 = 0;  ///< of the fit at that moment
};
struct CourseLine {
  QString id;
  colorlib::Lab before;
  std::vector<CourseMark> marks;
  std::vector<std::pair<double, double>>
      fit;  ///< seconds, change ΔE00 of the fitted curve; empty: nothing was fitted
  std::optional<CourseTime> onset, half_time;  ///< of a reaction
  QString verdict, sentence;                   ///< what happened, in the window's language
  /// Of the whole course, ΔE00 with k = 2, and what is needed to count as a reaction.
  double change_de00 = 0, change_expanded = 0, threshold_de00 = 0;
  std::vector<std::size_t> key_frames;  ///< into SeriesOutcome::frames
  QStringList remarks;                  ///< what a careful reader asks for first
};

struct SeriesFrame {
  QString name, captured;
  double seconds = 0;
  QString dropped;  ///< why it has no readings
  QImage picture;   ///< the opening, calibrated, seen from straight above; null for dropped frames
};

struct SeriesOutcome {
  std::shared_ptr<const colorlib::SeriesRecord> record;
  std::vector<SeriesFrame> frames;  ///< by time
  std::vector<CourseLine> lines;
  QStringList remarks;
  std::shared_ptr<const SeriesJob> job;  ///< what was read: a strip looks at its photos once more
};

/// Nobody said when it was applied, and it was not found.
inline bool counts_from_first_photo(const SeriesOutcome& outcome) {
  return outcome.record && outcome.record->zero == colorlib::SeriesZero::first_photo;
}

struct SeriesParameters {
  QStringList photos;  ///< or one video
  PhotoSetup setup;
  colorlib::Regions regions;
  colorlib::Protocol protocol;
  QString applied;  ///< as `tintfall series --applied` takes it; empty: not said
  std::optional<double> interval_s;
  Screen screen;  ///< null: sRGB
};

/// `dropped` with each folder replaced by the photos in it, as every command takes a folder. Errors:
/// unreadable_photo: a folder that cannot be looked into or holds no photo; bad_call: too many, or two of one
/// name.
colorlib::Result<QStringList> photos_among(const QStringList& dropped);

/// Reads every photo, or a video's telling frames. Errors: of the sheet and its files; bad_call without
/// regions or times; cancelled.
colorlib::Result<SeriesOutcome> read_series(SeriesParameters parameters, colorlib::Progress& progress);

/// The same frames with another time zero: nothing is read again. `zero_s` on the present scale.
colorlib::Result<SeriesOutcome> with_zero(const SeriesOutcome& outcome, double zero_s, const Screen& screen,
                                          const colorlib::Progress& progress);

/// Writes the series record. Errors: cannot_write.
colorlib::Result<std::monostate> write_series(const QString& file, const SeriesOutcome& outcome);
/// The stages of a course in a row, as PNG, drawn as `tintfall series --strip` draws them. Errors: bad_call
/// (nothing to show), cannot_write, cancelled, a photo that cannot be read any more.
colorlib::Result<std::monostate> write_strip(const QString& file, const SeriesOutcome& outcome,
                                             std::size_t line, colorlib::Progress& progress);

}  // namespace tintfall::viewer
