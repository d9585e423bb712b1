#include <fmt/format.h>

#include <viewer/command/counted.hpp>

namespace tintfall {

std::string counted(std::size_t count, std::string_view noun) {
  return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

}  // namespace tintfall
