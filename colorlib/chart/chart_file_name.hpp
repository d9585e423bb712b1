#pragma once
/// Whether what stands for a chart is a shipped chart's name or a file.

#include <string_view>

namespace colorlib {

/// Whether `find_chart` takes it for the path of a definition file: it contains '/' or ends in .json.
bool names_chart_file(std::string_view name_or_path);

}  // namespace colorlib
