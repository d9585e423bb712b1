#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <iostream>
#include <string>
#include <string_view>
#include <viewer/command/command_line.hpp>
#include <viewer/command/library_messages.hpp>

namespace {

bool colour_terminal() {
  const char* off = std::getenv("NO_COLOR");
  const char* kind = std::getenv("TERM");
  return isatty(STDOUT_FILENO) && (off == nullptr || *off == '\0') && kind != nullptr &&
         std::string_view(kind) != "dumb";
}

}  // namespace

int main(int argc, char** argv) {
  // A file that may not grow is told as a failed write, in words, instead of ending the program.
  std::signal(SIGXFSZ, SIG_IGN);
  std::ios::sync_with_stdio(false);
  tintfall::leave_out_library_noise();
  tintfall::Streams streams{std::cin, std::cout, std::cerr, colour_terminal(), isatty(STDERR_FILENO) != 0};
  return tintfall::run_command_line({argv + (argc > 0 ? 1 : 0), argv + argc}, streams);
}
