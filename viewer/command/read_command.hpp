#pragma once
/// `tintfall read`: photographs in, calibrated and named colours out.

#include <atomic>
#include <optional>
#include <string>
#include <viewer/command/command.hpp>
#include <viewer/command/read_options.hpp>

namespace tintfall {

class ReadCommand : public Command {
 public:
  std::string_view name() const override { return "read"; }
  std::string_view summary() const override {
    return "Calibrated, named colours from photographs that show a sheet";
  }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;

 private:
  /// One photo after reading: what its record is made of.
  struct PhotoRead {
    colorlib::Photo photo;
    colorlib::PhotoReading reading;
    colorlib::Subject subject;
  };
  colorlib::Result<PhotoRead> look(const std::string& photo, const ReadJob& job,
                                   colorlib::Progress& progress) const;
  /// The record, and the outputs that go beside the photo.
  colorlib::Result<colorlib::Record> finish(const PhotoRead& read, const std::string& photo,
                                            const ReadJob& job, colorlib::Progress& progress) const;
  /// One photo all the way: record and outputs of its own. From several threads at once.
  colorlib::Result<colorlib::Record> read_one(const std::string& photo, const ReadJob& job,
                                              colorlib::Progress& progress) const;
  /// The calibration as a file for other programs, and what the readings are through it.
  colorlib::Result<std::monostate> write_profile(const PhotoRead& read, colorlib::Progress& progress) const;
  /// What is said about a photo, by the fields file and by options.
  colorlib::Subject subject_of(const std::string& photo, const ReadJob& job) const;
  /// All that the photo's readings depend on besides its pixels.
  std::string options_of(const std::string& photo, const ReadJob& job) const;
  /// The record that an earlier run saved of this very photo, read with these very options.
  std::optional<colorlib::Record> resumed(const std::string& photo, const ReadJob& job) const;
  int read_all(const ReadJob& job, Streams& streams);
  int read_two_backings(const ReadJob& job, Streams& streams);
  /// Several photos of one specimen as one record.
  int read_together(const ReadJob& job, Streams& streams);
  /// Records that belong together, as JSON lines and summaries.
  int tell(const std::vector<colorlib::Record>& records, const ReadJob& job, Streams& streams) const;
  void summarise(const colorlib::Record& record, const ReadJob& job, Streams& streams) const;
  bool many() const { return choices_.photos.size() > 1 || has_folder_; }

  ReadChoices choices_;
  bool has_folder_ = false;
  mutable std::atomic<std::size_t> read_anew_ = 0;         ///< photos that had been saved with other options
  mutable std::atomic<std::size_t> taken_from_saved_ = 0;  ///< photos that --resume passed over
  mutable std::string profile_note_;                       ///< of the one photo that a profile was made of
};

}  // namespace tintfall
