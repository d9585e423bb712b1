#pragma once
/// What is kept of a series: its frames with their readings, and the course of each spot. Mirrors
/// docs/reference/series_format.md.

#include <colorlib/reaction/first_frame.hpp>
#include <colorlib/reaction/protocol.hpp>
#include <colorlib/reaction/series_times.hpp>
#include <colorlib/reaction/spot_series.hpp>
#include <colorlib/reaction/stills_reading.hpp>
#include <colorlib/records/record.hpp>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

/// One photo, or frame of a video, of the series.
struct FrameRecord {
  std::string photo;             ///< file name without folder; of a video frame its number
  double seconds = 0;            ///< from the series' zero
  std::optional<Error> dropped;  ///< why it has no readings; then `record` is empty
  Record record;
  std::vector<RegionMovement> movements;  ///< of regions that were followed
  std::vector<ChangedArea> areas;         ///< one a spot or bruise
};

/// One spot or bruise: what became of it.
struct SpotRecord {
  std::string id;
  RegionKind kind = RegionKind::spot;
  std::vector<std::string> controls;
  std::vector<std::size_t> frames;  ///< of each moment of `kinetics`: index into the series' frames
  std::optional<Error> refused;     ///< why nothing can be said of it; then `kinetics` is empty
  Kinetics kinetics;
  std::optional<double> spreading_mm_s;  ///< of the stain's radius while it grows
  std::string verdict;                   ///< "positive", "negative", "undecided", "void", "described"
  std::string verdict_text, sentence, sign;
  std::vector<std::string> warnings;  ///< what a careful reader asks for

  bool has_course() const { return !refused && !kinetics.path.empty(); }
};

struct SeriesRecord {
  TimesSource source = TimesSource::capture_times;
  SeriesZero zero = SeriesZero::first_photo;
  double resolution_s = 0;
  std::vector<std::string> remarks;
  Protocol protocol;
  std::vector<FrameRecord> frames;  ///< by time, dropped ones too
  std::vector<SpotRecord> spots;

  /// The frame whose photo, chart and calibration stand for the series: the last one with readings; null when
  /// none has.
  const FrameRecord* representative() const;
  /// Whether a reagent was dropped on something; bruises need none.
  bool uses_reagent() const;
};

/// What is kept of a photo that was read (its `reading` stands), in pixels of its file, whatever size it was
/// decoded at.
Record record_of_still(const StillOutcome& still, const Subject& subject);

/// The frames that have readings, by time, for `spot_series`; they refer to `frames`. `index`, when given,
/// receives the place of each in `frames`.
std::vector<TimedReadings> timed_readings(const std::vector<FrameRecord>& frames,
                                          std::vector<std::size_t>* index = nullptr);

/// Whether zero is the moment of application as somebody stated it. A found one is the first frame that shows
/// it: the drop fell some time before.
bool zero_is_stated(SeriesZero zero);

/// Every spot and bruise of the frames with its kinetics; once cancelled the rest are refused. `frames` by
/// time.
std::vector<SpotRecord> spot_records(const std::vector<FrameRecord>& frames, bool zero_is_application,
                                     const Progress& progress = {});

/// The reading of a region in a frame; null when it has none or it was refused.
const Reading* reading_of(const FrameRecord& frame, std::string_view id);

/// A record (record_json) of the representative frame, and "zero", "times", "protocol", "frames", "spots"
/// beside it. Pretty when `indent` >= 0.
std::string series_json(const SeriesRecord& series, int indent = 2);

/// Back from series_json, as far as the course of each spot is told and drawn: zero, protocol, the frames'
/// times and colours, and of each spot everything but censored times and scores. Nothing when the record is
/// of one photo. Errors: unreadable_record, naming the key; unreadable_table for the protocol.
Result<std::optional<SeriesRecord>> parse_series(std::string_view json, std::string_view name);

/// One frame as one line of JSON, and back: everything but its seconds, which depend on the other frames.
/// Errors: unreadable_record.
std::string frame_json(const FrameRecord& frame);
Result<FrameRecord> parse_frame(std::string_view json);

}  // namespace colorlib
