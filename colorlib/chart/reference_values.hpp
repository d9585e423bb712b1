#pragma once
/// Measured colours of a sheet's patches.

#include <colorlib/base/result.hpp>
#include <colorlib/chart/chart_definition.hpp>
#include <filesystem>
#include <string>
#include <string_view>
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
  std::string created;               ///< the CREATED statement, as it stands
  std::string measurement_source;    ///< the MEASUREMENT_SOURCE statement, as it stands
  std::vector<std::string> remarks;  ///< e.g. "adapted from D65 by Bradford"
};

/// Standard uncertainty of a measured patch when the file gives none: 0.2 per coordinate, the repeatability
/// of a contact spectrophotometer on printed paper (project's choice).
inline constexpr double default_reference_uncertainty = 0.2;
/// Standard uncertainty of a nominal patch per coordinate, before the common print cast is handled by the
/// calibration.
inline constexpr double nominal_reference_uncertainty = 2.0;

/// What MEASUREMENT_SOURCE of a file holds when its values were carried over from another chart by
/// photograph; reading such a file gives ReferenceKind::transferred.
inline constexpr std::string_view transferred_source = "chart transfer";

/// Reads CGATS.17 text or a table (comma, semicolon, tab) with the same column names, whatever their case:
///   SAMPLE_ID (or SAMPLE_NAME) equal to the patch ids; one of LAB_L LAB_A LAB_B, XYZ_X XYZ_Y XYZ_Z (Y = 100
///   for the perfect diffuser), or reflectances at even steps from 400 nm or less to 700 nm or more
///   (SPECTRAL_NM550, SPEC_550, nm550, R_550 ...; 0 to 1 or percent), integrated for D50 and the CIE 1931
///   observer; optionally STDEV_L STDEV_A STDEV_B, the standard uncertainty of each patch.
/// Colours stated under another illuminant (A, C, D55, D65, D75, E, F2, F7, F11) are adapted by Bradford, and
/// a remark says so; a 10 degree observer is refused unless the file has reflectances. Errors:
/// unreadable_reference: no number, L* outside 0 to 110, |a*| or |b*| above 150, a standard uncertainty not
/// above 0 or above 20, a patch missing or twice, a DESCRIPTOR that names another shipped chart whose patches
/// the file has, values that no print has (reference_plausibility). Other rows are ignored and remarked.
Result<ReferenceValues> read_reference(const std::filesystem::path& path, const ChartDefinition& chart);
Result<ReferenceValues> parse_reference(std::string_view text, std::string_view name,
                                        const ChartDefinition& chart);
/// The chart's own nominal values.
ReferenceValues nominal_reference(const ChartDefinition& chart);

}  // namespace colorlib
