#include <fmt/format.h>

#include <viewer/command/plain_stream.hpp>
#include <viewer/command/progress_line.hpp>

namespace tintfall {
namespace {

constexpr std::string_view start_of_line_cleared = "\r\x1b[K";

}  // namespace

void ProgressLine::report(double /*fraction*/, std::string_view stage) {
  if (!streams_.interactive) return;
  write_control(streams_.err, start_of_line_cleared);
  streams_.err << fmt::format("{}: {} ...", subject_, stage) << std::flush;
  shown_ = true;
}

void ProgressLine::clear() {
  if (shown_) {
    write_control(streams_.err, start_of_line_cleared);
    streams_.err << std::flush;
  }
  shown_ = false;
}

}  // namespace tintfall
