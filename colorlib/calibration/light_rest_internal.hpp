#pragma once
/// What the lighting field does not follow: smooth remains on the bare paper round a place.

#include <colorlib/chart/chart_definition.hpp>
#include <vector>

namespace colorlib {

class LightRest {
 public:
  /// How far round a place the middle half of the remains is averaged, so that the paper's grain and smudges
  /// are not taken for light, and how far round a reading such means count.
  static constexpr double middle_mm = 9, reach_mm = 30;

  LightRest() = default;
  /// `rest` is ln light at `places`, measured less fitted; `weights` are the fit's robust ones, in (0, 1]:
  /// smudges on the paper stand apart and take their neighbours' remains, a stretch of light that the field
  /// does not follow keeps its own.
  LightRest(std::vector<PointMm> places, const std::vector<double>& rest, const std::vector<double>& weights);
  /// Root mean square of the remains round a place, ln light; 0 without paper.
  double at(const PointMm& place) const;
  /// The largest of the remains anywhere on the paper, ln light.
  double largest() const;

 private:
  std::vector<PointMm> places_;
  std::vector<double> smooth_;
};

}  // namespace colorlib
