#include <fmt/format.h>
#include <unistd.h>

#include <filesystem>
#include <viewer/command/output_check.hpp>

namespace tintfall {

using namespace colorlib;

Result<std::monostate> check_can_write(std::string_view option, const std::string& output) {
  if (output.empty() || output == "-") return std::monostate{};
  const auto wrong = [&](const std::string& what) {
    return fail(ErrorCode::cannot_write, fmt::format("{} names '{}', and {}.", option, output, what),
                "Name a file in a folder that exists and may be written to; nothing was read yet.");
  };
  std::error_code problem;
  if (std::filesystem::is_directory(output, problem)) return wrong("that is a folder");
  // A device or pipe is written straight through, whatever its folder.
  if (std::filesystem::exists(output, problem) && !std::filesystem::is_regular_file(output, problem)) {
    if (::access(output.c_str(), W_OK) != 0) return wrong("it may not be written to");
    return std::monostate{};
  }
  // A link stays where it is: what it points to is written.
  auto target = std::filesystem::weakly_canonical(std::filesystem::absolute(output), problem);
  if (problem) target = std::filesystem::absolute(output);
  const std::string folder = target.parent_path().string();
  if (!std::filesystem::exists(folder, problem))
    return wrong(fmt::format("the folder '{}' does not exist", folder));
  if (!std::filesystem::is_directory(folder, problem)) return wrong(fmt::format("'{}' is no folder", folder));
  if (::access(folder.c_str(), W_OK | X_OK) != 0)
    return wrong(fmt::format("the folder '{}' may not be written to", folder));
  return std::monostate{};
}

}  // namespace tintfall
