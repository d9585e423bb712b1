#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/records/series_record.hpp>

namespace colorlib {
namespace {

/// Why a spot has too few readings for a course: the first refusal of its region; none when nothing was
/// refused.
std::optional<Error> without_readings(const SpotSeries& spot, const std::vector<TimedReadings>& frames) {
  if (spot.frames.size() >= 2) return std::nullopt;
  for (const TimedReadings& frame : frames)
    for (const Reading& reading : frame.readings)
      if (reading.id == spot.id && reading.refused)
        return Error{reading.refused->code,
                     fmt::format("Following {} '{}' over time: it can be read in {} of {} frames, at least "
                                 "two are needed; in '{}': {}",
                                 region_kind_name(spot.kind), quotable(spot.id), spot.frames.size(),
                                 frames.size(), quotable(frame.photo), reading.refused->message),
                     reading.refused->advice};
  return std::nullopt;
}

}  // namespace

std::vector<SpotRecord> spot_records(const std::vector<FrameRecord>& frames, bool zero_is_application,
                                     const Progress& progress) {
  std::vector<SpotRecord> spots;
  std::vector<std::size_t> place;
  const auto timed = timed_readings(frames, &place);
  for (SpotSeries& spot : spot_series(timed, zero_is_application)) {
    SpotRecord record;
    record.id = spot.id;
    record.kind = spot.kind;
    record.controls = spot.controls;
    for (const std::size_t i : spot.frames) record.frames.push_back(place[i]);
    auto kinetics = fit_kinetics(spot.series, progress);
    if (kinetics && !kinetics->bad_frames.empty()) {
      spot = without_frames(spot, kinetics->bad_frames, timed);
      kinetics = fit_kinetics(spot.series, progress);
    }
    if (kinetics)
      record.kinetics = std::move(*kinetics);
    else
      record.refused = without_readings(spot, timed).value_or(kinetics.error());
    std::vector<SpreadPoint> spread;
    for (const FrameRecord& frame : frames)
      for (const ChangedArea& area : frame.areas)
        if (area.id == spot.id && area.trusted) spread.push_back({frame.seconds, area.radius_mm});
    record.spreading_mm_s = spreading_speed_mm_s(spread);
    spots.push_back(std::move(record));
  }
  return spots;
}

const Reading* reading_of(const FrameRecord& frame, std::string_view id) {
  for (const Reading& reading : frame.record.readings)
    if (reading.id == id && !reading.refused) return &reading;
  return nullptr;
}

}  // namespace colorlib
