#pragma once
/// What `tintfall series` was asked for: as typed, and as loaded and checked.

#include <colorlib/reaction/protocol.hpp>
#include <colorlib/reaction/series_times.hpp>
#include <optional>
#include <string>
#include <viewer/command/read_options.hpp>

namespace tintfall {

/// As typed.
struct SeriesChoices {
  ReadChoices read;  ///< photos, sheet, regions, subject, words, JSON
  std::string times, applied, protocol_file, journal;
  std::string plot, strip, bins;
  std::optional<double> interval_s;
  bool every_frame = false;
  colorlib::Protocol protocol;  ///< said by options
};

void declare_series(CLI::App& app, SeriesChoices& choices);

/// Loaded and checked; no photo is looked into.
struct SeriesJob {
  ReadJob read;
  std::vector<std::filesystem::path> photos;  ///< or one video
  bool video = false;
  colorlib::TimesRequest times;
  colorlib::Protocol protocol;
  std::filesystem::path journal;   ///< empty: none
  std::string identity;            ///< what the readings depend on, for the journal
  bool arriving = false;           ///< more photos may come
  std::vector<std::string> notes;  ///< for the person who calls, before the work begins
};

/// What the protocol does not say of tissue and state is taken from what is said of the specimen.
colorlib::Protocol with_subject(colorlib::Protocol protocol, const colorlib::Subject& subject);

/// The photos of a series, with each folder replaced by what it holds. Errors: unreadable_photo: a folder
/// that cannot be looked into or holds none; bad_call: too many, or two of one name.
colorlib::Result<std::vector<std::filesystem::path>> photos_from(const std::vector<std::string>& named);

/// Folders among the photos are replaced by what they hold. Errors: as read_job_from; bad_call when no region
/// is given; unreadable_table.
colorlib::Result<SeriesJob> series_job_from(const SeriesChoices& choices);

}  // namespace tintfall
