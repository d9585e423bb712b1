#pragma once
/// A reading record: what is kept of one photo. Mirrors docs/reference/record_format.md.

#include <colorlib/naming/color_scale.hpp>
#include <colorlib/records/subject.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// How one of several photos fitted its sheet.
struct RecordCheck {
  double de00_mean = 0, de00_p95 = 0, lighting_spread_de00 = 0;  ///< as in RecordCalibration
  std::vector<std::string> flags;                                ///< codes, of the photo as a whole
};

struct RecordPhoto {
  std::string name;
  std::string sha256;  ///< of the file's bytes, in hexadecimal; empty when not known
  int width_px = 0, height_px = 0;
  std::string captured;  ///< ISO 8601, empty when the file does not say
  std::string encoding;  ///< "display-referred" | "linear-sensor"
  std::string profile;
  bool profile_assumed = false;
  std::optional<double> exposure_s, f_number, iso_speed, focal_length_mm;
  std::vector<std::string> remarks;
  std::optional<RecordCheck> check;  ///< only of photos that were read together
};

/// Which sheet, and where its colours are known from.
struct RecordChart {
  std::string name;
  std::string reference_kind;    ///< "measured" | "nominal" | "transferred"
  std::string reference_source;  ///< file name and what it states of itself; empty for nominal values
  std::vector<std::string> reference_remarks;
  std::string sheet_label;  ///< of the printed sheet, when the user named one
  std::string printed;      ///< ISO 8601 date of that print
};

struct RecordCalibration {
  std::string model;
  int markers_found = 0;
  double reprojection_px = 0;
  std::array<PointPx, 4> corners_px{};
  double check_de00_mean = 0, check_de00_p95 = 0, lighting_spread_de00 = 0;
  double flatness_mm = 0;  ///< rms of patch edges about a flat sheet
  int patches_used = 0, paper_used = 0;
  std::vector<std::pair<std::string, std::string>> patches_dropped;  ///< id, reason
};

struct Record {
  std::string software;        ///< name and version of what wrote it
  std::string options_sha256;  ///< of all that the readings depend on besides the photo; empty: not kept
  Subject subject;
  RecordPhoto photo;                ///< of several read together the first that a reading was made of
  std::vector<RecordPhoto> photos;  ///< all that were read together; empty: one alone
  RecordChart chart;
  RecordCalibration calibration;
  std::vector<Reading> readings;
  std::vector<std::vector<ScaleAnswer>>
      scales;  ///< one list a reading: the user's own scales; empty when none was asked
  std::vector<Flag> flags;
};

/// Which of the photos read together, from 0, is the first that a colour was made of: not left out as an
/// outlier, nor refused. 0 where no reading tells, as of one photo alone.
std::size_t first_used_photo(const std::vector<Reading>& readings);

/// Copies what is kept; patches the sampler dropped are listed with their reason. Labels of printed sheets
/// are left to the caller.
Record record_from(const Photo& photo, const PhotoReading& reading, const Subject& subject);

}  // namespace colorlib
