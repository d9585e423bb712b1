#include <viewer/command/exit_status.hpp>
#include <viewer/command/sheet_command.hpp>

namespace tintfall {

void SheetCommand::declare(CLI::App&) {}

int SheetCommand::run(Streams&) { return status_bad_call; }

}  // namespace tintfall
