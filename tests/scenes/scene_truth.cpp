#include "tests/scenes/scene_truth.hpp"

#include <cmath>

namespace colorlib::scenes {
namespace {

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
  double cover = 0;
  int count = 0;
  std::vector<Xyz> ground_xyz;
  for (const Ground& ground : grounds) ground_xyz.push_back(xyz_d50(ground.reflectance));
  constexpr double step_mm = 0.1;
  for (double y = e.y - e.radius_y; y <= e.y + e.radius_y; y += step_mm)
    for (double x = e.x - e.radius_x; x <= e.x + e.radius_x; x += step_mm) {
      if (std::hypot((x - e.x) / e.radius_x, (y - e.y) / e.radius_y) > 1) continue;
      const std::size_t zone = ground_at(x, y);
      const SurfacePoint p = surface.at(x, y);
      const Xyz body = surface.xyz(zone, p.state), &bare = ground_xyz[zone];
      const double a = p.cover * p.grain, b = (1 - p.cover) * (grounds[zone].foil ? foil.at(x, y).base : 1.0);
      sum.x += a * body.x + b * bare.x;
      sum.y += a * body.y + b * bare.y;
      sum.z += a * body.z + b * bare.z;
      covered.x += a * body.x;
      covered.y += a * body.y;
      covered.z += a * body.z;
      cover += p.cover;
      ++count;
    }
  truth.as_seen = lab_of({sum.x / count, sum.y / count, sum.z / count}, white_d50);
  truth.covered_mean = lab_of({covered.x / cover, covered.y / cover, covered.z / cover}, white_d50);
  truth.coverage_share = cover / count;
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
