#pragma once
/// The user's printed sheets: label -> chart, reference file, print date. One small JSON file.

#include <colorlib/base/result.hpp>
#include <filesystem>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace tintfall {

struct PrintedSheet {
  std::string label;
  std::string chart;      ///< a shipped chart's name, or the full path of a definition
  std::string reference;  ///< full path of the reference file; empty: nominal values
  std::string printed;    ///< ISO 8601 date; empty: not known
  bool operator==(const PrintedSheet&) const = default;
};

/// $XDG_CONFIG_HOME/tintfall/sheets.json, else ~/.config/tintfall/sheets.json. Errors: cannot_write when
/// neither folder is known.
colorlib::Result<std::filesystem::path> sheet_settings_file();

/// The sheets in the file, sorted by label; none when there is no file yet. Format "tintfall-sheets",
/// version 1. Errors: unreadable_table, naming the entry.
colorlib::Result<std::vector<PrintedSheet>> read_sheets(const std::filesystem::path& file);
/// Replaces the file as a whole; makes its folder. Errors: cannot_write.
colorlib::Result<std::monostate> write_sheets(const std::filesystem::path& file,
                                              std::vector<PrintedSheet> sheets);

/// The sheet of this label. Errors: bad_call, listing the known labels.
colorlib::Result<PrintedSheet> find_sheet(const std::vector<PrintedSheet>& sheets, std::string_view label);

/// Those of the sheet's files, definition and reference, that are not there.
std::vector<std::string> missing_files(const PrintedSheet& sheet);

/// 1 to 64 characters without control characters or spaces at the ends.
bool is_label(std::string_view text);
/// YYYY-MM-DD of a day that exists.
bool is_date(std::string_view text);

}  // namespace tintfall
