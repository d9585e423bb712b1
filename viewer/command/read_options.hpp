#pragma once
/// What `tintfall read` was asked for: as typed, and as loaded and checked.

#include <colorlib/base/result.hpp>
#include <colorlib/specimen/photo_reading.hpp>
#include <optional>
#include <string>
#include <vector>
#include <viewer/command/json_output.hpp>
#include <viewer/command/naming_options.hpp>
#include <viewer/command/output_check.hpp>
#include <viewer/command/sheet_settings.hpp>
#include <viewer/command/subject_fields.hpp>

namespace tintfall {

/// As typed.
struct ReadChoices {
  std::vector<std::string> photos;
  std::string chart, reference, sheet;
  std::string regions_file;
  std::vector<std::string> regions, corners;
  std::optional<double> height_mm;
  colorlib::Subject subject;
  std::string fields_file;
  NamingChoices naming;
  JsonTarget json;
  std::string overlay, overlays, icc;
  std::size_t jobs = 0;  ///< 0: as many as there are cores
  bool masstone = false, two_grounds = false, together = false;
  bool save = false, resume = false, quiet = false, verbose = false;
};

void declare_read(CLI::App& app, ReadChoices& choices);
/// Whether --of was said: else each kind of region has its own trade terms.
bool terms_stated(const ReadChoices& choices);

/// Everything that all photos share, loaded and checked.
struct ReadJob {
  colorlib::ReadRequest request;
  NamingTools naming;
  SubjectFields fields;
  std::optional<PrintedSheet> sheet;
  CallFiles files;
  std::string
      identity;  ///< what the readings depend on besides photo and subject, where they are to be saved
};

/// Where --save keeps the reading of a photo.
std::string saved_reading_of(const std::string& photo);
/// Where --overlays draws the overlay of a photo.
std::string overlay_in_folder(const std::string& folder, const std::string& photo);

/// Errors: bad_call for options that contradict each other, outputs that would overwrite an input, what
/// cannot be parsed; unreadable_* for files; cannot_write for outputs whose folder is missing. No photo is
/// decoded.
colorlib::Result<ReadJob> read_job_from(const ReadChoices& choices);

}  // namespace tintfall
