#include "tests/scenes/scene_truth.hpp"

#include <algorithm>
#include <cmath>
#include <colorlib/specimen/narrow_responses.hpp>
#include <map>

namespace colorlib::scenes {
namespace {

/// A cell of the region: the sums over its points.
struct CellSum {
  Xyz seen;
  double thickness = 0, foreign = 0;
  int points = 0;
};

Xyz mean_of(const CellSum& cell) {
  return {cell.seen.x / cell.points, cell.seen.y / cell.points, cell.seen.z / cell.points};
}

/// Mean XYZ of the tenth of the cells that are thickest or, without any thickness, least like the ground.
Xyz thickest_tenth(const std::vector<CellSum>& cells, const Xyz& ground, bool thin) {
  const auto middle = [](const std::vector<const CellSum*>& some) {
    CellSum sum;
    for (const CellSum* cell : some) {
      const Xyz mean = mean_of(*cell);
      sum.seen = {sum.seen.x + mean.x, sum.seen.y + mean.y, sum.seen.z + mean.z};
      ++sum.points;
    }
    return mean_of(sum);
  };
  std::vector<const CellSum*> order;
  for (const CellSum& cell : cells) order.push_back(&cell);
  const Vector3 mean = narrow_responses(middle(order)), bare = narrow_responses(ground);
  const auto rank = [&](const CellSum& cell) {
    if (thin) return cell.thickness / cell.points;
    const Vector3 own = narrow_responses(mean_of(cell));
    double along = 0;
    for (std::size_t k = 0; k < 3; ++k)
      along += std::cbrt(own[k]) * (std::cbrt(mean[k]) - std::cbrt(bare[k]));
    return along;
  };
  std::sort(order.begin(), order.end(),
            [&](const CellSum* one, const CellSum* other) { return rank(*one) > rank(*other); });
  order.resize(std::max<std::size_t>(1, order.size() / 10));
  return middle(order);
}

SpecimenTruth truth_of(const SpecimenSurface& surface, const EllipseShape& e, const std::string& id,
                       const std::vector<Ground>& grounds, const FoilSurface& foil,
                       const std::function<std::size_t(double, double)>& ground_at) {
  const SpecimenSettings& s = surface.settings();
  SpecimenTruth truth;
  truth.id = truth.region.id = id;
  truth.kind = truth.region.kind = s.kind;
  truth.region.shape = e;
  truth.height_mm = s.height_mm;
  truth.slope_deg = s.slope_deg;
  truth.pigment_family = s.pigment.family;
  Xyz sum, covered;
  double cover = 0, weight = 0, foreign = 0;
  int count = 0;
  std::vector<Xyz> ground_xyz;
  for (const Ground& ground : grounds) ground_xyz.push_back(xyz_d50(ground.reflectance));
  constexpr double step_mm = 0.1, cell_mm = 0.4, least_foreign = 0.1;
  std::map<std::pair<int, int>, CellSum> cells;
  for (double y = e.y - e.radius_y; y <= e.y + e.radius_y; y += step_mm)
    for (double x = e.x - e.radius_x; x <= e.x + e.radius_x; x += step_mm) {
      if (std::hypot((x - e.x) / e.radius_x, (y - e.y) / e.radius_y) > 1) continue;
      const std::size_t zone = ground_at(x, y);
      const SurfacePoint p = surface.at(x, y);
      const Xyz body = surface.xyz(zone, p.state), &bare = ground_xyz[zone];
      const Xyz& other = surface.foreign_xyz(p.smeared);
      const double own = 1 - p.foreign, a = own * p.cover * p.grain,
                   b = own * (1 - p.cover) * (grounds[zone].foil ? foil.at(x, y).base : 1.0);
      const Xyz seen{a * body.x + b * bare.x + p.foreign * other.x,
                     a * body.y + b * bare.y + p.foreign * other.y,
                     a * body.z + b * bare.z + p.foreign * other.z};
      sum = {sum.x + seen.x, sum.y + seen.y, sum.z + seen.z};
      CellSum& cell = cells[{static_cast<int>((x - e.x + e.radius_x) / cell_mm),
                             static_cast<int>((y - e.y + e.radius_y) / cell_mm)}];
      cell.seen = {cell.seen.x + seen.x, cell.seen.y + seen.y, cell.seen.z + seen.z};
      cell.thickness += p.cover * std::exp(p.state * surface.log_step());
      cell.foreign += p.foreign;
      ++cell.points;
      covered.x += a * body.x;
      covered.y += a * body.y;
      covered.z += a * body.z;
      cover += own * p.cover;
      weight += p.cover;
      foreign += p.foreign;
      ++count;
    }
  truth.as_seen = lab_of({sum.x / count, sum.y / count, sum.z / count}, white_d50);
  truth.covered_mean = lab_of({covered.x / cover, covered.y / cover, covered.z / cover}, white_d50);
  truth.coverage_share = weight / count;
  truth.foreign_share = foreign / count;
  std::vector<CellSum> whole;
  for (const auto& [place, cell] : cells)
    if (cell.points >= 12 && cell.foreign < least_foreign) whole.push_back(cell);
  truth.thickest_tenth =
      lab_of(thickest_tenth(whole, ground_xyz[ground_at(e.x, e.y)], s.thickness > 0), white_d50);
  if (s.thickness > 0) truth.masstone = s.pigment.masstone_lab;
  truth.contrast_ratio = surface.contrast_ratio(e);
  return truth;
}

}  // namespace

std::vector<SpecimenTruth> specimen_truths(const std::vector<SpecimenSurface>& specimens,
                                           const std::vector<Ground>& grounds, const FoilSurface& foil,
                                           const std::function<std::size_t(double, double)>& ground_at) {
  std::vector<SpecimenTruth> truths;
  for (const SpecimenSurface& surface : specimens) {
    const EllipseShape& e = surface.place();
    const std::string& id = surface.settings().id;
    if (surface.settings().print_pattern) {
      // Beside the bare spot of the stem, on both sides where the grounds differ, and the whole print for
      // those who find it themselves.
      const bool split = ground_at(e.x - 0.8 * e.radius_x, e.y) != ground_at(e.x + 0.8 * e.radius_x, e.y);
      const EllipseShape right{e.x + 0.62 * e.radius_x, e.y, 0.3 * e.radius_x, 0.3 * e.radius_y};
      EllipseShape left = right;
      left.x = e.x - 0.62 * e.radius_x;
      if (split) truths.push_back(truth_of(surface, left, id + "-left", grounds, foil, ground_at));
      truths.push_back(truth_of(surface, right, split ? id + "-right" : id, grounds, foil, ground_at));
      truths.push_back(truth_of(surface, e, id + "-whole", grounds, foil, ground_at));
      continue;
    }
    if (ground_at(e.x - 0.8 * e.radius_x, e.y) == ground_at(e.x + 0.8 * e.radius_x, e.y)) {
      truths.push_back(truth_of(surface, e, id, grounds, foil, ground_at));
      continue;
    }
    // The border runs through the middle: an ellipse on each side of it, clear of it by a sixth of the
    // radius.
    for (const int side : {-1, 1}) {
      EllipseShape half = e;
      half.radius_x = e.radius_x * 5 / 12;
      half.radius_y = e.radius_y * 0.75;
      half.x = e.x + side * (e.radius_x / 6 + half.radius_x);
      truths.push_back(
          truth_of(surface, half, id + (side < 0 ? "-left" : "-right"), grounds, foil, ground_at));
    }
  }
  return truths;
}

}  // namespace colorlib::scenes
