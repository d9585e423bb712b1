#pragma once
/// A reading record: what is kept of one photo. Mirrors docs/reference/record_format.md.

#include <colorlib/specimen/photo_reading.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// What the user said; nothing is invented. Empty means not said.
struct Subject {
  std::string item, collector, tissue, state, surface;
};

struct RecordPhoto {
  std::string name;
  int width_px = 0, height_px = 0;
  std::string captured;            ///< ISO 8601, empty when the file does not say
  std::string encoding;            ///< "display-referred" | "linear-sensor"
  std::string profile;
  bool profile_assumed = false;
  std::optional<double> exposure_s, f_number, iso_speed, focal_length_mm;
  std::vector<std::string> remarks;
};

struct RecordCalibration {
  std::string model;
  int markers_found = 0;
  double reprojection_px = 0;
  std::array<PointPx, 4> corners_px{};
  double check_de00_mean = 0, check_de00_p95 = 0, lighting_spread_de00 = 0;
  int patches_used = 0, paper_used = 0;
  std::vector<std::pair<std::string, std::string>> patches_dropped;  ///< id, reason
};

struct Record {
  Subject subject;
  RecordPhoto photo;
  std::string chart_name;
  std::string reference_kind;      ///< "measured" | "nominal" | "transferred"
  std::string reference_source;
  RecordCalibration calibration;
  std::vector<Reading> readings;
  std::vector<Flag> flags;
};

Record record_from(const Photo& photo, const PhotoReading& reading, const Subject& subject);

}  // namespace colorlib
