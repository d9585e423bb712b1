#include <algorithm>
#include <cmath>
#include <colorlib/specimen/cell_mask.hpp>
#include <map>

namespace colorlib {

CellMask::CellMask(const RectangleMm& place_, double cell_mm_)
    : place(place_),
      cell_mm(cell_mm_),
      rows(std::max(0, static_cast<int>(place_.height / cell_mm_))),
      columns(std::max(0, static_cast<int>(place_.width / cell_mm_))),
      set(static_cast<std::size_t>(rows) * static_cast<std::size_t>(columns)) {}

double CellMask::area_mm2() const {
  return area_mm2(static_cast<std::size_t>(std::count(set.begin(), set.end(), 1)));
}

CellMask majority_smoothed(const CellMask& mask) {
  CellMask smooth = mask;
  for (int r = 0; r < mask.rows; ++r)
    for (int c = 0; c < mask.columns; ++c) {
      int count = 0;
      for (int dr = -1; dr <= 1; ++dr)
        for (int dc = -1; dc <= 1; ++dc) count += mask.at(r + dr, c + dc);
      smooth.set[mask.index(r, c)] = count >= 5;
    }
  return smooth;
}

CellMask eroded(const CellMask& mask, double distance_mm) {
  const int reach = static_cast<int>(std::ceil(distance_mm / mask.cell_mm));
  CellMask core = mask;
  for (int r = 0; r < mask.rows; ++r)
    for (int c = 0; c < mask.columns; ++c) {
      if (!mask.at(r, c)) continue;
      bool keep = true;
      for (int dr = -reach; dr <= reach && keep; ++dr)
        for (int dc = -reach; dc <= reach && keep; ++dc)
          if (std::hypot(dr, dc) * mask.cell_mm <= distance_mm && !mask.at(r + dr, c + dc)) keep = false;
      core.set[mask.index(r, c)] = keep;
    }
  return core;
}

std::vector<CellPart> connected_parts(const CellMask& mask) {
  std::vector<CellPart> parts;
  std::vector<std::uint8_t> seen(mask.set.size());
  std::vector<std::pair<int, int>> open;
  for (int r = 0; r < mask.rows; ++r)
    for (int c = 0; c < mask.columns; ++c) {
      if (!mask.at(r, c) || seen[mask.index(r, c)]) continue;
      CellPart part;
      open.assign(1, {r, c});
      seen[mask.index(r, c)] = 1;
      while (!open.empty()) {
        const auto [row, column] = open.back();
        open.pop_back();
        part.push_back(mask.index(row, column));
        constexpr int steps[4][2] = {{1, 0}, {-1, 0}, {0, 1}, {0, -1}};
        for (const auto& step : steps) {
          const int nr = row + step[0], nc = column + step[1];
          if (mask.at(nr, nc) && !seen[mask.index(nr, nc)]) {
            seen[mask.index(nr, nc)] = 1;
            open.emplace_back(nr, nc);
          }
        }
      }
      std::sort(part.begin(), part.end());
      part.shrink_to_fit();
      parts.push_back(std::move(part));
    }
  std::stable_sort(parts.begin(), parts.end(),
                   [](const CellPart& a, const CellPart& b) { return a.size() > b.size(); });
  return parts;
}

std::vector<CellPart> smoothed_parts(const CellPart& cells, const CellMask& grid) {
  if (cells.empty()) return {};
  const auto row_of = [&](std::size_t i) {
    return static_cast<int>(i / static_cast<std::size_t>(grid.columns));
  };
  const auto column_of = [&](std::size_t i) {
    return static_cast<int>(i % static_cast<std::size_t>(grid.columns));
  };
  int left = grid.columns, right = 0;
  for (const std::size_t i : cells) {
    left = std::min(left, column_of(i));
    right = std::max(right, column_of(i));
  }
  // Smoothing reaches one cell further, but not beyond the grid.
  left = std::max(left - 1, 0);
  right = std::min(right + 1, grid.columns - 1);
  const int top = std::max(row_of(cells.front()) - 1, 0),
            bottom = std::min(row_of(cells.back()) + 1, grid.rows - 1);
  CellMask window;
  window.cell_mm = grid.cell_mm;
  window.rows = bottom - top + 1;
  window.columns = right - left + 1;
  window.set.resize(static_cast<std::size_t>(window.rows) * static_cast<std::size_t>(window.columns));
  for (const std::size_t i : cells) window.set[window.index(row_of(i) - top, column_of(i) - left)] = 1;
  std::vector<CellPart> parts = connected_parts(majority_smoothed(window));
  const auto across = static_cast<std::size_t>(window.columns);
  for (CellPart& part : parts)
    for (std::size_t& i : part)
      i = grid.index(top + static_cast<int>(i / across), left + static_cast<int>(i % across));
  return parts;
}

CellMask mask_of(const CellPart& cells, const CellMask& grid) {
  CellMask mask = grid;
  std::fill(mask.set.begin(), mask.set.end(), std::uint8_t{0});
  for (const std::size_t i : cells) mask.set[i] = 1;
  return mask;
}

std::vector<PointMm> outline(const CellMask& mask, double least_hole_mm2) {
  // Every side between a set and an unset cell is a directed edge with the set cell on its left; edges chain
  // into loops.
  using Corner = std::pair<int, int>;  // (row, column) of a cell corner
  std::multimap<Corner, Corner> edges;
  for (int r = 0; r < mask.rows; ++r)
    for (int c = 0; c < mask.columns; ++c) {
      if (!mask.at(r, c)) continue;
      if (!mask.at(r - 1, c)) edges.insert({{r, c + 1}, {r, c}});
      if (!mask.at(r + 1, c)) edges.insert({{r + 1, c}, {r + 1, c + 1}});
      if (!mask.at(r, c - 1)) edges.insert({{r, c}, {r + 1, c}});
      if (!mask.at(r, c + 1)) edges.insert({{r + 1, c + 1}, {r, c + 1}});
    }
  std::vector<std::vector<Corner>> loops;
  while (!edges.empty()) {
    std::vector<Corner> loop{edges.begin()->first};
    while (true) {
      const auto next = edges.find(loop.back());
      if (next == edges.end()) break;
      loop.push_back(next->second);
      edges.erase(next);
    }
    loops.push_back(std::move(loop));
  }
  std::stable_sort(loops.begin(), loops.end(),
                   [](const auto& a, const auto& b) { return a.size() > b.size(); });
  const auto corners_of = [&mask](const std::vector<Corner>& loop) {
    std::vector<PointMm> points;
    for (std::size_t i = 0; i + 1 < loop.size(); ++i) {
      const Corner before = loop[i == 0 ? loop.size() - 2 : i - 1], here = loop[i], after = loop[i + 1];
      const bool straight = (before.first == here.first && here.first == after.first) ||
                            (before.second == here.second && here.second == after.second);
      if (!straight)
        points.push_back(
            {mask.place.x + here.second * mask.cell_mm, mask.place.y + here.first * mask.cell_mm});
    }
    return points;
  };
  // Loops run with the set cells on their left, so that the signed area of a hole has the other sign.
  const auto signed_area = [](const std::vector<PointMm>& points) {
    double twice = 0;
    for (std::size_t i = 0, k = points.size() - 1; i < points.size(); k = i++)
      twice += points[k].x * points[i].y - points[i].x * points[k].y;
    return twice / 2;
  };
  std::vector<PointMm> points;
  double outer = 0;
  for (const auto& loop : loops) {
    const auto corners = corners_of(loop);
    if (corners.size() < 4) continue;
    const double area = signed_area(corners);
    if (points.empty()) {
      points = corners;
      outer = area;
      continue;
    }
    if (area * outer > 0 || std::abs(area) < least_hole_mm2) continue;
    const PointMm start = points.front();
    points.push_back(start);
    points.insert(points.end(), corners.begin(), corners.end());
    points.push_back(corners.front());
  }
  return points;
}

}  // namespace colorlib
