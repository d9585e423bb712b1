#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cctype>
#include <colorlib/image/photo_files.hpp>
#include <filesystem>
#include <map>
#include <set>
#include <viewer/command/output_check.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

/// Everything by which a file is known again, each a key: its path without links and, once it is there, its
/// place on the disk, which hard links share. None for a device or pipe: nothing in it can be lost.
std::vector<std::string> keys_of(const std::string& file) {
  struct stat status {};
  const bool exists = ::stat(file.c_str(), &status) == 0;
  if (exists && !S_ISREG(status.st_mode)) return {};
  std::error_code problem;
  // Made absolute first: a relative path that does not exist yet would stay relative.
  auto path = std::filesystem::absolute(file, problem);
  if (auto whole = std::filesystem::weakly_canonical(path, problem); !problem) path = std::move(whole);
  std::vector<std::string> keys{path.string()};
  if (exists) keys.push_back(fmt::format("{} {}", status.st_dev, status.st_ino));
  return keys;
}

std::string changed(std::string text, int (*change)(int)) {
  for (char& c : text) c = static_cast<char>(change(static_cast<unsigned char>(c)));
  return text;
}

std::string lower_ending(const std::string& file) {
  return changed(std::filesystem::path(file).extension().string(), std::tolower);
}

}  // namespace

Result<std::monostate> check_kept_apart(const CallFiles& files) {
  std::set<std::string> inputs;
  for (const std::string& input : files.inputs)
    if (!input.empty())
      for (std::string& key : keys_of(input)) inputs.insert(std::move(key));
  std::map<std::string, std::string> option_of;  // by key of what it writes
  for (const auto& [option, file, kind] : files.outputs) {
    if (file.empty() || file == "-") continue;
    const auto keys = keys_of(file);
    for (const std::string& key : keys)
      if (inputs.contains(key))
        return fail(ErrorCode::bad_call,
                    fmt::format("{} writes to '{}', which is one of the inputs.", option, file),
                    "Name another file for the output.");
    for (const std::string& key : keys)
      if (const auto other = option_of.find(key); other != option_of.end())
        return fail(ErrorCode::bad_call,
                    other->second == option
                        ? fmt::format("{} would write two different things to '{}'.", option, file)
                        : fmt::format("{} and {} write to the same file, '{}'.", other->second, option, file),
                    "Name a file of its own for each output.");
    for (const std::string& key : keys) option_of.emplace(key, option);
  }
  return std::monostate{};
}

Result<std::monostate> check_names(const std::vector<Output>& outputs) {
  for (const auto& [option, file, kind] : outputs) {
    if (file == "-" && kind != OutputKind::text)
      return fail(
          ErrorCode::bad_call,
          fmt::format("{} names '-', and what it writes goes to a file, not to standard output.", option),
          fmt::format("Put a file's name right after {}.", option));
    const bool picture = kind == OutputKind::picture && lower_ending(file) == ".png";
    if (has_photo_ending(file) && !picture)
      return fail(
          ErrorCode::bad_call, fmt::format("{} names '{}', which looks like a photo.", option, file),
          fmt::format("Name the file to write right after {}, with an ending that no photo has.", option));
  }
  return std::monostate{};
}

Result<std::monostate> check_files(const CallFiles& files) {
  if (const auto apart = check_kept_apart(files); !apart) return apart;
  if (const auto sound = check_names(files.outputs); !sound) return sound;
  for (const auto& [option, file, kind] : files.outputs)
    if (const auto sound = check_can_write(option, file); !sound) return sound;
  return std::monostate{};
}

Result<std::monostate> check_ending(std::string_view option, const std::string& output,
                                    const std::string& ending) {
  if (output.empty() || output == "-" || lower_ending(output) == ending) return std::monostate{};
  std::error_code problem;
  if (std::filesystem::is_directory(output, problem)) return std::monostate{};  // that is said of it instead
  return fail(ErrorCode::bad_call,
              fmt::format("{} names '{}'; it is written as {} only.", option, output,
                          changed(ending.substr(1), std::toupper)),
              fmt::format("End it in {}.", ending));
}

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
