#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/chart/sheet_flatness.hpp>

namespace colorlib {
namespace {

constexpr double usual_radial = 0.035;  // lenses after the camera's own correction stay within 3 %
constexpr std::size_t least_spots = 4;  // of each direction around a place

/// A border's displacement along its outward direction, sheet mm.
struct Displaced {
  PointMm at, outward;
  double mm = 0;
};

std::vector<Displaced> displacements(const RefinedPlacement& refined) {
  std::vector<Displaced> all;
  for (std::size_t i = 0; i < refined.edges.size(); ++i) {
    const SeenEdge& e = refined.edges[i];
    const auto j = refined.fit.placement.jacobian(e.spot.at);
    const double across = e.observation.normal.x * (j[0] * e.spot.outward.x + j[1] * e.spot.outward.y) +
                          e.observation.normal.y * (j[2] * e.spot.outward.x + j[3] * e.spot.outward.y);
    const bool points = std::fabs(across) < 1e-9;  // a marker's corner, not a border
    all.push_back({e.spot.at, e.spot.outward, points ? 0 : refined.fit.residuals_px[i] / across});
  }
  return all;
}

/// Smooth displacement at a place; false when too little is near. Opposite sides are weighed alike, so that
/// dot gain, which moves them apart, cancels.
bool smooth_at(const std::vector<Displaced>& all, const PointMm& place, double neighbourhood_mm,
               PointMm& shift) {
  std::vector<double> left, right, up, down;
  for (const Displaced& d : all) {
    if (std::hypot(d.at.x - place.x, d.at.y - place.y) > neighbourhood_mm) continue;
    if (d.outward.x < 0) left.push_back(-d.mm);
    if (d.outward.x > 0) right.push_back(d.mm);
    if (d.outward.y < 0) up.push_back(-d.mm);
    if (d.outward.y > 0) down.push_back(d.mm);
  }
  if (left.size() + right.size() < least_spots || up.size() + down.size() < least_spots) return false;
  if (left.empty() || right.empty() || up.empty() || down.empty()) return false;
  shift = {0.5 * (median(left) + median(right)), 0.5 * (median(up) + median(down))};
  return true;
}

/// See flatness_mm, for one placement.
double smooth_rms_mm(const ChartDefinition& chart, const RefinedPlacement& refined, double neighbourhood_mm) {
  const std::vector<Displaced> all = displacements(refined);
  std::vector<PointMm> places;
  for (const Patch& p : chart.patches) places.push_back(p.place.centre());
  for (const Marker& m : chart.markers) places.push_back({m.x_mm + m.side_mm / 2, m.y_mm + m.side_mm / 2});
  double sum = 0;
  int count = 0;
  PointMm shift;
  for (const PointMm& place : places) {
    if (!smooth_at(all, place, neighbourhood_mm, shift)) continue;
    sum += shift.x * shift.x + shift.y * shift.y;
    ++count;
  }
  return count > 0 ? std::sqrt(sum / count) : 0;
}

}  // namespace

double flatness_mm(const ChartDefinition& chart, const RefinedPlacement& refined, double neighbourhood_mm) {
  if (std::fabs(refined.fit.placement.radial) <= usual_radial)
    return smooth_rms_mm(chart, refined, neighbourhood_mm);
  // A curl along the camera's view looks much like a distorting lens: no lens is believed to distort that
  // much.
  PlacementFitOptions options;
  options.radial_mean = std::copysign(usual_radial, refined.fit.placement.radial);
  options.radial_sd = 1e-4;
  std::vector<EdgeObservation> observations;
  for (const SeenEdge& e : refined.edges) observations.push_back(e.observation);
  Placement start = refined.fit.placement;
  start.radial = options.radial_mean;
  RefinedPlacement held = refined;
  if (auto fit = fit_placement(start, observations, options)) held.fit = std::move(*fit);
  return smooth_rms_mm(chart, held, neighbourhood_mm);
}

double rough_rms_px(const RefinedPlacement& refined, double neighbourhood_mm) {
  const std::vector<Displaced> all = displacements(refined);
  double sum = 0;
  int count = 0;
  PointMm shift;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (refined.fit.weights[i] <= 0) continue;
    double mm = all[i].mm;
    if (smooth_at(all, all[i].at, neighbourhood_mm, shift))
      mm -= all[i].outward.x * shift.x + all[i].outward.y * shift.y;
    const double scale = refined.fit.placement.px_per_mm(all[i].at);
    sum += mm * mm * scale * scale;
    ++count;
  }
  return count > 0 ? std::sqrt(sum / count) : 0;
}

}  // namespace colorlib
