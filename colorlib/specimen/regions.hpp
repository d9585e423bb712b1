#pragma once
/// The places on the sheet, or in the photo, whose colour is asked for.

#include <array>
#include <colorlib/base/result.hpp>
#include <colorlib/chart/geometry.hpp>
#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace colorlib {

enum class RegionKind { deposit, substrate, spot, bruise, control, water, other };
std::string_view region_kind_name(RegionKind kind);
Result<RegionKind> region_kind_from(std::string_view name);

enum class RegionFrame { chart_mm, photo_px };

/// Axis-aligned ellipse in the regions' frame.
struct EllipseShape {
  double x = 0, y = 0, radius_x = 0, radius_y = 0;
};
/// Even-odd inside. Holes may follow the outer loop, each joined to the first point by a bridge there and
/// back.
struct PolygonShape {
  std::vector<std::array<double, 2>> points;

  /// The closed loops without their bridges, for drawing: the outer one first.
  std::vector<std::vector<std::array<double, 2>>> loops() const;
};

struct Region {
  std::string id;
  RegionKind kind = RegionKind::other;
  std::vector<std::string> controls;
  std::variant<EllipseShape, PolygonShape> shape;
  /// The outline was found along a deposit's edge, not drawn: its rim is no part of the colour.
  bool found = false;

  bool contains(double x, double y) const;  ///< even-odd rule for polygons
  std::array<double, 4> bounds() const;     ///< left, top, right, bottom
  /// Where the outline crosses the line of this y, ascending: inside is between the first and second, third
  /// and fourth, ...
  std::vector<double> crossings(double y) const;
};

/// "A" to "Z", then "R27" and so on: what the region at `place`, counted from 0, is called when nobody named
/// it.
std::string region_id_at(std::size_t place);

struct Regions {
  RegionFrame frame = RegionFrame::chart_mm;
  std::vector<Region> items;
};

/// Bounds: 10 000 regions, 10 000 points a polygon.
/// Errors: unreadable_regions, naming region and key. Format "tintfall-regions", version 1.
Result<Regions> read_regions(const std::filesystem::path& path);
Result<Regions> parse_regions(std::string_view json, std::string_view name);
/// "KIND@x,y,r" in mm on the sheet, as --region takes it; `id` names it.
Result<Region> region_from_option(std::string_view text, std::string id);
std::string regions_json(const Regions& regions);

}  // namespace colorlib
