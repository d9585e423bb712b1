#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/json_nesting.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/chart_file_name.hpp>
#include <nlohmann/json.hpp>
#include <set>

namespace colorlib {
namespace {

using nlohmann::json;

/// Sides may touch; rounding of decimals must not count as an overlap.
constexpr double overlap_tolerance_mm = 1e-3;
/// tag36h11 holds the ids 0 to 586.
constexpr int largest_marker_id = 586;

/// Thrown inside this file only, so that the first fault ends the reading from any depth; `parse_chart` turns
/// it into an Error.
struct Fault {
  std::string found;
};

[[noreturn]] void fault(std::string found) { throw Fault{std::move(found)}; }

std::string shown(const json& value) {
  return quotable(value.dump(-1, ' ', false, json::error_handler_t::replace));
}

/// An object of the definition and what to call it in messages: `patches[12] "C07"`.
struct Entry {
  const json& object;
  std::string where;

  [[noreturn]] void refuse(std::string_view key, const std::string& found, std::string_view needed) const {
    fault(fmt::format("{}, key \"{}\": found {} where {} is needed", where, key, found, needed));
  }
  const json* find(std::string_view key) const {
    const auto it = object.find(key);
    return it == object.end() ? nullptr : &*it;
  }
  const json& need(std::string_view key, std::string_view needed) const {
    const json* value = find(key);
    if (!value) refuse(key, "nothing", needed);
    return *value;
  }
  std::string text(std::string_view key) const {
    const auto needed =
        fmt::format("a text of 1 to {} bytes without control characters", ChartLimits::text_bytes);
    const json& value = need(key, needed);
    if (!value.is_string()) refuse(key, shown(value), needed);
    const auto& string = value.get_ref<const std::string&>();
    const bool controls =
        std::any_of(string.begin(), string.end(), [](unsigned char c) { return c < 32 || c == 127; });
    if (trimmed(string).empty() || string.size() > ChartLimits::text_bytes || controls)
      refuse(key, shown(value), needed);
    return string;
  }
  double number(std::string_view key, double least, double most) const {
    const auto needed = fmt::format("a number from {} to {}", least, most);
    const json& value = need(key, needed);
    if (!value.is_number()) refuse(key, shown(value), needed);
    const double number = value.get<double>();
    if (!(number >= least && number <= most)) refuse(key, shown(value), needed);
    return number;
  }
  double length_mm(std::string_view key, double most) const {
    const auto needed = fmt::format("a number above 0 and at most {}", most);
    const json& value = need(key, needed);
    if (!value.is_number()) refuse(key, shown(value), needed);
    const double number = value.get<double>();
    if (!(number > 0 && number <= most)) refuse(key, shown(value), needed);
    return number;
  }
  int whole_number(std::string_view key, int least, int most) const {
    const auto needed = fmt::format("a whole number from {} to {}", least, most);
    const json& value = need(key, needed);
    if (!value.is_number_integer()) refuse(key, shown(value), needed);
    const double number = value.get<double>();
    if (!(number >= least && number <= most)) refuse(key, shown(value), needed);
    return static_cast<int>(number);
  }
  Lab lab(std::string_view key) const {
    constexpr std::string_view needed = "[L*, a*, b*] with L* from 0 to 110 and a*, b* from -150 to 150";
    const json& value = need(key, needed);
    if (!value.is_array() || value.size() != 3) refuse(key, shown(value), needed);
    Vector3 v{};
    for (std::size_t i = 0; i < 3; ++i) {
      if (!value[i].is_number()) refuse(key, shown(value), needed);
      v[i] = value[i].get<double>();
      if (!(i == 0 ? v[i] >= 0 && v[i] <= 110 : std::abs(v[i]) <= 150)) refuse(key, shown(value), needed);
    }
    return lab_from(v);
  }
  /// A rectangle that lies on the sheet.
  RectangleMm place(double sheet_width_mm, double sheet_height_mm) const {
    const RectangleMm r{number("x_mm", 0, sheet_width_mm), number("y_mm", 0, sheet_height_mm),
                        length_mm("width_mm", sheet_width_mm), length_mm("height_mm", sheet_height_mm)};
    on_sheet(r, sheet_width_mm, sheet_height_mm);
    return r;
  }
  void on_sheet(const RectangleMm& r, double sheet_width_mm, double sheet_height_mm) const {
    if (r.x + r.width > sheet_width_mm + overlap_tolerance_mm ||
        r.y + r.height > sheet_height_mm + overlap_tolerance_mm)
      fault(fmt::format("{}: it reaches to ({:.6g}, {:.6g}) mm, off the sheet of {:.6g} x {:.6g} mm", where,
                        r.x + r.width, r.y + r.height, sheet_width_mm, sheet_height_mm));
  }
};

/// The objects of an array, each with its name for messages; absent counts as empty unless `required`.
std::vector<Entry> entries(const Entry& parent, std::string_view key, std::size_t most, bool required) {
  const auto needed = fmt::format("a list of {} to {} objects", required ? 1 : 0, most);
  std::vector<Entry> list;
  const json* value = parent.find(key);
  if (!value && !required) return list;
  if (!value) parent.refuse(key, "nothing", needed);
  if (!value->is_array()) parent.refuse(key, shown(*value), needed);
  if (value->size() > most || (required && value->empty()))
    parent.refuse(key, fmt::format("{} entries", value->size()), needed);
  const std::string prefix = parent.where == "the top level" ? "" : parent.where + ".";
  for (std::size_t i = 0; i < value->size(); ++i) {
    const json& item = (*value)[i];
    std::string where = fmt::format("{}{}[{}]", prefix, key, i);
    if (!item.is_object()) fault(fmt::format("{}: found {}, an object is needed", where, shown(item)));
    if (const auto id = item.find("id"); id != item.end() && !id->is_structured())
      where += fmt::format(" {}", shown(*id));
    list.push_back({item, std::move(where)});
  }
  return list;
}

void read_markers(const Entry& top, ChartDefinition& chart) {
  const json* value = top.find("markers");
  if (!value) return;
  if (!value->is_object()) top.refuse("markers", shown(*value), "an object with \"family\" and \"items\"");
  const Entry markers{*value, "markers"};
  if (const std::string family = markers.text("family"); family != "tag36h11")
    markers.refuse("family", shown(*markers.find("family")),
                   "\"tag36h11\" (the family that this program finds)");
  std::set<int> ids;
  for (const Entry& entry : entries(markers, "items", ChartLimits::markers, false)) {
    Marker marker;
    marker.id = entry.whole_number("id", 0, largest_marker_id);
    marker.x_mm = entry.number("x_mm", 0, chart.width_mm);
    marker.y_mm = entry.number("y_mm", 0, chart.height_mm);
    marker.side_mm = entry.length_mm("side_mm", std::min(chart.width_mm, chart.height_mm));
    entry.on_sheet({marker.x_mm, marker.y_mm, marker.side_mm, marker.side_mm}, chart.width_mm,
                   chart.height_mm);
    if (!ids.insert(marker.id).second)
      fault(fmt::format("{}: the marker id {} is there twice", entry.where, marker.id));
    chart.markers.push_back(marker);
  }
}

void read_patches(const Entry& top, ChartDefinition& chart) {
  std::set<std::string> ids;
  for (const Entry& entry : entries(top, "patches", ChartLimits::patches, true)) {
    Patch patch;
    patch.id = entry.text("id");
    const std::string role = entry.text("role");
    if (role != "neutral" && role != "colour")
      entry.refuse("role", shown(*entry.find("role")), "\"neutral\" or \"colour\"");
    patch.role = role == "neutral" ? PatchRole::neutral : PatchRole::colour;
    patch.place = entry.place(chart.width_mm, chart.height_mm);
    patch.nominal_lab = entry.lab("nominal_lab");
    if (!ids.insert(patch.id).second)
      fault(fmt::format("{}: the patch id \"{}\" is there twice", entry.where, patch.id));
    chart.patches.push_back(std::move(patch));
  }
}

void read_places(const Entry& top, ChartDefinition& chart) {
  std::set<std::string> ids;
  for (const Entry& entry : entries(top, "windows", ChartLimits::windows, false)) {
    ChartWindow window{entry.text("id"), entry.place(chart.width_mm, chart.height_mm)};
    if (!ids.insert(window.id).second)
      fault(fmt::format("{}: the window id \"{}\" is there twice", entry.where, window.id));
    chart.windows.push_back(std::move(window));
  }
  ids.clear();
  for (const Entry& entry : entries(top, "backings", ChartLimits::windows, false)) {
    Backing backing{entry.text("id"), entry.place(chart.width_mm, chart.height_mm), entry.lab("nominal_lab")};
    if (!ids.insert(backing.id).second)
      fault(fmt::format("{}: the backing id \"{}\" is there twice", entry.where, backing.id));
    chart.backings.push_back(std::move(backing));
  }
  for (const Entry& entry : entries(top, "texts", ChartLimits::windows, false)) {
    static constexpr std::pair<std::string_view, PrintedTextKind> kinds[] = {
        {"ruler", PrintedTextKind::ruler},
        {"fields", PrintedTextKind::fields},
        {"instructions", PrintedTextKind::instructions},
        {"cautions", PrintedTextKind::cautions}};
    const std::string kind = entry.text("kind");
    const auto* known =
        std::find_if(std::begin(kinds), std::end(kinds), [&](const auto& k) { return k.first == kind; });
    if (known == std::end(kinds))
      entry.refuse("kind", shown(*entry.find("kind")),
                   "\"ruler\", \"fields\", \"instructions\" or \"cautions\"");
    chart.texts.push_back({known->second, entry.place(chart.width_mm, chart.height_mm)});
  }
}

bool overlap(const RectangleMm& a, const RectangleMm& b) {
  const double dx = std::min(a.x + a.width, b.x + b.width) - std::max(a.x, b.x);
  const double dy = std::min(a.y + a.height, b.y + b.height) - std::max(a.y, b.y);
  return dx > overlap_tolerance_mm && dy > overlap_tolerance_mm;
}

/// Patches and markers may not cover one another.
void check_overlaps(const ChartDefinition& chart) {
  std::vector<std::pair<std::string, RectangleMm>> items;
  for (const Patch& p : chart.patches) items.emplace_back(fmt::format("patch \"{}\"", p.id), p.place);
  for (const Marker& m : chart.markers)
    items.emplace_back(fmt::format("marker {}", m.id), RectangleMm{m.x_mm, m.y_mm, m.side_mm, m.side_mm});
  for (std::size_t i = 0; i < items.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (overlap(items[i].second, items[j].second))
        fault(
            fmt::format("{} and {} overlap, each needs a place of its own", items[j].first, items[i].first));
}

/// Passes over JSON text and remembers the first key that is there twice in one object. The parser's callback
/// could do the same, but it walks all brothers of an object at its end: a million patches would take hours.
class KeyWatch : public nlohmann::json_sax<json> {
 public:
  std::string twice;

  bool start_object(std::size_t) override { return keys_.emplace_back(), true; }
  bool end_object() override { return keys_.pop_back(), true; }
  bool key(string_t& name) override {
    if (!keys_.back().insert(name).second && twice.empty()) twice = name;
    return true;
  }
  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t, const string_t&) override { return true; }
  bool string(string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool start_array(std::size_t) override { return true; }
  bool end_array() override { return true; }
  bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override {
    return false;
  }

 private:
  std::vector<std::set<std::string>> keys_;
};

/// JSON text to a tree, with bounded nesting and no key twice in one object.
json tree_of(std::string_view text) {
  if (json_nesting(text) > ChartLimits::nesting)
    fault(fmt::format("found lists or objects nested deeper than {}", ChartLimits::nesting));
  json tree;
  try {
    tree = json::parse(text);
  } catch (const json::parse_error& e) {
    const std::size_t at = std::min<std::size_t>(e.byte, text.size());
    const auto before = text.substr(0, at);
    const auto line = 1 + std::count(before.begin(), before.end(), '\n');
    const auto column = at - (before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1);
    fault(fmt::format("line {}, column {}: what stands there is not valid JSON", line, column));
  } catch (const json::exception&) {
    fault("found a number beyond the range of double precision, every number must be finite");
  }
  KeyWatch watch;
  json::sax_parse(text, &watch);
  if (!watch.twice.empty())
    fault(
        fmt::format("found the key \"{}\" twice in one object, it may be there once", quotable(watch.twice)));
  return tree;
}

ChartDefinition chart_from(std::string_view text) {
  const json tree = tree_of(without_byte_order_mark(text));
  if (!tree.is_object()) fault(fmt::format("found {}, an object is needed", shown(tree)));
  const Entry top{tree, "the top level"};
  if (const std::string format = top.text("format"); format != "tintfall-chart")
    top.refuse("format", shown(*top.find("format")), "\"tintfall-chart\"");
  if (const json& version = top.need("version", "1"); !version.is_number_integer() || version != 1)
    top.refuse("version", shown(version), "1 (the version that this program reads)");
  ChartDefinition chart;
  chart.name = top.text("name");
  chart.title = top.find("title") ? top.text("title") : chart.name;
  const json& sheet = top.need("sheet_mm", "an object with \"width\" and \"height\"");
  if (!sheet.is_object()) top.refuse("sheet_mm", shown(sheet), "an object with \"width\" and \"height\"");
  const Entry size{sheet, "sheet_mm"};
  chart.width_mm = size.length_mm("width", ChartLimits::sheet_mm);
  chart.height_mm = size.length_mm("height", ChartLimits::sheet_mm);
  read_markers(top, chart);
  read_patches(top, chart);
  read_places(top, chart);
  if (top.find("paper_lab")) chart.paper_lab = top.lab("paper_lab");
  check_overlaps(chart);
  return chart;
}

std::filesystem::path charts_folder() { return data_folder() / "charts"; }

/// Names of the files that may be shipped charts, sorted; without their ending.
Result<std::vector<std::string>> shipped_names() {
  std::vector<std::string> names;
  std::error_code problem;
  std::filesystem::directory_iterator files(charts_folder(), problem);
  for (; !problem && files != std::filesystem::directory_iterator(); files.increment(problem))
    if (files->path().extension() == ".json") names.push_back(files->path().stem().string());
  if (problem)
    return fail(
        ErrorCode::unreadable_chart,
        fmt::format("Listing the shipped charts in '{}': {}.", charts_folder().string(), problem.message()),
        "Install the program again, or set TINTFALL_DATA to the folder that holds charts and reference.");
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

Result<ChartDefinition> parse_chart(std::string_view text, std::string_view name) {
  constexpr std::string_view advice = "Correct the definition there; charts/README.md explains every key.";
  if (text.size() > ChartLimits::bytes)
    return fail(ErrorCode::unreadable_chart,
                fmt::format("Reading the chart definition '{}': it has {} bytes, at most {} are taken.", name,
                            text.size(), ChartLimits::bytes),
                "Make sure that it is the right file.");
  try {
    return chart_from(text);
  } catch (const Fault& f) {
    return fail(ErrorCode::unreadable_chart,
                fmt::format("Reading the chart definition '{}': {}.", name, f.found), std::string(advice));
  } catch (const json::exception& e) {
    return fail(ErrorCode::unreadable_chart,
                fmt::format("Reading the chart definition '{}': {}.", name, e.what()), std::string(advice));
  }
}

Result<ChartDefinition> read_chart(const std::filesystem::path& path) {
  const auto bytes = read_file(path, "the chart definition", ErrorCode::unreadable_chart, ChartLimits::bytes);
  if (!bytes) return fail(bytes.error());
  return parse_chart(*bytes, path.string());
}

Result<std::vector<ChartDefinition>> shipped_charts() {
  const auto names = shipped_names();
  if (!names) return fail(names.error());
  std::vector<ChartDefinition> charts;
  for (const std::string& name : *names) {
    auto chart = read_chart(charts_folder() / (name + ".json"));
    if (!chart) return fail(chart.error());
    charts.push_back(std::move(*chart));
  }
  return charts;
}

Result<ChartDefinition> find_chart(std::string_view name_or_path) {
  if (names_chart_file(name_or_path)) return read_chart(std::filesystem::path(name_or_path));
  const auto names = shipped_names();
  if (!names) return fail(names.error());
  if (std::find(names->begin(), names->end(), name_or_path) == names->end())
    return fail(
        ErrorCode::unreadable_chart,
        fmt::format("Looking for the chart '{}': there is no shipped chart of this name; there are {}.",
                    name_or_path, fmt::join(*names, ", ")),
        "Take one of these names, or give the path of a definition file that ends in .json.");
  return read_chart(charts_folder() / (std::string(name_or_path) + ".json"));
}

}  // namespace colorlib
