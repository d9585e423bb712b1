#include <fmt/chrono.h>

#include <ctime>
#include <viewer/command/today.hpp>

namespace tintfall {

std::string today() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  return fmt::format("{:%Y-%m-%d}", local);
}

}  // namespace tintfall
