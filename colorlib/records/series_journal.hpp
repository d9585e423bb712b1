#pragma once
/// The frames of a series that is being read, kept on disk one by one, so that nothing finished is lost.

#include <colorlib/base/result.hpp>
#include <colorlib/records/series_record.hpp>
#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <variant>

namespace colorlib {

/// Which file a reading came from: a photo that was replaced is read again.
/// Name, size in bytes and time of last change. Empty when the file cannot be looked at.
std::string photo_key(const std::filesystem::path& photo);

/// A text file: one line that says what the readings depend on, then one line a frame, each written with one
/// call and flushed. A line cut off by a crash is dropped at the next opening. Locked while it is open.
class SeriesJournal {
 public:
  /// `identity` says in any form what the readings depend on besides the photo: chart, reference, regions,
  /// version. A journal of another identity is begun anew. Errors: cannot_write, bad_call (another process
  /// has it open, or it is a file of another kind, which is left as it is).
  static Result<SeriesJournal> open(const std::filesystem::path& path, std::string_view identity);
  ~SeriesJournal();
  SeriesJournal(SeriesJournal&&) noexcept;
  SeriesJournal& operator=(SeriesJournal&&) noexcept;

  /// What stood in it when it was opened, by photo key.
  const std::map<std::string, FrameRecord>& found() const { return found_; }
  bool begun_anew() const { return begun_anew_; }  ///< it held frames of another identity
  /// Errors: cannot_write.
  Result<std::monostate> add(const std::string& key, const FrameRecord& frame);
  const std::filesystem::path& path() const { return path_; }

 private:
  SeriesJournal() = default;
  Result<std::monostate> load(std::string_view identity);
  void close();

  std::filesystem::path path_;
  int file_ = -1;
  std::map<std::string, FrameRecord> found_;
  bool begun_anew_ = false;
};

}  // namespace colorlib
