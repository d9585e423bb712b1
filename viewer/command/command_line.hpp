#pragma once
/// The whole program as one call: arguments and streams in, exit status out.

#include <string>
#include <vector>
#include <viewer/command/streams.hpp>

namespace tintfall {

/// `arguments` without the program's own name. Never throws.
int run_command_line(const std::vector<std::string>& arguments, Streams& streams);

}  // namespace tintfall
