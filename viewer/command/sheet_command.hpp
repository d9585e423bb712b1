#pragma once
/// `tintfall sheet`: the list of printed sheets that `read --sheet` recalls.

#include <viewer/command/command.hpp>

namespace tintfall {

class SheetCommand : public Command {
 public:
  std::string_view name() const override { return "sheet"; }
  std::string_view summary() const override { return "The printed sheets you own: chart, reference file, date"; }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;
};

}  // namespace tintfall
