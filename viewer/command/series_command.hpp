#pragma once
/// `tintfall series`: photographs of one reaction in, its course and its record out.

#include <viewer/command/command.hpp>
#include <viewer/command/series_options.hpp>

namespace tintfall {

class SeriesCommand : public Command {
 public:
  std::string_view name() const override { return "series"; }
  std::string_view summary() const override {
    return "A reaction or a bruise over time, from photographs of one series";
  }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;

 private:
  SeriesChoices choices_;
};

}  // namespace tintfall
