#pragma once
/// `tintfall compare`: do readings agree?

#include <optional>
#include <string>
#include <vector>
#include <viewer/command/command.hpp>
#include <viewer/command/json_output.hpp>

namespace tintfall {

class CompareCommand : public Command {
 public:
  std::string_view name() const override { return "compare"; }
  std::string_view summary() const override {
    return "Whether readings agree: of one thing by several collectors, or of several things";
  }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;

 private:
  std::vector<std::string> records_, references_;
  std::optional<double> tolerance_de00_;
  std::string kind_, reading_;
  double risk_ = 0.05;
  bool all_pairs_ = false, quiet_ = false, verbose_ = false;
  JsonTarget json_;
};

}  // namespace tintfall
