#pragma once
/// What the lighting field does not follow: smooth remains on the bare paper round a place.

#include <colorlib/chart/chart_definition.hpp>
#include <vector>

namespace colorlib {

class LightRest {
 public:
  /// How far remains are averaged, so that the paper's own grain is not taken for light, and how far round a place they count.
  static constexpr double grain_mm = 6, reach_mm = 30;

  LightRest() = default;
  /// `rest` is ln light at `places`, measured less fitted; `weights` are the fit's robust ones, in (0, 1]: a smudge on the paper
  /// stands alone and takes its neighbours' remains, a stretch of light that the field does not follow keeps its own.
  LightRest(std::vector<PointMm> places, const std::vector<double>& rest, const std::vector<double>& weights);
  /// Root mean square of the remains round a place, ln light; 0 without paper.
  double at(const PointMm& place) const;

 private:
  std::vector<PointMm> places_;
  std::vector<double> smooth_;
};

}  // namespace colorlib
