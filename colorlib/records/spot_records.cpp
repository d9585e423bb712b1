#include <algorithm>
#include <colorlib/records/series_record.hpp>

namespace colorlib {

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
    if (kinetics)
      record.kinetics = std::move(*kinetics);
    else
      record.refused = kinetics.error();
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
    if (kinetics && !kinetics->bad_frames.empty()) {
      spot = without_frames(spot, kinetics->bad_frames, timed);
      kinetics = fit_kinetics(spot.series, progress);
    }
