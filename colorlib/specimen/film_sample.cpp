#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/clear_places.hpp>
#include <colorlib/specimen/film_sample.hpp>
#include <colorlib/specimen/foreign_matter.hpp>
#include <colorlib/specimen/sheet_cells_internal.hpp>

namespace colorlib {

Result<FilmSample> sample_film(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                               const Calibration& calibration, const Region& region, RegionFrame frame,
                               const std::vector<Region>& others, const Lab& seen,
                               const Matrix3& seen_covariance, const FilmOptions& options,
                               const ClearPlaces* clear, const OwnColors* own) {
  const Cells cells(photo, placement, calibration, region, frame, options.cell_mm);
  const auto ground =
      bare_ground(photo, chart, placement, calibration, region, frame, others, options.ground);
  if (!ground) return fail(ground.error());
  std::vector<Cell> film = cells.within(region, clear, options.most_cells);
  if (own != nullptr) std::erase_if(film, [&](const Cell& cell) { return own->foreign(cell.lab); });
  if (film.size() < options.least_cells)
    return fail(
        ErrorCode::untrustworthy,
        fmt::format(
            "Computing the masstone of region '{}': only {} places of {:.1f} mm lie in it, {} are needed.",
            region.id, film.size(), options.cell_mm, options.least_cells),
        "Draw a larger region.");

  // From the cells' mean to the reading: the correction for a grown surface, which holds for the film's
  // colour.
  Vector3 mean_xyz{};
  for (const Cell& cell : film) {
    const Vector3 xyz = vector_from(xyz_from_lab(cell.lab, white_d50));
    for (std::size_t k = 0; k < 3; ++k) mean_xyz[k] += xyz[k] / static_cast<double>(film.size());
  }
  const Lab mean = lab_from_xyz(xyz_from(mean_xyz), white_d50);
  const WayFromGround way(film, xyz_from_lab(ground->color.lab, white_d50));
  std::sort(film.begin(), film.end(),
            [&](const Cell& a, const Cell& b) { return way.along(a) < way.along(b); });

  FilmSample sample;
  sample.seen = seen;
  sample.seen_covariance = seen_covariance;
  sample.ground = ground->color.lab;
  sample.ground_covariance = ground->color.covariance;
  sample.noise = ground->noise;
  // Glints and dust stand at the ends.
  const std::size_t trim = film.size() / 100, used = film.size() - 2 * trim;
  for (std::size_t s = 0; s < options.shares; ++s) {
    const std::size_t first = trim + used * s / options.shares, last = trim + used * (s + 1) / options.shares;
    Vector3 sum{};
    for (std::size_t i = first; i < last; ++i) {
      const Lab& lab = film[i].lab;
      const Vector3 xyz = vector_from(xyz_from_lab(
          {lab.l + seen.l - mean.l, lab.a + seen.a - mean.a, lab.b + seen.b - mean.b}, white_d50));
      for (std::size_t k = 0; k < 3; ++k) sum[k] += xyz[k] / static_cast<double>(last - first);
    }
    sample.shares.push_back(narrow_responses(xyz_from(sum)));
  }
  return sample;
}

}  // namespace colorlib
