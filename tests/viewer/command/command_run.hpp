#pragma once
/// The program run in-process, and a folder of its own for what it reads and writes.

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>
#include <viewer/command/command_line.hpp>

namespace tintfall {

struct CommandRun {
  int status = -1;
  std::string out, err;
};

inline CommandRun run_tintfall(const std::vector<std::string>& arguments, const std::string& input = {},
                               bool colour = false) {
  std::istringstream in(input);
  std::ostringstream out, err;
  Streams streams{in, out, err, colour, false};
  CommandRun run;
  run.status = run_command_line(arguments, streams);
  run.out = out.str();
  run.err = err.str();
  return run;
}

/// Removed with everything in it at the end. It also holds the settings, so that tests never see the user's
/// own.
class ScratchFolder {
 public:
  ScratchFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "tintfall-test-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no scratch folder");
    folder_ = pattern;
    setenv("XDG_CONFIG_HOME", (folder_ / "settings").c_str(), 1);
  }
  ~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;

  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  std::string write(const std::string& name, std::string_view bytes) const {
    std::ofstream(folder_ / name, std::ios::binary) << bytes;
    return path(name);
  }
  std::string read(const std::string& name) const {
    std::ifstream stream(folder_ / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
  }
  bool has(const std::string& name) const { return std::filesystem::exists(folder_ / name); }
  /// How many entries lie in it: a failed write may leave nothing behind.
  std::ptrdiff_t entries() const {
    return std::distance(std::filesystem::directory_iterator(folder_), std::filesystem::directory_iterator());
  }

 private:
  std::filesystem::path folder_;
};

}  // namespace tintfall
