#pragma once
/// Putting a printed sheet on the user's list, after checking that its files can be used.

#include <viewer/command/sheet_settings.hpp>

namespace tintfall {

struct AddedSheet {
  PrintedSheet sheet;  ///< as it stands in the list: with full paths
  std::string chart;   ///< the chart's own name
};

/// `file`: the list. `replace`: a sheet that has this label already. Errors: bad_call (label, date, a label
/// that is taken), unreadable_chart, unreadable_reference, those of the list; then the list is as it was.
colorlib::Result<AddedSheet> add_sheet(const std::filesystem::path& file, PrintedSheet sheet, bool replace);

}  // namespace tintfall
