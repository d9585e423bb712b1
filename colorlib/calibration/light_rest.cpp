#include <algorithm>
#include <cmath>
#include <colorlib/calibration/light_rest_internal.hpp>

namespace colorlib {
namespace {

double kernel(const PointMm& a, const PointMm& b, double length_mm) {
  const double x = (a.x - b.x) / length_mm, y = (a.y - b.y) / length_mm;
  return std::exp(-(x * x + y * y) / 2);
}

struct Weighed {
  double value = 0, weight = 0;
};

/// The mean of what lies between the quartiles by weight.
double middle_mean(std::vector<Weighed> items) {
  std::sort(items.begin(), items.end(), [](const Weighed& a, const Weighed& b) { return a.value < b.value; });
  double all = 0, below = 0, sum = 0;
  for (const auto& item : items) all += item.weight;
  const double first = 0.25 * all, last = 0.75 * all;
  for (const auto& item : items) {
    sum += item.value * std::max(0.0, std::min(below + item.weight, last) - std::max(below, first));
    below += item.weight;
  }
  return sum / (last - first);
}

}  // namespace

LightRest::LightRest(std::vector<PointMm> places, const std::vector<double>& rest,
                     const std::vector<double>& weights)
    : places_(std::move(places)) {
  for (const PointMm& here : places_) {
    std::vector<Weighed> near;
    for (std::size_t j = 0; j < places_.size(); ++j)
      near.push_back({rest[j], weights[j] * weights[j] * kernel(here, places_[j], middle_mm)});
    smooth_.push_back(middle_mean(std::move(near)));
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

double LightRest::largest() const {
  double largest = 0;
  for (const double rest : smooth_) largest = std::max(largest, std::abs(rest));
  return largest;
}

}  // namespace colorlib
