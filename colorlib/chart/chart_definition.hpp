#pragma once
/// What a sheet shows and where: markers, patches, openings, backings.

#include <colorlib/base/result.hpp>
#include <colorlib/chart/geometry.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

struct Marker {
  int id = 0;
  double x_mm = 0, y_mm = 0, side_mm = 0;  ///< outer edge of the black square
};

enum class PatchRole { neutral, colour };

struct Patch {
  std::string id;
  PatchRole role = PatchRole::colour;
  RectangleMm place;
  Lab nominal_lab;  ///< D50, 2 degree: what the definition hopes the printer gives
};

struct ChartWindow {
  std::string id;
  RectangleMm place;
};

struct Backing {
  std::string id;
  RectangleMm place;
  Lab nominal_lab;
};

struct ChartDefinition {
  std::string name, title;
  double width_mm = 0, height_mm = 0;
  std::vector<Marker> markers;  ///< family tag36h11; empty when placed by four corners
  std::vector<Patch> patches;
  std::vector<ChartWindow> windows;
  std::vector<Backing> backings;
  std::optional<Lab> paper_lab;
};

/// Bounds on a definition file.
struct ChartLimits {
  static constexpr std::size_t bytes = 4u << 20;
  static constexpr std::size_t patches = 2000;
  static constexpr std::size_t markers = 64;
  static constexpr std::size_t windows = 64;
  static constexpr double sheet_mm = 2000;
};

/// Reads and checks a definition (format "tintfall-chart", version 1). Errors: unreadable_chart, naming the entry and the key.
Result<ChartDefinition> read_chart(const std::filesystem::path& path);
Result<ChartDefinition> parse_chart(std::string_view json, std::string_view name);

/// The charts shipped in `data_folder()/charts`, sorted by name.
Result<std::vector<ChartDefinition>> shipped_charts();
/// A shipped chart by name, or a definition file by path (contains '/' or ends in .json).
Result<ChartDefinition> find_chart(std::string_view name_or_path);

}  // namespace colorlib
