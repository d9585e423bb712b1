#pragma once
#include <colorlib/naming/tolerance.hpp>
#include <string>
#include <vector>
#include <viewer/command/command.hpp>
#include <viewer/command/json_output.hpp>

namespace tintfall {

/// `tintfall scale check`: what to know about a scale of one's own before using it.
class ScaleCommand : public Command {
 public:
  std::string_view name() const override { return "scale"; }
  std::string_view summary() const override {
    return "Check a scale of your own: duplicates, close entries, gaps";
  }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;

 private:
  std::vector<std::string> files_;
  double tolerance_de00_ = colorlib::default_tolerance_de00;
  JsonTarget json_;
};

}  // namespace tintfall
