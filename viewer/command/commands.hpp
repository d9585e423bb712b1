#pragma once
/// Every command of the program, in the order of the help.

#include <memory>
#include <vector>
#include <viewer/command/command.hpp>

namespace tintfall {

std::vector<std::unique_ptr<Command>> all_commands();

}  // namespace tintfall
