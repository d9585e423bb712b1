#include <algorithm>
#include <cmath>
#include <colorlib/calibration/error_budget.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/clear_places.hpp>
#include <limits>
#include <numeric>

namespace colorlib {
namespace {

/// Colours over a region, cell by cell.
struct ColorMap {
  CellMask inside;  ///< in the region's frame
  std::vector<Xyz> xyz;
};

Xyz operator+(const Xyz& a, const Xyz& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
Xyz operator*(double s, const Xyz& a) { return {s * a.x, s * a.y, s * a.z}; }
double dot(const Xyz& a, const Xyz& b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
Lab lab_of(const Xyz& xyz) { return lab_from_xyz(xyz, white_d50); }

/// One cell wider than the region on every side, so that its outline lies inside the map.
ColorMap map_of(const Photo& photo, const Placement& placement, const Calibration& calibration,
                const Region& region, RegionFrame frame, double cell) {
  const auto [left, top, right, bottom] = region.bounds();
  ColorMap map;
  map.inside = CellMask({left - cell, top - cell, right - left + 3 * cell, bottom - top + 3 * cell}, cell);
  map.xyz.resize(map.inside.set.size());
  for (int r = 0; r < map.inside.rows; ++r) {
    const double y = map.inside.centre(r, 0).y;
    const auto edges = region.crossings(y);
    std::size_t passed = 0;
    for (int c = 0; c < map.inside.columns; ++c) {
      const double x = map.inside.centre(r, c).x;
      while (passed < edges.size() && edges[passed] <= x) ++passed;
      if (passed % 2 == 0) continue;
      const PointPx px = frame == RegionFrame::chart_mm ? placement.px_from_mm({x, y}) : PointPx{x, y};
      const double column = std::round(px.x), row = std::round(px.y);
      if (!(column >= 0 && row >= 0 && column < photo.width_px() && row < photo.height_px())) continue;
      const std::size_t i = map.inside.index(r, c);
      map.inside.set[i] = 1;
      map.xyz[i] = calibration.xyz_from_pixel(
          {frame == RegionFrame::chart_mm ? PointMm{x, y} : placement.mm_from_px(px),
           photo.encoded_at(static_cast<int>(column), static_cast<int>(row))});
    }
  }
  return map;
}

/// Distance of every cell from the nearest unset one, in cells; `reach` where there is none so near.
std::vector<float> depths(const CellMask& mask, int reach) {
  const auto far = static_cast<float>(reach);
  std::vector<float> column_depth(mask.set.size()), depth(mask.set.size());
  for (int c = 0; c < mask.columns; ++c) {
    float down = 0, up = 0;
    for (int r = 0; r < mask.rows; ++r) {
      down = mask.at(r, c) ? std::min(down + 1, far) : 0;
      column_depth[mask.index(r, c)] = down;
    }
    for (int r = mask.rows - 1; r >= 0; --r) {
      up = mask.at(r, c) ? std::min(up + 1, far) : 0;
      column_depth[mask.index(r, c)] = std::min(column_depth[mask.index(r, c)], up);
    }
  }
  for (int r = 0; r < mask.rows; ++r)
    for (int c = 0; c < mask.columns; ++c) {
      if (!mask.at(r, c)) continue;
      float least = far * far;
      for (int k = std::max(0, c - reach); k <= std::min(mask.columns - 1, c + reach); ++k) {
        const float aside = static_cast<float>(k - c), along = column_depth[mask.index(r, k)];
        least = std::min(least, aside * aside + along * along);
      }
      depth[mask.index(r, c)] = std::sqrt(least);
    }
  return depth;
}

template <class Holds>
Xyz mean_where(const ColorMap& map, const Holds& holds) {
  Xyz sum;
  double count = 0;
  for (std::size_t i = 0; i < map.xyz.size(); ++i)
    if (map.inside.set[i] && holds(i)) sum = sum + map.xyz[i], ++count;
  return count > 0 ? (1 / count) * sum : sum;
}

/// The depth beyond which `share` of the inside lies, at most `wanted`.
float depth_keeping(const CellMask& inside, const std::vector<float>& depth, double share, float wanted) {
  std::vector<float> all;
  for (std::size_t i = 0; i < depth.size(); ++i)
    if (inside.set[i]) all.push_back(depth[i]);
  if (all.empty()) return 0;
  const auto at = all.begin() + static_cast<std::ptrdiff_t>((1 - share) * static_cast<double>(all.size()));
  std::nth_element(all.begin(), at, all.end());
  return std::min(wanted, *at);
}

/// Where the ground lies bare: the mean over 3 x 3 cells, against noise, is most of the way to its colour.
CellMask bare_cells(const ColorMap& map, const Xyz& core, const Xyz& ground, double share_of_way) {
  CellMask bare = map.inside;
  const Xyz way = ground + (-1) * core;
  for (int r = 0; r < bare.rows; ++r)
    for (int c = 0; c < bare.columns; ++c) {
      if (!map.inside.at(r, c)) continue;
      double along = 0;
      int count = 0;
      for (int dr = -1; dr <= 1; ++dr)
        for (int dc = -1; dc <= 1; ++dc)
          if (map.inside.at(r + dr, c + dc))
            along += dot(map.xyz[map.inside.index(r + dr, c + dc)] + (-1) * core, way), ++count;
      bare.set[bare.index(r, c)] = along / count > share_of_way * dot(way, way);
    }
  return bare;
}

/// Going outward from the core, the least depth down to which every layer has the core's colour.
float plateau_depth(const ColorMap& map, const std::vector<float>& depth, float core_depth, float layer,
                    const Lab& core, double like_core_de00) {
  const auto layers = static_cast<std::size_t>(std::ceil(core_depth / layer));
  std::vector<Xyz> sums(layers);
  std::vector<double> counts(layers);
  for (std::size_t i = 0; i < depth.size(); ++i) {
    if (!map.inside.set[i] || !(depth[i] < core_depth)) continue;
    const auto k = std::min(layers - 1, static_cast<std::size_t>(depth[i] / layer));
    sums[k] = sums[k] + map.xyz[i];
    ++counts[k];
  }
  constexpr double least_cells = 20;  // fewer say nothing
  for (std::size_t k = layers; k-- > 0;)
    if (counts[k] >= least_cells &&
        difference_ciede2000(lab_of((1 / counts[k]) * sums[k]), core) > like_core_de00)
      return std::min(core_depth, static_cast<float>(k + 1) * layer);
  return 0;
}

/// Mean share of the ground's light in the set cells by the photo's blur alone, were the edge a sharp and
/// straight one a standard deviation inside the outline: what a core too narrow for the blur holds.
double share_through(const CellMask& set, const std::vector<float>& depth, double cell_mm, double blur_mm) {
  double sum = 0, count = 0;
  for (std::size_t i = 0; i < depth.size(); ++i) {
    if (!set.set[i]) continue;
    sum += 0.5 * std::erfc((depth[i] * cell_mm / std::max(blur_mm, 1e-6) - 1) / std::sqrt(2.0));
    ++count;
  }
  return count > 0 ? sum / count : 0;
}

/// A ground that nobody knows may be half the lightness scale away.
Lab unknown_ground(const Lab& core) { return {core.l < 50 ? core.l + 50 : core.l - 50, core.a, core.b}; }

}  // namespace

bool ClearPlaces::contains(double x, double y) const {
  return mask.at(static_cast<int>(std::floor((y - mask.place.y) / mask.cell_mm)),
                 static_cast<int>(std::floor((x - mask.place.x) / mask.cell_mm)));
}

ClearPlaces clear_places(const Photo& photo, const Placement& placement, const Calibration& calibration,
                         const Region& region, RegionFrame frame, double blur_px,
                         const std::optional<Xyz>& ground, const ClearOptions& options) {
  const auto [left, top, right, bottom] = region.bounds();
  const PointMm middle{(left + right) / 2, (top + bottom) / 2};
  const bool on_sheet = frame == RegionFrame::chart_mm;
  const double px_per_mm =
      placement.px_per_mm(on_sheet ? middle : placement.mm_from_px({middle.x, middle.y}));
  const double mm = on_sheet ? 1 : px_per_mm;  // in units of the frame
  const double cell = std::max({options.cell_mm * mm, mm / px_per_mm,
                                std::sqrt((right - left) * (bottom - top) / options.most_cells)});
  const auto cells = [&](double length_mm) { return static_cast<float>(length_mm * mm / cell); };

  ColorMap map = map_of(photo, placement, calibration, region, frame, cell);
  const CellMask whole = map.inside;
  ClearPlaces clear{map.inside, 1, 0, 0, {}};
  const double blur_mm = blur_px / px_per_mm;
  const float deepest = cells(options.widest_rim_mm + options.blur_reach * blur_mm);
  const int reach = static_cast<int>(std::ceil(deepest)) + 1;
  std::vector<float> depth = depths(map.inside, reach);
  float core_depth = depth_keeping(map.inside, depth, options.least_core_share, deepest);
  const auto core_color = [&] {
    return mean_where(map, [&](std::size_t i) { return depth[i] >= core_depth; });
  };
  Xyz core = core_color();
  if (ground && difference_cie76(lab_of(core), lab_of(*ground)) > options.least_ground_contrast) {
    const CellMask bare = bare_cells(map, core, *ground, options.bare_share_of_way);
    std::size_t all = 0, gaps = 0;
    for (std::size_t i = 0; i < bare.set.size(); ++i) {
      all += map.inside.set[i], gaps += bare.set[i];
      if (bare.set[i]) map.inside.set[i] = 0;
    }
    clear.bare_share = all > 0 ? static_cast<double>(gaps) / static_cast<double>(all) : 0;
    if (gaps > 0) {
      depth = depths(map.inside, reach);
      core_depth = depth_keeping(map.inside, depth, options.least_core_share, deepest);
      core = core_color();
    }
  }
  const float plateau =
      plateau_depth(map, depth, core_depth, cells(options.layer_mm), lab_of(core), options.like_core_de00);
  float from = plateau;
  from += static_cast<float>(options.spare_px * mm / px_per_mm / cell);
  from = depth_keeping(map.inside, depth, options.least_core_share, from);
  std::size_t all = 0, kept = 0;
  for (std::size_t i = 0; i < depth.size(); ++i) {
    clear.mask.set[i] = map.inside.set[i] && depth[i] >= from;
    all += whole.set[i], kept += clear.mask.set[i];
  }
  clear.clear_share = all > 0 ? static_cast<double>(kept) / static_cast<double>(all) : 1;
  clear.rim_mm = from * cell / mm;
  if (kept == 0) return clear;
  const Lab core_lab = lab_of(core);
  const Lab clear_lab = lab_of(mean_where(map, [&](std::size_t i) { return depth[i] >= from; }));
  const Lab ground_lab = ground ? lab_of(*ground) : unknown_ground(core_lab);
  const double through = share_through(clear.mask, depth, cell / mm, blur_mm);
  clear.lab_covariance =
      outer({clear_lab.l - core_lab.l, clear_lab.a - core_lab.a, clear_lab.b - core_lab.b}) +
      through * through *
          outer({ground_lab.l - core_lab.l, ground_lab.a - core_lab.a, ground_lab.b - core_lab.b});
  return clear;
}

}  // namespace colorlib
