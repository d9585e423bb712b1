#include <viewer/command/catalogue_command.hpp>
#include <viewer/command/chart_command.hpp>
#include <viewer/command/commands.hpp>
#include <viewer/command/compare_command.hpp>
#include <viewer/command/name_command.hpp>
#include <viewer/command/read_command.hpp>
#include <viewer/command/round_command.hpp>
#include <viewer/command/scale_command.hpp>
#include <viewer/command/series_command.hpp>
#include <viewer/command/sheet_command.hpp>
#include <viewer/command/watch_command.hpp>

namespace tintfall {

std::vector<std::unique_ptr<Command>> all_commands() {
  std::vector<std::unique_ptr<Command>> commands;
  commands.push_back(std::make_unique<ReadCommand>());
  commands.push_back(std::make_unique<SeriesCommand>());
  commands.push_back(std::make_unique<WatchCommand>());
  commands.push_back(std::make_unique<CompareCommand>());
  commands.push_back(std::make_unique<RoundCommand>());
  commands.push_back(std::make_unique<NameCommand>());
  commands.push_back(std::make_unique<ScaleCommand>());
  commands.push_back(std::make_unique<ChartCommand>());
  commands.push_back(std::make_unique<SheetCommand>());
  commands.push_back(std::make_unique<CatalogueCommand>());
  return commands;
}

}  // namespace tintfall
