#pragma once
#include <viewer/command/command.hpp>

namespace tintfall {

class ChartCommand : public Command {
 public:
  std::string_view name() const override { return "chart"; }
  std::string_view summary() const override { return "Printable sheets"; }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;
};

}  // namespace tintfall
