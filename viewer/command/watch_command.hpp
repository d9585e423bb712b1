#pragma once
/// `tintfall watch`: reads a series while it is being photographed.

#include <viewer/command/command.hpp>
#include <viewer/command/series_options.hpp>

namespace tintfall {

class WatchCommand : public Command {
 public:
  std::string_view name() const override { return "watch"; }
  std::string_view summary() const override {
    return "Reads the photos of a reaction as they arrive in a folder";
  }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;

 private:
  SeriesChoices choices_;
  std::optional<double> idle_s_;
};

}  // namespace tintfall
