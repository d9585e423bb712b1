#include <cmath>
#include <colorlib/calibration/light_rest_internal.hpp>

namespace colorlib {
namespace {

double kernel(const PointMm& a, const PointMm& b, double length_mm) {
  const double x = (a.x - b.x) / length_mm, y = (a.y - b.y) / length_mm;
  return std::exp(-(x * x + y * y) / 2);
}

}  // namespace

LightRest::LightRest(std::vector<PointMm> places, const std::vector<double>& rest, const std::vector<double>& weights)
    : places_(std::move(places)) {
  for (const PointMm& here : places_) {
    double sum = 0, total = 0;
    for (std::size_t j = 0; j < places_.size(); ++j) {
      const double k = weights[j] * weights[j] * kernel(here, places_[j], grain_mm);
      sum += k * rest[j];
      total += k;
    }
    smooth_.push_back(sum / total);
  }
}

double LightRest::at(const PointMm& place) const {
  double sum = 0, total = 1e-12;
  for (std::size_t j = 0; j < places_.size(); ++j) {
    const double k = kernel(place, places_[j], reach_mm);
    sum += k * smooth_[j] * smooth_[j];
    total += k;
  }
  return std::sqrt(sum / total);
}

}  // namespace colorlib
