#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <tests/layering/include_rules.hpp>

namespace layering {
namespace {

namespace fs = std::filesystem;

constexpr int most_lines = 800;

/// Slow to compile or toolkit-bound: they stay behind the .cpp files.
struct PrivateLibrary {
  std::string_view prefix, what;
};
constexpr std::array private_libraries{
    PrivateLibrary{"boost/", "Boost"},
    PrivateLibrary{"Eigen/", "Eigen"},
    PrivateLibrary{"unsupported/Eigen/", "Eigen"},
    PrivateLibrary{"nlohmann/", "nlohmann-json (json_fwd.hpp is fine)"},
    PrivateLibrary{"CLI/", "CLI11"},
    PrivateLibrary{"lcms2", "LittleCMS"},
    PrivateLibrary{"soci/", "SOCI"},
    PrivateLibrary{"libav", "FFmpeg"},
    PrivateLibrary{"libsw", "FFmpeg"},
};

/// Words that say nothing about what belongs in a file.
constexpr std::array empty_words{"utils", "util", "common", "helpers", "helper", "manager", "misc"};

std::vector<std::string> parts_of(std::string_view path) {
  std::vector<std::string> parts;
  std::istringstream stream{std::string(path)};
  for (std::string part; std::getline(stream, part, '/');) parts.push_back(part);
  return parts;
}

/// "colorlib/chart" of "colorlib/chart/placement.hpp"; nothing for what lies in no room.
std::optional<std::string> room_path(std::string_view path) {
  const auto parts = parts_of(path);
  if (parts.size() < 3 || (parts[0] != "colorlib" && parts[0] != "viewer")) return std::nullopt;
  return parts[0] + "/" + parts[1];
}

std::optional<std::size_t> place_in_order(std::string_view room) {
  const auto& rooms = rooms_in_order();
  const auto place = std::find(rooms.begin(), rooms.end(), room);
  if (place == rooms.end()) return std::nullopt;
  return static_cast<std::size_t>(place - rooms.begin());
}

bool is_header(std::string_view path) { return path.ends_with(".hpp"); }
bool is_internal(std::string_view path) { return path.ends_with("_internal.hpp"); }
bool is_qt(std::string_view target) {
  return target.starts_with("Qt") ||
         (target.size() > 1 && target[0] == 'Q' && target[1] >= 'A' && target[1] <= 'Z');
}

/// Collects what one file breaks.
class FileCheck {
 public:
  FileCheck(const SourceFile& file, std::vector<Violation>& found)
      : file_(file),
        in_core_(file.path.starts_with("colorlib/")),
        in_tests_(file.path.starts_with("tests/")),
        room_(room_path(file.path)),
        found_(found) {}

  void run() {
    check_length();
    check_name();
    check_room_is_known();
    for (const auto& include : includes_of(file_.text)) check(include);
  }

 private:
  void add(int line, std::string sentence) { found_.push_back({file_.path, line, std::move(sentence)}); }

  void check_length() {
    const auto lines = std::count(file_.text.begin(), file_.text.end(), '\n');
    if (lines > most_lines)
      add(0, fmt::format("{} lines, {} are the most: split it along its ideas", lines, most_lines));
  }

  void check_name() {
    for (const auto& part : parts_of(file_.path))
      for (const auto word : empty_words)
        if (fs::path(part).stem() == word)
          add(0, fmt::format("'{}' says nothing about what belongs there: name the idea", part));
  }

  void check_room_is_known() {
    if (!in_core_ || !room_) return;
    const auto name = room_->substr(room_->find('/') + 1);
    if (!place_in_order(name))
      add(0, fmt::format("room '{}' has no place in the order of rooms: give it one", name));
  }

  void check(const Include& include) {
    if (in_core_ && is_qt(include.target)) add(include.line, "colorlib includes Qt: keep windows in viewer/");
    if (include.quoted && !in_tests_)
      add(include.line,
          fmt::format("\"{}\" does not say its room: write <colorlib/ROOM/NAME.hpp>", include.target));
    if (is_header(file_.path) && !is_internal(file_.path) && !in_tests_) check_header_stays_light(include);
    check_direction(include);
  }

  void check_header_stays_light(const Include& include) {
    if (include.target == "nlohmann/json_fwd.hpp") return;
    for (const auto& library : private_libraries)
      if (include.target.starts_with(library.prefix))
        add(include.line, fmt::format("a header includes {}: keep it in the .cpp file", library.what));
  }

  void check_direction(const Include& include) {
    if (in_core_ && (include.target.starts_with("viewer/") || include.target.starts_with("tests/"))) {
      add(include.line, fmt::format("colorlib includes <{}>: the library knows neither programs nor tests",
                                    include.target));
      return;
    }
    const auto target_room = room_path(include.target);
    if (!target_room || !room_) return;
    if (is_internal(include.target) && *target_room != *room_)
      add(include.line, fmt::format("<{}> is private to {}", include.target, *target_room));
    if (!in_core_ || *target_room == *room_) return;
    const auto from = room_->substr(room_->find('/') + 1);
    const auto to = target_room->substr(target_room->find('/') + 1);
    const auto from_place = place_in_order(from), to_place = place_in_order(to);
    if (from_place && to_place && (*to_place > *from_place || side_by_side(from, to)))
      add(include.line, fmt::format("{} may not include {}: data flow the other way", from, to));
  }

