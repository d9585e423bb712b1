#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/json_nesting.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/chart/chart_file_name.hpp>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <viewer/command/sheet_settings.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using nlohmann::json;
using nlohmann::ordered_json;

constexpr std::size_t limit_bytes = 1u << 20, longest_label = 64;

struct Member {
  const char* key;
  std::string PrintedSheet::*place;
  bool needed;
};
constexpr std::array members{
    Member{"label", &PrintedSheet::label, true}, Member{"chart", &PrintedSheet::chart, true},
    Member{"reference", &PrintedSheet::reference, false}, Member{"printed", &PrintedSheet::printed, false}};

bool by_label(const PrintedSheet& a, const PrintedSheet& b) { return a.label < b.label; }

}  // namespace

bool is_label(std::string_view text) {
  return !text.empty() && text.size() <= longest_label && trimmed(text).size() == text.size() &&
         std::none_of(text.begin(), text.end(), [](unsigned char c) { return c < 32 || c == 127; });
}

bool is_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  const auto digits = [&](std::size_t from, std::size_t count) {
    int value = 0;
    for (const char c : text.substr(from, count)) {
      if (c < '0' || c > '9') return -1;
      value = 10 * value + (c - '0');
    }
    return value;
  };
  const int year = digits(0, 4), month = digits(5, 2), day = digits(8, 2);
  if (year < 1 || month < 1 || month > 12 || day < 1) return false;
  constexpr std::array days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return day <= days[static_cast<std::size_t>(month - 1)] + (month == 2 && leap ? 1 : 0);
}

Result<std::filesystem::path> sheet_settings_file() {
  const auto stated = [](const char* name) {
    const char* value = std::getenv(name);
    return std::filesystem::path(value != nullptr ? value : "");
  };
  if (const auto folder = stated("XDG_CONFIG_HOME"); folder.is_absolute())
    return folder / "tintfall" / "sheets.json";
  if (const auto home = stated("HOME"); home.is_absolute())
    return home / ".config" / "tintfall" / "sheets.json";
  return fail(ErrorCode::cannot_write,
              "Looking for the list of sheets: neither XDG_CONFIG_HOME nor HOME names a folder.",
              "Set HOME, or name --chart and --reference instead of --sheet.");
}

Result<std::vector<PrintedSheet>> read_sheets(const std::filesystem::path& file) {
  std::error_code ignored;
  if (!std::filesystem::exists(file, ignored)) return std::vector<PrintedSheet>{};
  const auto bytes = read_file(file, "the list of sheets", ErrorCode::unreadable_table, limit_bytes);
  if (!bytes) return fail(bytes.error());
  const auto wrong = [&](std::string_view what) {
    return fail(
        ErrorCode::unreadable_table, fmt::format("Reading the list of sheets '{}': {}.", file.string(), what),
        "Correct that place, or move the file away and add the sheets again with 'tintfall sheet add'.");
  };
  constexpr int deepest = 4;
  const json tree = json_nesting(*bytes) > deepest
                        ? json(json::value_t::discarded)
                        : json::parse(without_byte_order_mark(*bytes), nullptr, false);
  if (!tree.is_object()) return wrong("the text is no sound JSON of the expected form");
  if (tree.value("format", json()) != "tintfall-sheets" || tree.value("version", json()) != 1)
    return wrong("it does not say \"format\": \"tintfall-sheets\", \"version\": 1");
  const auto list = tree.find("sheets");
  if (list == tree.end() || !list->is_array()) return wrong("it has no list 'sheets'");
  std::vector<PrintedSheet> sheets;
  for (std::size_t i = 0; i < list->size(); ++i) {
    const json& entry = (*list)[i];
    PrintedSheet sheet;
    for (const Member& member : members) {
      const auto value = entry.is_object() ? entry.find(member.key) : entry.end();
      if (value == entry.end() && !member.needed) continue;
      if (value == entry.end() || !value->is_string())
        return wrong(fmt::format("'{}' of entry {} is no text", member.key, i + 1));
      sheet.*(member.place) = value->get<std::string>();
    }
    if (!is_label(sheet.label)) return wrong(fmt::format("the label of entry {} cannot be one", i + 1));
    if (!sheet.printed.empty() && !is_date(sheet.printed))
      return wrong(fmt::format("'printed' of entry {} is no date YYYY-MM-DD", i + 1));
    sheets.push_back(std::move(sheet));
  }
  std::sort(sheets.begin(), sheets.end(), by_label);
  const auto twin = std::adjacent_find(sheets.begin(), sheets.end(),
                                       [](const auto& a, const auto& b) { return a.label == b.label; });
  if (twin != sheets.end()) return wrong(fmt::format("the label '{}' stands twice", twin->label));
  return sheets;
}

Result<std::monostate> write_sheets(const std::filesystem::path& file, std::vector<PrintedSheet> sheets) {
  std::sort(sheets.begin(), sheets.end(), by_label);
  ordered_json tree{{"format", "tintfall-sheets"}, {"version", 1}, {"sheets", ordered_json::array()}};
  for (const PrintedSheet& sheet : sheets) {
    ordered_json entry;
    for (const Member& member : members)
      if (member.needed || !(sheet.*(member.place)).empty()) entry[member.key] = sheet.*(member.place);
    tree["sheets"].push_back(entry);
  }
  std::error_code problem;
  std::filesystem::create_directories(file.parent_path(), problem);
  if (problem)
    return fail(
        ErrorCode::cannot_write,
        fmt::format("Making the folder '{}' failed: {}.", file.parent_path().string(), problem.message()),
        "Check that the folder may be written to.");
  return write_file_atomically(file, tree.dump(2, ' ', false, json::error_handler_t::replace) + "\n");
}

Result<PrintedSheet> find_sheet(const std::vector<PrintedSheet>& sheets, std::string_view label) {
  std::string known;
  for (const PrintedSheet& sheet : sheets) {
    if (sheet.label == label) return sheet;
    known.append(known.empty() ? "" : ", ").append(sheet.label);
  }
  return fail(
      ErrorCode::bad_call,
      fmt::format("Looking for the sheet '{}': {}.", label,
                  known.empty() ? std::string("no sheet has been added yet")
                                : fmt::format("the known ones are {}", known)),
      "Add it with 'tintfall sheet add LABEL --chart NAME --reference FILE', or name one that is known.");
}

std::vector<std::string> missing_files(const PrintedSheet& sheet) {
  std::vector<std::string> files, missing;
  if (names_chart_file(sheet.chart)) files.push_back(sheet.chart);
  if (!sheet.reference.empty()) files.push_back(sheet.reference);
  std::error_code ignored;
  for (std::string& file : files)
    if (!std::filesystem::exists(file, ignored)) missing.push_back(std::move(file));
  return missing;
}

}  // namespace tintfall
