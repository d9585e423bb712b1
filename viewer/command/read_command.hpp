#pragma once
/// `tintfall read`: photographs in, calibrated and named colours out.

#include <viewer/command/command.hpp>

namespace tintfall {

class ReadCommand : public Command {
 public:
  std::string_view name() const override { return "read"; }
  std::string_view summary() const override { return "Calibrated, named colours from photographs that show a sheet"; }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;
};

}  // namespace tintfall
