#pragma once
/// `tintfall round report`: what a round of several collectors on the same items has shown.

#include <colorlib/records/round_file.hpp>
#include <optional>
#include <string>
#include <viewer/command/command.hpp>
#include <viewer/command/json_output.hpp>
#include <viewer/command/output_check.hpp>

namespace tintfall {

class RoundCommand : public Command {
 public:
  std::string_view name() const override { return "round"; }
  std::string_view summary() const override {
    return "A round: several collectors read the same items; who agrees, who is off, and which way";
  }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;

 private:
  /// The round file, the records that it names, and what is to be written.
  CallFiles files_of(const colorlib::Round& round) const;

  std::string round_, page_;
  std::optional<double> tolerance_de00_;
  bool quiet_ = false, verbose_ = false;
  JsonTarget json_;
};

}  // namespace tintfall
