#pragma once
/// `tintfall chart`: the sheets there are, how to get one on paper, and what its colours are.

#include <string>
#include <viewer/command/chart_transfer.hpp>
#include <viewer/command/command.hpp>
#include <viewer/command/json_output.hpp>

namespace tintfall {

class ChartCommand : public Command {
 public:
  std::string_view name() const override { return "chart"; }
  std::string_view summary() const override {
    return "The charts: list, print, measure a print, see whether it fades";
  }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;

 private:
  int list(Streams& streams) const;
  int print(Streams& streams) const;

  CLI::App *list_ = nullptr, *transfer_ = nullptr, *fading_ = nullptr;
  TransferChoices transfer_choices_;
  FadingChoices fading_choices_;
  JsonTarget json_;
  std::string chart_, out_, label_, date_;
  int dots_per_inch_ = 300;
};

}  // namespace tintfall
