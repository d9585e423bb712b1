#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/reaction/change_map.hpp>
#include <limits>

namespace colorlib {
namespace {

/// Mean over the 3 x 3 pixels around, of those that are known.
Lab smoothed(const ImageF& lab, int row, int column) {
  Vector3 sum{};
  int count = 0;
  for (int r = std::max(0, row - 1); r <= std::min(lab.rows - 1, row + 1); ++r)
    for (int c = std::max(0, column - 1); c <= std::min(lab.columns - 1, column + 1); ++c) {
      const float* v = lab.at(r, c);
      if (!std::isfinite(v[0])) continue;
      for (std::size_t k = 0; k < 3; ++k) sum[k] += v[k];
      ++count;
    }
  if (count == 0) return {std::nan(""), 0, 0};
  return {sum[0] / count, sum[1] / count, sum[2] / count};
}

PointMm mm_of(const ChangeMap& map, int row, int column) {
  return {map.place.x + (column + 0.5) / map.px_per_mm, map.place.y + (row + 0.5) / map.px_per_mm};
}

double quantile(std::vector<float>& values, double share) {
  const auto at =
      values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), at, values.end());
  return *at;
}

/// The pixels above `limit` that hang together with any inside the spot.
std::vector<std::uint8_t> stain_of(const ChangeMap& map, const Region& spot, double limit) {
  const int rows = map.de00.rows, columns = map.de00.columns;
  std::vector<std::uint8_t> stain(static_cast<std::size_t>(rows) * columns, 0);
  std::vector<int> open;
  const auto visit = [&](int r, int c) {
    const auto i = static_cast<std::size_t>(r) * columns + c;
    if (stain[i] != 0 || !(*map.de00.at(r, c) > limit)) return;
    stain[i] = 1;
    open.push_back(r * columns + c);
  };
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < columns; ++c) {
      const PointMm p = mm_of(map, r, c);
      if (spot.contains(p.x, p.y)) visit(r, c);
    }
  while (!open.empty()) {
    const int at = open.back(), r = at / columns, c = at % columns;
    open.pop_back();
    if (r > 0) visit(r - 1, c);
    if (r + 1 < rows) visit(r + 1, c);
    if (c > 0) visit(r, c - 1);
    if (c + 1 < columns) visit(r, c + 1);
  }
  return stain;
}

}  // namespace

ChangeMap change_map(const RectifiedWindow& before, const RectifiedWindow& now,
                     const Vector3& control_factor) {
  ChangeMap map{before.place, before.px_per_mm, ImageF(before.lab.rows, before.lab.columns, 1)};
  const bool factors = std::min({control_factor[0], control_factor[1], control_factor[2]}) > 0;
  for (int r = 0; r < map.de00.rows; ++r)
    for (int c = 0; c < map.de00.columns; ++c) {
      float& out = *map.de00.at(r, c);
      out = std::numeric_limits<float>::quiet_NaN();
      if (r >= now.lab.rows || c >= now.lab.columns) continue;
      const Lab old = smoothed(before.lab, r, c);
      Lab fresh = smoothed(now.lab, r, c);
      if (!std::isfinite(old.l) || !std::isfinite(fresh.l)) continue;
      if (factors) {
        const Xyz xyz = xyz_from_lab(fresh, white_d50);
        fresh = lab_from_xyz(
            {xyz.x / control_factor[0], xyz.y / control_factor[1], xyz.z / control_factor[2]}, white_d50);
      }
      out = static_cast<float>(difference_ciede2000(old, fresh));
    }
  return map;
}

std::optional<double> map_noise_de00(const ChangeMap& map, const Region& place) {
  std::vector<float> still;
  for (int r = 0; r < map.de00.rows; ++r)
    for (int c = 0; c < map.de00.columns; ++c) {
      const float v = *map.de00.at(r, c);
      const PointMm p = mm_of(map, r, c);
      if (std::isfinite(v) && place.contains(p.x, p.y)) still.push_back(v);
    }
  constexpr std::size_t least_pixels = 50;
  if (still.size() < least_pixels) return std::nullopt;
  return quantile(still, 0.95);
}

ChangedArea changed_area(const ChangeMap& map, const Region& spot, std::optional<double> noise_de00,
                         const ChangedAreaOptions& options) {
  ChangedArea area;
  area.id = spot.id;
  if (!noise_de00) return area;
  area.noise_de00 = *noise_de00;
  area.tolerance_de00 = std::max({options.tolerance_de00, options.noise_factor * area.noise_de00,
                                  options.wetting_de00 + area.noise_de00});
  area.trusted = area.noise_de00 <= options.most_noise_de00;
  if (!area.trusted) return area;

  const auto stain = stain_of(map, spot, area.tolerance_de00);
  const double pixel_mm2 = 1 / (map.px_per_mm * map.px_per_mm);
  double weight = 0, x = 0, y = 0, count = 0;
  for (int r = 0; r < map.de00.rows; ++r)
    for (int c = 0; c < map.de00.columns; ++c) {
      if (stain[static_cast<std::size_t>(r) * map.de00.columns + c] == 0) continue;
      const double v = *map.de00.at(r, c);
      const PointMm p = mm_of(map, r, c);
      weight += v, x += v * p.x, y += v * p.y, count += 1;
    }
  const double found = count * pixel_mm2;
  const auto [left, top, right, bottom] = spot.bounds();
  area.centre = {(left + right) / 2, (top + bottom) / 2};
  if (found < options.least_area_mm2) return area;
  area.area_mm2 = found;
  area.radius_mm = std::sqrt(found / 3.14159265358979);
  area.centre = {x / weight, y / weight};

  // Middle: the inner half of the radius; rim: from three fifths on. Untouched pixels inside count as what
  // they are.
  double inner = 0, outer = 0, inner_count = 0, outer_count = 0;
  for (int r = 0; r < map.de00.rows; ++r)
    for (int c = 0; c < map.de00.columns; ++c) {
      const double v = *map.de00.at(r, c);
      if (!std::isfinite(v)) continue;
      const PointMm p = mm_of(map, r, c);
      const double distance = std::hypot(p.x - area.centre.x, p.y - area.centre.y) / area.radius_mm;
      const bool in_stain = stain[static_cast<std::size_t>(r) * map.de00.columns + c] != 0;
      if (distance < 0.5)
        inner += v, inner_count += 1;
      else if (distance > 0.6 && in_stain)
        outer += v, outer_count += 1;
    }
  if (inner_count > 0 && outer_count > 0) area.ring = inner / inner_count < 0.75 * outer / outer_count;
  return area;
}

std::optional<double> spreading_speed_mm_s(const std::vector<SpreadPoint>& points) {
  double largest = 0;
  for (const SpreadPoint& point : points) largest = std::max(largest, point.radius_mm);
  if (largest < 0.5) return std::nullopt;
  double n = 0, t = 0, r = 0, tt = 0, tr = 0;
  for (const SpreadPoint& point : points) {
    if (point.radius_mm >= 0.1 * largest) {
      n += 1, t += point.seconds, r += point.radius_mm;
      tt += point.seconds * point.seconds, tr += point.seconds * point.radius_mm;
    }
    if (point.radius_mm >= 0.9 * largest) break;
  }
  const double spread = n * tt - t * t;
  if (n < 3 || !(spread > 0)) return std::nullopt;
  return (n * tr - t * r) / spread;
}

}  // namespace colorlib
