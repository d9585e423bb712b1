#include <fmt/format.h>

#include <algorithm>
#include <colorlib/reaction/application_finder.hpp>
#include <colorlib/reaction/stills_reading.hpp>
#include <colorlib/records/series_journal.hpp>
#include <viewer/command/series_run.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

bool needs_capture_times(const SeriesJob& job) {
  return !job.video && !job.times.table && !job.times.interval_s;
}

std::optional<Error> without_time(const FrameRecord& frame, const SeriesJob& job) {
  if (!needs_capture_times(job) || !frame.record.photo.captured.empty() || frame.dropped) return std::nullopt;
  const auto times = series_times({{frame.photo, {}}}, job.times);
  return times ? std::nullopt : std::optional(times.error());
}

/// Tells early, by the first photos' clocks, that the interval stated cannot be meant.
class IntervalCheck {
 public:
  explicit IntervalCheck(const SeriesJob& job) : interval_s_(job.times.interval_s) {
    if (interval_s_)
      for (const auto& photo : job.photos) photos_.push_back({photo.filename().string(), {}});
  }
  Result<std::monostate> add(std::size_t place, const FrameRecord& frame) {
    constexpr int enough = 10;
    if (!interval_s_ || known_ >= enough) return std::monostate{};
    photos_[place].captured = capture_time_from_iso8601(frame.record.photo.captured);
    known_ += photos_[place].captured.has_value();
    TimesRequest request;
    request.interval_s = interval_s_;
    if (const auto times = series_times(photos_, request); !times) return fail(times.error());
    return std::monostate{};
  }

 private:
  std::optional<double> interval_s_;
  std::vector<TimedPhoto> photos_;
  int known_ = 0;
};

/// A video's frames by their time stamps; a clock time of application by when the recording began.
Result<SeriesTimes> stream_times(const std::vector<TimedPhoto>& photos,
                                 const std::vector<FrameRecord>& frames,
                                 const std::optional<CaptureTime>& recorded, const AppliedMoment& applied) {
  using Kind = AppliedMoment::Kind;
  TimesRequest request;
  request.table.emplace();
  for (const FrameRecord& frame : frames) request.table->emplace(frame.photo, frame.seconds);
  auto times = series_times(photos, request);
  if (!times) return times;
  times->source = TimesSource::stream;
  times->zero = SeriesZero::first_photo;
  if (applied.kind == Kind::seconds_after_first) shift_zero(*times, applied.seconds, SeriesZero::applied);
  if (applied.kind == Kind::clock || applied.kind == Kind::clock_of_day) {
    if (!recorded || applied.kind == Kind::clock_of_day || !applied.clock.zone_offset_minutes)
      return fail(
          ErrorCode::bad_call,
          recorded ? "A video's clock is in universal time, so --applied needs date, time and zone."
                   : "The video does not say when it was recorded, so a clock time cannot be placed in it.",
          "Say --applied +SECONDS after the first frame.");
    shift_zero(*times, applied.clock.seconds() - recorded->seconds(), SeriesZero::applied);
  }
  if (applied.kind == Kind::photo || applied.kind == Kind::zero)
    return fail(ErrorCode::bad_call, "--applied names a photo, but this series is a video.",
                "Say --applied +SECONDS after the first frame, or found.");
  return times;
}

}  // namespace

FrameRecord frame_of(const StillOutcome& outcome, const SeriesJob& job, const Subject& said) {
  FrameRecord frame;
  frame.photo = job.photos[outcome.index].filename().string();
  if (outcome.reading) {
    const Subject subject = merged(job.read.fields.subject_of(frame.photo), said);
    frame.record = record_of_still(outcome, subject);
    for (const RegionMovement& moved : outcome.comparison.movements)
      if (moved.followed) frame.movements.push_back(moved);
    frame.areas = outcome.comparison.areas;
    if (job.read.sheet) {
      frame.record.chart.sheet_label = job.read.sheet->label;
      frame.record.chart.printed = job.read.sheet->printed;
    }
    return frame;
  }
  frame.dropped = outcome.reading.error();
  if (outcome.photo != nullptr && outcome.photo->capture().captured)
    frame.record.photo.captured = outcome.photo->capture().captured->iso8601();
  return frame;
}

