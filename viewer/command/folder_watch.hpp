#pragma once
/// A series that is read while its photos arrive in a folder.

#include <colorlib/records/series_record.hpp>
#include <filesystem>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>
#include <viewer/command/command.hpp>
#include <viewer/command/output_check.hpp>
#include <viewer/command/series_options.hpp>
#include <viewer/command/watched_moment.hpp>

namespace tintfall {

/// In the folder, unless another is named.
inline constexpr std::string_view watch_journal_name = "tintfall-watch.journal";

/// The photos of a folder that are no longer being written: their size is that of the last look.
class SettledPhotos {
 public:
  colorlib::Result<std::vector<std::filesystem::path>> look(const std::filesystem::path& folder);

 private:
  std::map<std::filesystem::path, std::uintmax_t> sizes_;
};

/// A watch under way.
struct FolderWatch {
  std::filesystem::path folder;
  SeriesChoices choices;  ///< as said, of a series of no photos yet
  std::string applied;    ///< as said; may name a photo that is still to come
  SeriesJob job;          ///< with the photos so far
  WatchedMoment moment;
  CallFiles files;  ///< with the photos that were there at the start
  SettledPhotos settled;
  std::set<std::string> told;                    ///< photos that were spoken of
  std::optional<colorlib::SeriesRecord> series;  ///< of the photos so far, once one could be read
};

/// Checked as a series of no photos yet. Errors: as photos_of_folder, watched_moment and series_job_from.
colorlib::Result<FolderWatch> folder_watch(const std::filesystem::path& folder, const SeriesChoices& said);

/// Reads what has come since the last look and says what it showed; false when nothing has. A photo that does
/// not serve is spoken of and ends nothing. Errors: as photos_of_folder, watched_moment and read_frames;
/// bad_call of series_from.
colorlib::Result<bool> look(FolderWatch& watch, Streams& streams);

}  // namespace tintfall
