#pragma once
/// How bright the neighbourhood of each place of the sheet is in the photo: what a camera's local tone
/// mapping goes by when it holds bright parts of a picture back and lifts dark ones.

#include <array>
#include <colorlib/chart/chart_definition.hpp>
#include <colorlib/chart/placement.hpp>
#include <colorlib/image/photo.hpp>
#include <vector>

namespace colorlib {

class Surroundings {
 public:
  /// Smoothed over Gaussians of this standard deviation, as shares of the photo's longer side.
  static constexpr std::array<double, 2> scales{0.03, 0.08};

  Surroundings() = default;
  /// Log of linear light, grey, smoothed within the photo at each scale; sampled sparsely, whatever the
  /// photo's size.
  Surroundings(const Photo& photo, const ChartDefinition& chart, const Placement& placement);

  bool empty() const { return values_.empty(); }
  /// ln of the neighbourhood's light at a place, less its mean over the sheet; one value a scale. Places off
  /// the sheet get the value at the sheet's edge.
  std::array<double, 2> at(const PointMm& place) const;

 private:
  static constexpr double cell_mm_ = 3;
  int rows_ = 0, columns_ = 0;
  std::vector<std::array<float, 2>> values_;
};

}  // namespace colorlib
