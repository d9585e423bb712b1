#pragma once
/// Where the tables (reference/) and chart definitions (charts/) of this build lie.

#include <filesystem>

namespace colorlib {

/// The folder that holds `charts` and `reference`: $TINTFALL_DATA if set and not empty, else the source tree
/// that this build was made from while it is still there, else the installed share/tintfall.
std::filesystem::path data_folder();

}  // namespace colorlib
