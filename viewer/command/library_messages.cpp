#include <unistd.h>

#include <cstdio>
#include <viewer/command/library_messages.hpp>

namespace tintfall {
namespace {

#ifdef __GLIBC__
/// Calls of one print arrive as one piece: the stream has no buffer.
ssize_t write_unless_noise(void*, const char* text, std::size_t size) {
  if (is_library_noise({text, size})) return static_cast<ssize_t>(size);
  return ::write(STDERR_FILENO, text, size);
}
#endif

}  // namespace

bool is_library_noise(std::string_view line) {
  return line.find("apriltag.c:") != std::string_view::npos && line.ends_with("WRN: Matrix is singular.\n");
}

void leave_out_library_noise() {
#ifdef __GLIBC__
  cookie_io_functions_t functions{};
  functions.write = &write_unless_noise;
  std::FILE* filtered = ::fopencookie(nullptr, "w", functions);
  if (filtered == nullptr) return;
  std::setvbuf(filtered, nullptr, _IONBF, 0);
  stderr = filtered;  // a variable in this library, and meant to be set
#endif
}

}  // namespace tintfall
