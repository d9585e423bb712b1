#pragma once
/// `tintfall chart`: the sheets there are, and how to get one on paper.

#include <string>
#include <viewer/command/command.hpp>
#include <viewer/command/json_output.hpp>

namespace tintfall {

class ChartCommand : public Command {
 public:
  std::string_view name() const override { return "chart"; }
  std::string_view summary() const override { return "List the charts, and draw one as a sheet to print"; }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;

 private:
  int list(Streams& streams) const;
  int print(Streams& streams) const;

  CLI::App* list_ = nullptr;
  JsonTarget json_;
  std::string chart_, out_, label_, date_;
  int dots_per_inch_ = 300;
};

}  // namespace tintfall
