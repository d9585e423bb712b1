#include <viewer/command/chart_command.hpp>
#include <viewer/command/exit_status.hpp>

namespace tintfall {

void ChartCommand::declare(CLI::App&) {}

int ChartCommand::run(Streams&) { return status_bad_call; }

}  // namespace tintfall
