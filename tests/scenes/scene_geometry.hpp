#pragma once
/// Slowly varying quantities of a scene, computed every few pixels and interpolated between.

#include <vector>

#include "tests/scenes/scene.hpp"

namespace colorlib::scenes {

/// Sheet place and irradiance per light (times vignetting) at the nodes of a grid of `step` px.
class NodeGrid {
 public:
  static constexpr int step = 8;
  struct Node {
    float x_mm = 0, y_mm = 0;
    float light[2] = {0, 0};
    float vignette = 1;
  };

  NodeGrid(const View& view, const std::vector<LightField>& fields, double vignetting);
  int columns() const { return columns_; }
  int rows() const { return rows_; }
  const Node& node(int row, int column) const {
    return nodes_[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
                  static_cast<std::size_t>(column)];
  }

 private:
  int rows_ = 0, columns_ = 0;
  std::vector<Node> nodes_;
};

/// Loss towards the frame's corner: 1 - vignetting (0.7 r^2 + 0.3 r^4), r = 1 at the corner.
double vignette_at(const ViewSettings& view, double vignetting, double x_px, double y_px);

/// Where the specimens' regions lie: as set, or at random in the windows, apart from one another. the seed
/// decides.
std::vector<EllipseShape> specimen_places(const SceneSettings& settings, const ChartDefinition& chart);

}  // namespace colorlib::scenes
