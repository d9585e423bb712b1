#include <algorithm>
#include <cmath>
#include <colorlib/naming/name_map.hpp>
#include <map>

namespace colorlib {

NameMap name_map(const Namer& namer, const Lab& center, double half_width, double step, NameLevel level) {
  NameMap map;
  map.l = center.l;
  map.step = step;
  map.columns = map.rows = 2 * static_cast<int>(std::ceil(half_width / step)) + 1;
  map.a_low = center.a - step * (map.columns - 1) / 2;
  map.b_low = center.b - step * (map.rows - 1) / 2;
  std::vector<Lab> nodes;
  for (int r = 0; r < map.rows; ++r)
    for (int c = 0; c < map.columns; ++c)
      nodes.push_back({map.l, map.a_low + c * step, map.b_low + r * step});
  const auto at = [&](int r, int c) {
    return static_cast<std::size_t>(r) * static_cast<std::size_t>(map.columns) + static_cast<std::size_t>(c);
  };
  for (const int block : namer.blocks_of(nodes))
    map.name.push_back(static_cast<int>(namer.names().name_index(block, level)));

  // Distance to the area's rim in steps, by two sweeps of the chamfer 1: the deepest node bears the label.
  std::vector<int> depth(map.name.size(), 1);
  const auto same = [&](int r, int c, int dr, int dc) {
    const int row = r + dr, column = c + dc;
    if (row < 0 || column < 0 || row >= map.rows || column >= map.columns) return 0;
    return map.name[at(row, column)] == map.name[at(r, c)] ? depth[at(row, column)] : 0;
  };
  for (int r = 0; r < map.rows; ++r)
    for (int c = 0; c < map.columns; ++c)
      depth[at(r, c)] = 1 + std::min(same(r, c, -1, 0), same(r, c, 0, -1));
  for (int r = map.rows - 1; r >= 0; --r)
    for (int c = map.columns - 1; c >= 0; --c)
      depth[at(r, c)] = std::min(depth[at(r, c)], 1 + std::min(same(r, c, 1, 0), same(r, c, 0, 1)));

  struct Area {
    int nodes = 0, depth = 0;
    std::size_t deepest = 0;
  };
  std::map<int, Area> areas;
  for (std::size_t i = 0; i < map.name.size(); ++i) {
    Area& area = areas[map.name[i]];
    ++area.nodes;
    if (depth[i] > area.depth) area = {area.nodes, depth[i], i};
  }
  for (const auto& [name, area] : areas)
    map.labels.push_back({namer.names().names_at(level)[static_cast<std::size_t>(name)],
                          nodes[area.deepest].a, nodes[area.deepest].b, area.nodes});
  std::stable_sort(map.labels.begin(), map.labels.end(),
                   [](const auto& x, const auto& y) { return x.nodes > y.nodes; });
  return map;
}

}  // namespace colorlib
