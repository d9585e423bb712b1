#include <viewer/command/exit_status.hpp>
#include <viewer/command/read_command.hpp>

namespace tintfall {

void ReadCommand::declare(CLI::App&) {}

int ReadCommand::run(Streams&) { return status_bad_call; }

}  // namespace tintfall