  const SourceFile& file_;
  bool in_core_, in_tests_;
  std::optional<std::string> room_;
  std::vector<Violation>& found_;
};

using RoomGraph = std::map<std::string, std::map<std::string, std::pair<std::string, int>>>;

/// Who includes whom, with one place that shows it.
RoomGraph room_graph(const std::vector<SourceFile>& files) {
  RoomGraph graph;
  for (const auto& file : files) {
    const auto from = room_path(file.path);
    if (!from) continue;
    for (const auto& include : includes_of(file.text)) {
      const auto to = room_path(include.target);
      if (to && *to != *from) graph[*from].try_emplace(*to, file.path, include.line);
    }
  }
  return graph;
}

/// The rooms of one circle through `room`, or nothing.
bool find_circle(const RoomGraph& graph, const std::string& room, std::vector<std::string>& way,
                 std::set<std::string>& done) {
  if (const auto seen = std::find(way.begin(), way.end(), room); seen != way.end()) {
    way.erase(way.begin(), seen);
    way.push_back(room);
    return true;
  }
  if (done.contains(room)) return false;
  way.push_back(room);
  if (const auto node = graph.find(room); node != graph.end())
    for (const auto& [next, place] : node->second)
      if (find_circle(graph, next, way, done)) return true;
  way.pop_back();
  done.insert(room);
  return false;
}

void check_circles(const std::vector<SourceFile>& files, std::vector<Violation>& found) {
  const auto graph = room_graph(files);
  std::set<std::string> done;
  for (const auto& [room, next] : graph) {
    std::vector<std::string> way;
    if (!find_circle(graph, room, way, done)) continue;
    const auto& [path, line] = graph.at(way[0]).at(way[1]);
    found.push_back(
        {path, line, fmt::format("rooms include one another in a circle: {}", fmt::join(way, " -> "))});
    return;
  }
}

}  // namespace

const std::vector<std::string>& rooms_in_order() {
  static const std::vector<std::string> rooms{"base",    "colorimetry", "image",    "naming",
                                              "chart",   "calibration", "specimen", "reaction",
                                              "records", "comparison",  "exports",  "video"};
  return rooms;
}

bool side_by_side(std::string_view a, std::string_view b) {
  return (a == "comparison" && b == "exports") || (a == "exports" && b == "comparison");
}

std::vector<SourceFile> read_tree(const fs::path& root) {
  std::vector<SourceFile> files;
  for (const auto* top : {"colorlib", "viewer", "tests", "cmake"}) {
    if (!fs::exists(root / top)) continue;
    for (const auto& entry : fs::recursive_directory_iterator(root / top)) {
      const auto extension = entry.path().extension();
      const bool taken = extension == ".hpp" || extension == ".cpp" || extension == ".cmake" ||
                         entry.path().filename() == "CMakeLists.txt";
      if (!entry.is_regular_file() || !taken) continue;
      std::ifstream stream(entry.path(), std::ios::binary);
      files.push_back({entry.path().lexically_relative(root).generic_string(),
                       {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()}});
    }
  }
  std::sort(files.begin(), files.end(), [](const auto& a, const auto& b) { return a.path < b.path; });
  return files;
}

std::vector<Include> includes_of(std::string_view text) {
  std::vector<Include> includes;
  int number = 0;
  while (!text.empty()) {
    ++number;
    const auto end = text.find('\n');
    auto line = text.substr(0, end);
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
    const auto skip_spaces = [&line] {
      line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
    };
    skip_spaces();
    if (!line.starts_with('#')) continue;
    line.remove_prefix(1);
    skip_spaces();
    if (!line.starts_with("include")) continue;
    line.remove_prefix(7);
    skip_spaces();
    if (line.empty() || (line[0] != '<' && line[0] != '"')) continue;
    const bool quoted = line[0] == '"';
    const auto close = line.find(quoted ? '"' : '>', 1);
    if (close != std::string_view::npos)
      includes.push_back({number, std::string(line.substr(1, close - 1)), quoted});
  }
  return includes;
}

std::vector<Violation> violations_in(const std::vector<SourceFile>& files) {
  std::vector<Violation> found;
  for (const auto& file : files) FileCheck(file, found).run();
  check_circles(files, found);
  return found;
}

std::string listed(const std::vector<Violation>& violations) {
  std::string text;
  for (const auto& v : violations)
    text += v.line ? fmt::format("{}:{}: {}\n", v.path, v.line, v.sentence)
                   : fmt::format("{}: {}\n", v.path, v.sentence);
  return text;
}

}  // namespace layering
