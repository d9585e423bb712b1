#include <fmt/format.h>

#include <algorithm>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/chart_file_name.hpp>
#include <colorlib/chart/reference_values.hpp>
#include <viewer/command/sheet_adding.hpp>

namespace tintfall {
namespace {

using namespace colorlib;

/// Settings are used from any folder: a relative path would lose its file.
std::string absolute(const std::string& path) {
  std::error_code ignored;
  const auto result = std::filesystem::absolute(path, ignored).lexically_normal();
  return result.empty() ? path : result.string();
}

}  // namespace

Result<AddedSheet> add_sheet(const std::filesystem::path& file, PrintedSheet sheet, bool replace) {
  if (!is_label(sheet.label))
    return fail(ErrorCode::bad_call, "A label has 1 to 64 characters and no space at its ends.",
                "Name the sheet as written on it.");
  if (!sheet.printed.empty() && !is_date(sheet.printed))
    return fail(ErrorCode::bad_call, fmt::format("'{}' is no date of the form YYYY-MM-DD.", sheet.printed),
                "Write the day of printing as for example 2031-03-01.");
  const auto chart = find_chart(sheet.chart);
  if (!chart) return fail(chart.error());
  if (names_chart_file(sheet.chart)) sheet.chart = absolute(sheet.chart);
  if (!sheet.reference.empty()) {
    if (const auto reference = read_reference(sheet.reference, *chart); !reference)
      return fail(reference.error());
    sheet.reference = absolute(sheet.reference);
  }
  auto sheets = read_sheets(file);
  if (!sheets) return fail(sheets.error());
  const auto taken = std::find_if(sheets->begin(), sheets->end(),
                                  [&](const auto& known) { return known.label == sheet.label; });
  if (taken != sheets->end()) {
    if (!replace)
      return fail(ErrorCode::bad_call, fmt::format("There is a sheet '{}' already.", sheet.label),
                  "Choose another label, or say that it replaces that one (--replace).");
    sheets->erase(taken);
  }
  sheets->push_back(sheet);
  if (const auto written = write_sheets(file, std::move(*sheets)); !written) return fail(written.error());
  return AddedSheet{std::move(sheet), chart->name};
}

}  // namespace tintfall
