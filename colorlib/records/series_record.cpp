#include <algorithm>
#include <colorlib/records/series_record.hpp>

namespace colorlib {

bool zero_is_stated(SeriesZero zero) { return zero != SeriesZero::first_photo && zero != SeriesZero::found; }

const FrameRecord* SeriesRecord::representative() const {
  for (auto frame = frames.rbegin(); frame != frames.rend(); ++frame)
    if (!frame->dropped) return &*frame;
  return nullptr;
}

bool SeriesRecord::uses_reagent() const {
  return std::any_of(spots.begin(), spots.end(),
                     [](const SpotRecord& spot) { return spot.kind == RegionKind::spot; });
}

Record record_of_still(const StillOutcome& still, const Subject& subject) {
  Record record = record_from(*still.photo, *still.reading, subject);
  const PhotoReduction& reduction = still.reduction;
  if (reduction.factor == 1) return record;
  record.photo.width_px = reduction.file_width_px;
  record.photo.height_px = reduction.file_height_px;
  RecordCalibration& calibration = record.calibration;
  calibration.reprojection_px *= reduction.factor;
  for (PointPx& corner : calibration.corners_px)
    corner = {reduction.factor * (corner.x + 0.5) - 0.5, reduction.factor * (corner.y + 0.5) - 0.5};
  return record;
}

std::vector<TimedReadings> timed_readings(const std::vector<FrameRecord>& frames,
                                          std::vector<std::size_t>* index) {
  std::vector<TimedReadings> readings;
  for (std::size_t i = 0; i < frames.size(); ++i) {
    if (frames[i].dropped) continue;
    readings.push_back({frames[i].seconds, frames[i].photo, frames[i].record.readings});
    if (index != nullptr) index->push_back(i);
  }
  return readings;
}

}  // namespace colorlib
