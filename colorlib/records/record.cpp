#include <algorithm>
#include <cmath>
#include <colorlib/records/record.hpp>

namespace colorlib {
namespace {

RecordPhoto photo_part(const Photo& photo) {
  RecordPhoto part;
  part.name = photo.name();
  part.width_px = photo.width_px();
  part.height_px = photo.height_px();
  const CaptureMetadata& capture = photo.capture();
  if (capture.captured) part.captured = capture.captured->iso8601();
  part.encoding = photo.encoding().kind == EncodingKind::linear_sensor ? "linear-sensor" : "display-referred";
  part.profile = photo.encoding().profile;
  part.profile_assumed = photo.encoding().profile_assumed;
  part.exposure_s = capture.exposure_s;
  part.f_number = capture.f_number;
  part.iso_speed = capture.iso_speed;
  part.focal_length_mm = capture.focal_length_mm;
  part.remarks = photo.remarks;
  return part;
}

RecordChart chart_part(const PhotoReading& reading) {
  RecordChart part;
  part.name = reading.chart.name;
  part.reference_kind = std::string(reference_kind_name(reading.reference.kind));
  part.reference_source = reading.reference.source;
  part.reference_remarks = reading.reference.remarks;
  return part;
}

RecordCalibration calibration_part(const PhotoReading& reading) {
  const CalibrationSummary& summary = reading.calibration.summary();
  RecordCalibration part;
  part.model = summary.model;
  part.markers_found = reading.sheet.markers_found;
  part.reprojection_px = reading.sheet.reprojection_px;
  part.flatness_mm = reading.sheet.flatness_mm;
  part.corners_px = reading.sheet.corners_px;
  part.check_de00_mean = summary.check_de00_mean;
  part.check_de00_p95 = summary.check_de00_p95;
  part.lighting_spread_de00 = summary.lighting_spread_de00;
  part.patches_used = summary.patches_used;
  part.paper_used = summary.paper_used;
  for (const PatchSample& sample : reading.samples.patches)
    if (sample.dropped && sample.patch < reading.chart.patches.size())
      part.patches_dropped.emplace_back(reading.chart.patches[sample.patch].id, *sample.dropped);
  return part;
}

}  // namespace

std::size_t first_used_photo(const std::vector<Reading>& readings) {
  std::optional<std::size_t> first;
  for (const Reading& reading : readings) {
    if (reading.refused || !reading.agreement) continue;
    const auto& de00 = reading.agreement->de00_from_mean;
    const auto& outliers = reading.agreement->outliers;
    for (std::size_t i = 0; i < std::min(de00.size(), first.value_or(de00.size())); ++i)
      if (std::isfinite(de00[i]) && std::find(outliers.begin(), outliers.end(), i) == outliers.end())
        first = i;
  }
  return first.value_or(0);
}

Record record_from(const Photo& photo, const PhotoReading& reading, const Subject& subject) {
  Record record;
  record.software = "tintfall " TINTFALL_VERSION;
  record.subject = subject;
  record.photo = photo_part(photo);
  record.chart = chart_part(reading);
  record.calibration = calibration_part(reading);
  record.readings = reading.readings;
  record.flags = reading.flags;
  return record;
}

}  // namespace colorlib
