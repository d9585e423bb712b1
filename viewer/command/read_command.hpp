#pragma once
/// `tintfall read`: photographs in, calibrated and named colours out.

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
  /// One photo all the way: record and outputs of its own. From several threads at once.
  colorlib::Result<colorlib::Record> read_one(const std::string& photo, const ReadJob& job,
                                              colorlib::Progress& progress) const;
  /// The record that an earlier run saved of this very photo.
  std::optional<colorlib::Record> resumed(const std::string& photo) const;
  int read_all(const ReadJob& job, Streams& streams);
  void summarise(const colorlib::Record& record, const ReadJob& job, Streams& streams) const;
  bool many() const { return choices_.photos.size() > 1 || has_folder_; }

  ReadChoices choices_;
  bool has_folder_ = false;
};

}  // namespace tintfall
