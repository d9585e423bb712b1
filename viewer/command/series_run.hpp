#pragma once
/// Reading the photos of a series into frames, and frames into a record.

#include <colorlib/records/series_record.hpp>
#include <optional>
#include <viewer/command/series_options.hpp>
#include <viewer/command/timed_progress.hpp>

namespace tintfall {

/// The frame that is kept of a photo of the job: its record with label and print date of the sheet, the
/// regions that were followed, what changed; or why it was dropped, and when it was taken. `said` of the
/// specimen goes before what the job's fields file says.
colorlib::FrameRecord frame_of(const colorlib::StillOutcome& outcome, const SeriesJob& job,
                               const colorlib::Subject& said);

struct ReadFrames {
  std::vector<colorlib::FrameRecord>
      frames;               ///< in the order of the job's photos; those not read yet have an empty name
  bool stopped = false;     ///< the user asked to stop: not all were read
  std::size_t resumed = 0;  ///< taken over from the journal
  bool from_video = false;  ///< then the frames know their seconds on the stream
  std::optional<colorlib::CaptureTime> recorded;  ///< when the video began, if it says so
  std::vector<std::string> remarks;
};

/// Reads what the journal does not hold yet, and keeps each finished frame in it. A frame that cannot be read
/// is kept as dropped; it fails the series only when it has no time and none was given. Errors: bad_call,
/// cannot_write.
colorlib::Result<ReadFrames> read_frames(const SeriesJob& job, const SeriesChoices& choices,
                                         TimedProgress& progress);

/// Times, courses. Errors: bad_call and unreadable_table of series_times; the first dropped frame's error
/// when no frame could be read; cancelled.
colorlib::Result<colorlib::SeriesRecord> series_from(const SeriesJob& job, ReadFrames frames,
                                                     const colorlib::Progress& progress = {});

/// Why the series answers nothing, when each of its spots is refused: as of a photo of which no region can be
/// read.
std::optional<colorlib::Error> nothing_told(const colorlib::SeriesRecord& series);

/// Removes the journal of a series whose record stands.
void forget_journal(const SeriesJob& job);

}  // namespace tintfall
