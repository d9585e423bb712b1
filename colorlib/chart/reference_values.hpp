#pragma once
/// Measured colours of a sheet's patches.

#include <colorlib/base/result.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <filesystem>
#include <string>
#include <vector>

namespace colorlib {

enum class ReferenceKind { measured, transferred, nominal };
std::string_view reference_kind_name(ReferenceKind kind);  // "measured" | "transferred" | "nominal"

/// One patch: Lab under D50, 2 degree, and its standard uncertainty per coordinate.
struct PatchReference {
  std::string id;
  Lab lab;
  Vector3 standard_uncertainty{};
};

/// References for every patch of one chart, in the order of the definition's patches.
struct ReferenceValues {
  ReferenceKind kind = ReferenceKind::nominal;
  std::vector<PatchReference> patches;
  std::string source;                ///< file name and what it states of itself
  std::vector<std::string> remarks;  ///< e.g. "adapted from D65 by Bradford"
};

/// Standard uncertainty of a measured patch when the file gives none: 0.2 per coordinate, the repeatability of a
/// contact spectrophotometer on printed paper (project's choice).
inline constexpr double default_reference_uncertainty = 0.2;
/// Standard uncertainty of a nominal patch per coordinate, before the common print cast is handled by the calibration.
inline constexpr double nominal_reference_uncertainty = 2.0;

/// Reads CGATS.17 text (LAB_*, XYZ_*, spectral columns; STDEV_*), or a CSV table with the same column names.
/// Errors: unreadable_reference, naming row and column. Every patch of the chart must be there; others are ignored and remarked.
Result<ReferenceValues> read_reference(const std::filesystem::path& path, const ChartDefinition& chart);
Result<ReferenceValues> parse_reference(std::string_view text, std::string_view name, const ChartDefinition& chart);
/// The chart's own nominal values.
ReferenceValues nominal_reference(const ChartDefinition& chart);

}  // namespace colorlib