Result<ReadFrames> read_frames(const SeriesJob& job, const SeriesChoices& choices, TimedProgress& progress) {
  ReadFrames result;
  result.frames.resize(job.photos.size());
  StillsTask task;
  task.photos = job.photos;
  task.threads = static_cast<unsigned>(choices.read.jobs);
  task.skip.assign(job.photos.size(), false);
  std::optional<SeriesJournal> journal;
  std::vector<std::string> keys;
  if (!job.journal.empty()) {
    auto opened = SeriesJournal::open(job.journal, job.identity);
    if (!opened) return fail(opened.error());
    journal = std::move(*opened);
    if (journal->begun_anew())
      result.remarks.push_back(fmt::format(
          "The journal '{}' was of another call (other sheet, regions or version) and was begun anew.",
          job.journal.string()));
    for (std::size_t i = 0; i < job.photos.size(); ++i) {
      keys.push_back(photo_key(job.photos[i]));
      const auto known = journal->found().find(keys[i]);
      if (known == journal->found().end() || keys[i].empty()) continue;
      result.frames[i] = known->second;
      result.frames[i].photo = job.photos[i].filename().string();
      task.skip[i] = true;
      ++result.resumed;
    }
  }
  IntervalCheck interval(job);
  const auto keep = [&](const StillOutcome& outcome) -> Result<std::monostate> {
    const FrameRecord frame = frame_of(outcome, job, choices.read.subject);
    if (const auto problem = without_time(frame, job)) return fail(*problem);
    if (const auto sound = interval.add(outcome.index, frame); !sound) return fail(sound.error());
    if (journal && !keys[outcome.index].empty())
      if (const auto written = journal->add(keys[outcome.index], frame); !written)
        return fail(written.error());
    // Through the journal's form, so that a series that was stopped and one that was not give the same
    // record.
    auto rounded = parse_frame(frame_json(frame));
    if (!rounded) return fail(rounded.error());
    rounded->photo = frame.photo;  // as the folder has it: control characters too, which no journal holds
    result.frames[outcome.index] = std::move(*rounded);
    return std::monostate{};
  };
  const auto done = read_stills(task, job.read.request, job.read.naming.namer, keep, progress);
  if (done) return result;
  if (done.error().code != ErrorCode::cancelled) return fail(done.error());
  result.stopped = true;
  return result;
}

Result<SeriesRecord> series_from(const SeriesJob& job, ReadFrames read, const Progress& progress) {
  SeriesRecord series;
  series.remarks = std::move(read.remarks);
  series.protocol = job.protocol;
  std::vector<TimedPhoto> photos;
  std::vector<FrameRecord> frames;
  std::size_t standing = 0;
  for (FrameRecord& frame : read.frames) {
    if (frame.photo.empty()) continue;  // not read yet
    const auto captured = capture_time_from_iso8601(frame.record.photo.captured);
    if (needs_capture_times(job) && !captured) {
      series.remarks.push_back(
          fmt::format("'{}' could not be read: {}", frame.photo,
                      frame.dropped ? frame.dropped->message : std::string("it has no time.")));
      continue;
    }
    standing += !frame.dropped;
    photos.push_back({frame.photo, captured});
    frames.push_back(std::move(frame));
  }
  if (standing == 0) {
    for (const FrameRecord& frame : frames)
      if (frame.dropped) return fail(*frame.dropped);
    for (const FrameRecord& frame : read.frames)
      if (frame.dropped) return fail(*frame.dropped);
    return fail(ErrorCode::cancelled, "The series was stopped before any photo was read.",
                "Start it again when you like.");
  }
  auto times = read.from_video ? stream_times(photos, frames, read.recorded, job.times.applied)
                               : series_times(photos, job.times);
  if (!times) return fail(times.error());
  if (const auto sound = check_applied(*times); !sound) {
    // The photos after that moment may still be to come.
    if (!job.arriving) return fail(sound.error());
    series.remarks.push_back(sound.error().message);
  }
  for (const std::size_t i : times->order) {
    frames[i].seconds = times->seconds[i];
    series.frames.push_back(std::move(frames[i]));
  }
  series.source = times->source;
  series.zero = times->zero;
  series.resolution_s = times->resolution_s;
  series.remarks.insert(series.remarks.end(), times->remarks.begin(), times->remarks.end());
  for (const FrameRecord& frame : series.frames)
    if (frame.dropped)
      series.remarks.push_back(fmt::format("'{}' was dropped: {}", frame.photo, frame.dropped->message));

  if (job.times.applied.kind == AppliedMoment::Kind::to_be_found) {
    const auto timed = timed_readings(series.frames);
    const auto at = find_application(timed);
    if (at) {
      const double zero = timed[*at].seconds;
      for (FrameRecord& frame : series.frames) frame.seconds -= zero;
      series.zero = SeriesZero::found;
    } else {
      series.remarks.push_back(
          "No frame was found in which the drop or the wound first shows; times count from the first photo.");
    }
  }
  series.spots = spot_records(series.frames, zero_is_stated(series.zero), progress);
  if (progress.cancelled())
    return fail(ErrorCode::cancelled, "The series was stopped while its time courses were fitted.",
                "Start it again when you like.");
  return series;
}

std::optional<Error> nothing_told(const SeriesRecord& series) {
  for (const SpotRecord& spot : series.spots)
    if (!spot.refused) return std::nullopt;
  return series.spots.empty() ? std::nullopt : series.spots.front().refused;
}

void forget_journal(const SeriesJob& job) {
  std::error_code ignored;
  if (!job.journal.empty()) std::filesystem::remove(job.journal, ignored);
}

}  // namespace tintfall
