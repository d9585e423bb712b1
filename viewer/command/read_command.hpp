#pragma once
/// `tintfall read`: photographs in, calibrated and named colours out.

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
  /// One photo all the way: record, outputs of its own, summary.
  colorlib::Result<colorlib::Record> read_one(const std::string& photo, const std::string& label,
                                              const ReadJob& job, Streams& streams) const;
  void summarise(const colorlib::Record& record, const ReadJob& job, Streams& streams) const;
  bool many() const { return choices_.photos.size() > 1; }

  ReadChoices choices_;
};

}  // namespace tintfall
