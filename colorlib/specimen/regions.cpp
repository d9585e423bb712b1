#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/json_nesting.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/specimen/regions.hpp>
#include <limits>
#include <nlohmann/json.hpp>
#include <set>

namespace colorlib {
namespace {

/// Read with sorted keys: the ordered kind searches its keys one by one, and a file may hold a million.
using Json = nlohmann::json;
/// Written in the order of the format.
using OrderedJson = nlohmann::ordered_json;

constexpr std::size_t limit_bytes = 32u << 20;
constexpr std::size_t limit_regions = 10'000, limit_points = 10'000;
constexpr int limit_depth = 16;
constexpr double limit_coordinate = 1e6;

constexpr std::pair<RegionKind, std::string_view> kind_names[] = {
    {RegionKind::deposit, "deposit"}, {RegionKind::substrate, "substrate"}, {RegionKind::spot, "spot"},
    {RegionKind::bruise, "bruise"},   {RegionKind::control, "control"},     {RegionKind::water, "water"},
    {RegionKind::other, "other"}};

tl::unexpected<Error> malformed(std::string_view file, std::string_view where, std::string_view found) {
  return fail(ErrorCode::unreadable_regions,
              fmt::format("Reading the regions '{}': {} {}.", file, where, found),
              "See docs/reference/regions_format.md for the form of a regions file.");
}

/// Two finite numbers of sensible size.
bool is_pair(const Json& value) {
  if (!value.is_array() || value.size() != 2) return false;
  for (const auto& number : value)
    if (!number.is_number() || !(std::abs(number.get<double>()) <= limit_coordinate)) return false;
  return true;
}

Result<Region> region_from(const Json& item, std::size_t index, std::string_view file) {
  const std::string where = fmt::format("region {}", index + 1);
  if (!item.is_object()) return malformed(file, where, "is not an object");
  Region region;
  if (!item.contains("id") || !item["id"].is_string() || item["id"].get<std::string>().empty())
    return malformed(file, where, "needs an 'id' of text");
  region.id = item["id"].get<std::string>();
  if (holds_control_character(region.id))
    return malformed(file, where, "has a control character in its 'id'");
  const std::string named = fmt::format("region '{}'", quotable(region.id));
  if (!item.contains("kind") || !item["kind"].is_string()) return malformed(file, named, "needs a 'kind'");
  const auto kind = region_kind_from(item["kind"].get<std::string>());
  if (!kind)
    return malformed(file, named,
                     fmt::format("has an unknown kind '{}'", quotable(item["kind"].get<std::string>())));
  region.kind = *kind;
  if (item.contains("controls")) {
    if (!item["controls"].is_array()) return malformed(file, named, "has 'controls' that are not a list");
    for (const auto& control : item["controls"]) {
      if (!control.is_string()) return malformed(file, named, "has a control that is not an id");
      region.controls.push_back(control.get<std::string>());
    }
  }
  if (item.contains("found")) {
    if (!item["found"].is_boolean()) return malformed(file, named, "has a 'found' that is not true or false");
    region.found = item["found"].get<bool>();
  }
  const std::string shape = item.value("shape", Json()).is_string() ? item["shape"].get<std::string>() : "";
  if (shape == "ellipse") {
    if (!item.contains("centre") || !is_pair(item["centre"]))
      return malformed(file, named, "needs 'centre': [x, y]");
    if (!item.contains("radii") || !is_pair(item["radii"]))
      return malformed(file, named, "needs 'radii': [x, y]");
    EllipseShape ellipse{item["centre"][0], item["centre"][1], item["radii"][0], item["radii"][1]};
    if (!(ellipse.radius_x > 0 && ellipse.radius_y > 0))
      return malformed(file, named, "has a radius that is not above 0");
    region.shape = ellipse;
  } else if (shape == "polygon") {
    if (!item.contains("points") || !item["points"].is_array() || item["points"].size() < 3 ||
        item["points"].size() > limit_points)
      return malformed(file, named, fmt::format("needs 'points', 3 to {} of them", limit_points));
    PolygonShape polygon;
    for (const auto& point : item["points"]) {
      if (!is_pair(point)) return malformed(file, named, "has a point that is not [x, y]");
      polygon.points.push_back({point[0].get<double>(), point[1].get<double>()});
    }
    region.shape = std::move(polygon);
  } else {
    return malformed(file, named, "needs a 'shape' of 'ellipse' or 'polygon'");
  }
  return region;
}

}  // namespace

std::string_view region_kind_name(RegionKind kind) {
  for (const auto& [value, name] : kind_names)
    if (value == kind) return name;
  return "other";
}

Result<RegionKind> region_kind_from(std::string_view name) {
  for (const auto& [value, known] : kind_names)
    if (known == name) return value;
  return fail(ErrorCode::bad_call, fmt::format("'{}' is no kind of region.", quotable(name)),
              "Use deposit, substrate, spot, bruise, control, water or other.");
}

std::vector<std::vector<std::array<double, 2>>> PolygonShape::loops() const {
  std::vector<std::vector<std::array<double, 2>>> found;
  std::vector<std::array<double, 2>> loop;
  for (const auto& point : points) {
    if (loop.empty() && !found.empty() && point == points.front()) continue;  // a bridge starts again
    if (!loop.empty() && point == loop.front()) {
      found.push_back(std::move(loop));
      loop.clear();
    } else {
      loop.push_back(point);
    }
  }
  if (!loop.empty()) found.push_back(std::move(loop));
  return found;
}

std::vector<double> Region::crossings(double y) const {
  if (const auto* ellipse = std::get_if<EllipseShape>(&shape)) {
    const double dy = (y - ellipse->y) / ellipse->radius_y;
    if (std::abs(dy) > 1) return {};
    const double half = ellipse->radius_x * std::sqrt(1 - dy * dy);
    return {ellipse->x - half, ellipse->x + half};
  }
  std::vector<double> found;
  const auto& points = std::get<PolygonShape>(shape).points;
  for (std::size_t i = 0, j = points.size() - 1; i < points.size(); j = i++)
    if ((points[i][1] > y) != (points[j][1] > y))
      found.push_back((points[j][0] - points[i][0]) * (y - points[i][1]) / (points[j][1] - points[i][1]) +
                      points[i][0]);
  std::sort(found.begin(), found.end());
  return found;
}

std::string region_id_at(std::size_t place) {
  return place < 26 ? std::string(1, static_cast<char>('A' + place)) : fmt::format("R{}", place + 1);
}

bool Region::contains(double x, double y) const {
  const auto edges = crossings(y);
  return (std::upper_bound(edges.begin(), edges.end(), x) - edges.begin()) % 2 == 1;
}

std::array<double, 4> Region::bounds() const {
  if (const auto* e = std::get_if<EllipseShape>(&shape))
    return {e->x - e->radius_x, e->y - e->radius_y, e->x + e->radius_x, e->y + e->radius_y};
  constexpr double far = std::numeric_limits<double>::max();
  std::array<double, 4> box{far, far, -far, -far};
  for (const auto& [x, y] : std::get<PolygonShape>(shape).points)
    box = {std::min(box[0], x), std::min(box[1], y), std::max(box[2], x), std::max(box[3], y)};
  return box;
}

Result<Regions> read_regions(const std::filesystem::path& path) {
  const auto bytes = read_file(path, "the regions", ErrorCode::unreadable_regions, limit_bytes);
  if (!bytes) return fail(bytes.error());
  return parse_regions(*bytes, path.filename().string());
}

Result<Regions> parse_regions(std::string_view text, std::string_view name) {
  text = without_byte_order_mark(text);
  const Json json =
      json_nesting(text) > limit_depth ? Json(Json::value_t::discarded) : Json::parse(text, nullptr, false);
  if (json.is_discarded()) return malformed(name, "the file", "is not sound JSON");
  if (!json.is_object() || json.value("format", Json()) != "tintfall-regions")
    return malformed(name, "the file", "does not say \"format\": \"tintfall-regions\"");
  if (json.value("version", Json()) != 1) return malformed(name, "the file", "is not of version 1");
  Regions regions;
  const Json frame = json.value("frame", Json("chart"));
  if (frame == "photo")
    regions.frame = RegionFrame::photo_px;
  else if (frame != "chart")
    return malformed(name, "the 'frame'", "is neither \"chart\" nor \"photo\"");
  if (!json.contains("regions") || !json["regions"].is_array())
    return malformed(name, "the file", "has no list 'regions'");
  const auto& items = json["regions"];
  if (items.empty()) return malformed(name, "the list 'regions'", "is empty");
  if (items.size() > limit_regions)
    return malformed(name, "the list 'regions'", fmt::format("is longer than {}", limit_regions));
  std::set<std::string> ids;
  for (std::size_t i = 0; i < items.size(); ++i) {
    auto region = region_from(items[i], i, name);
    if (!region) return fail(region.error());
    if (!ids.insert(region->id).second)
      return malformed(name, fmt::format("the id '{}'", quotable(region->id)), "stands twice");
    regions.items.push_back(std::move(*region));
  }
  for (const auto& region : regions.items)
    for (const auto& control : region.controls)
      if (!ids.contains(control))
        return malformed(name, fmt::format("region '{}'", quotable(region.id)),
                         fmt::format("names an unknown control '{}'", quotable(control)));
  return regions;
}

Result<Region> region_from_option(std::string_view text, std::string id) {
  const auto refuse = [&] {
    return fail(ErrorCode::bad_call,
                fmt::format("The region '{}' is not of the form KIND@x,y,r.", quotable(text)),
                "Write for example --region deposit@105,74,8: kind, centre and radius in mm on the sheet.");
  };
  const auto at = text.find('@');
  if (at == std::string_view::npos) return refuse();
  const auto kind = region_kind_from(text.substr(0, at));
  if (!kind) return fail(kind.error());
  const auto fields = fields_of(text.substr(at + 1), ',');
  if (!fields || fields->size() != 3) return refuse();
  const auto x = number_from((*fields)[0]), y = number_from((*fields)[1]), r = number_from((*fields)[2]);
  if (!x || !y || !r || !(*r > 0) || *r > limit_coordinate) return refuse();
  Region region;
  region.id = std::move(id);
  region.kind = *kind;
  region.shape = EllipseShape{*x, *y, *r, *r};
  return region;
}

std::string regions_json(const Regions& regions) {
  OrderedJson items = OrderedJson::array();
  for (const auto& region : regions.items) {
    OrderedJson item{{"id", region.id}, {"kind", region_kind_name(region.kind)}};
    if (!region.controls.empty()) item["controls"] = region.controls;
    if (region.found) item["found"] = true;
    if (const auto* e = std::get_if<EllipseShape>(&region.shape)) {
      item["shape"] = "ellipse";
      item["centre"] = {e->x, e->y};
      item["radii"] = {e->radius_x, e->radius_y};
    } else {
      item["shape"] = "polygon";
      item["points"] = std::get<PolygonShape>(region.shape).points;
    }
    items.push_back(std::move(item));
  }
  const OrderedJson json{{"format", "tintfall-regions"},
                         {"version", 1},
                         {"frame", regions.frame == RegionFrame::chart_mm ? "chart" : "photo"},
                         {"regions", std::move(items)}};
  return json.dump(2) + "\n";
}

}  // namespace colorlib
