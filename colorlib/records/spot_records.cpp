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

bool lies_outside_opening(const Reading& reading) {
  return std::any_of(reading.flags.begin(), reading.flags.end(),
                     [](const Flag& each) { return each.code == "outside-opening"; });
}

/// A control on print or bare paper, where the spot lies in the sheet's opening, was never tissue: it stays
/// as it is whatever water and light do. Told by most of the frames that hold both.
std::optional<Error> control_outside_opening(const SpotSeries& spot, const std::vector<FrameRecord>& frames) {
  for (const std::string& control : spot.controls) {
    std::size_t both = 0, outside = 0;
    RegionKind kind = RegionKind::control;
    for (const FrameRecord& frame : frames) {
      const Reading* own = reading_of(frame, spot.id);
      const Reading* beside = reading_of(frame, control);
      if (own == nullptr || beside == nullptr) continue;
      ++both;
      kind = beside->kind;
      outside += !lies_outside_opening(*own) && lies_outside_opening(*beside);
    }
    if (2 * outside <= both) continue;
    return Error{
        ErrorCode::unreadable_regions,
        fmt::format("Following {} '{}': its control, {} '{}', lies outside the sheet's opening, on "
                    "print or bare paper, which says nothing of what light and wetting do to tissue.",
                    region_kind_name(spot.kind), quotable(spot.id), region_kind_name(kind),
                    quotable(control)),
        "Move the control onto the same tissue, beside the drop, or leave it out."};
  }
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
    if (auto why = control_outside_opening(spot, frames)) {
      record.refused = std::move(why);
      spots.push_back(std::move(record));
      continue;
    }
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
