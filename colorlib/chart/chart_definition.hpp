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

/// What a block of print says. Blocks are no bare paper.
enum class PrintedTextKind { ruler, fields, instructions, cautions };

struct PrintedText {
  PrintedTextKind kind = PrintedTextKind::instructions;
  RectangleMm place;
};

struct ChartDefinition {
  std::string name, title;
  double width_mm = 0, height_mm = 0;
  std::vector<Marker> markers;  ///< family tag36h11; empty when placed by four corners
  std::vector<Patch> patches;
  std::vector<ChartWindow> windows;
  std::vector<Backing> backings;
  std::vector<PrintedText> texts;  ///< optional; where a drawn sheet carries its words and ruler
  std::optional<Lab> paper_lab;
};

/// Bounds on a definition file.
struct ChartLimits {
  static constexpr std::size_t bytes = 4u << 20;
  static constexpr std::size_t patches = 2000;
  static constexpr std::size_t markers = 64;
  static constexpr std::size_t windows = 64;      ///< of backings and texts as well
  static constexpr std::size_t text_bytes = 200;  ///< of an id, a name or a title
  static constexpr int nesting = 16;
  static constexpr double sheet_mm = 2000;
};

/// Reads and checks a definition (format "tintfall-chart", version 1). Errors: unreadable_chart, naming the
/// entry and the key.
Result<ChartDefinition> read_chart(const std::filesystem::path& path);
Result<ChartDefinition> parse_chart(std::string_view json, std::string_view name);

/// The charts shipped in `data_folder()/charts`, sorted by name.
Result<std::vector<ChartDefinition>> shipped_charts();
/// A shipped chart by name, or a definition file by path (contains '/' or ends in .json).
Result<ChartDefinition> find_chart(std::string_view name_or_path);

}  // namespace colorlib
