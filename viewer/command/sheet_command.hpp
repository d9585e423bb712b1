#pragma once
/// `tintfall sheet`: the list of printed sheets that `read --sheet` recalls.

#include <string>
#include <viewer/command/command.hpp>
#include <viewer/command/json_output.hpp>
#include <viewer/command/sheet_settings.hpp>

namespace tintfall {

class SheetCommand : public Command {
 public:
  std::string_view name() const override { return "sheet"; }
  std::string_view summary() const override {
    return "The printed sheets you own: chart, reference file, print date";
  }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;

 private:
  int add(const std::filesystem::path& file, Streams& streams);
  int list(const std::filesystem::path& file, Streams& streams) const;
  int remove(const std::filesystem::path& file, Streams& streams) const;

  CLI::App* add_ = nullptr;
  CLI::App* list_ = nullptr;
  CLI::App* remove_ = nullptr;
  PrintedSheet sheet_;
  bool replace_ = false;
  JsonTarget json_;
};

}  // namespace tintfall
