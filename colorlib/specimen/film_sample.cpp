#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/chromatic_adaptation.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>
#include <colorlib/specimen/film_sample.hpp>
#include <optional>

namespace colorlib {
namespace {

/// A cell of the photo on the sheet: its pixels and their mean colour.
struct Cell {
  std::vector<SheetPixel> pixels;
  Lab lab;
  Vector3 root{};  ///< cube roots of the responses
};

/// Everything needed to turn a place in the region's frame into pixels.
class Cells {
 public:
  Cells(const Photo& photo, const Placement& placement, const Calibration& calibration, RegionFrame frame, double step)
      : photo_(photo), placement_(placement), calibration_(calibration), frame_(frame), step_(step) {}

  PointMm mm(double x, double y) const {
    return frame_ == RegionFrame::chart_mm ? PointMm{x, y} : placement_.mm_from_px({x, y});
  }
  /// The cell about (x, y); none when it leaves the photo.
  std::optional<Cell> at(double x, double y) const {
    const PointPx middle = frame_ == RegionFrame::chart_mm ? placement_.px_from_mm({x, y}) : PointPx{x, y};
    const double px_step = frame_ == RegionFrame::chart_mm ? step_ * placement_.px_per_mm({x, y}) : step_;
    const int side = std::clamp(static_cast<int>(px_step), 1, 3);
    Cell cell;
    Vector3 sum{};
    for (int i = 0; i < side; ++i)
      for (int j = 0; j < side; ++j) {
        const double dx = ((i + 0.5) / side - 0.5) * px_step, dy = ((j + 0.5) / side - 0.5) * px_step;
        const double column = std::round(middle.x + dx), row = std::round(middle.y + dy);
        if (!(column >= 0 && row >= 0 && column < photo_.width_px() && row < photo_.height_px())) return std::nullopt;
        const SheetPixel pixel{placement_.mm_from_px({column, row}),
                               photo_.encoded_at(static_cast<int>(column), static_cast<int>(row))};
        const Vector3 xyz = vector_from(calibration_.xyz_from_pixel(pixel));
        for (std::size_t k = 0; k < 3; ++k) sum[k] += xyz[k] / (side * side);
        cell.pixels.push_back(pixel);
      }
    cell.lab = lab_from_xyz(xyz_from(sum), white_d50);
    const Vector3 responses = narrow_responses(xyz_from(sum));
    for (std::size_t k = 0; k < 3; ++k) cell.root[k] = std::cbrt(std::max(responses[k], 1e-4));
    return cell;
  }

 private:
  const Photo& photo_;
  const Placement& placement_;
  const Calibration& calibration_;
  RegionFrame frame_;
  double step_;
};

/// The backing, else the opening, that holds the place.
std::optional<RectangleMm> place_around(const ChartDefinition& chart, const PointMm& p) {
  for (const auto& backing : chart.backings)
    if (backing.place.contains(p)) return backing.place;
  for (const auto& window : chart.windows)
    if (window.place.contains(p)) return window.place;
  return std::nullopt;
}

/// Cells of the ring round the region that no region covers.
std::vector<Cell> ring_cells(const Cells& cells, const ChartDefinition& chart, const Region& region,
                             const std::vector<Region>& others, double step, double ring) {
  constexpr double edge_gap_mm = 2;
  const auto [left, top, right, bottom] = region.bounds();
  const PointMm centre = cells.mm((left + right) / 2, (top + bottom) / 2);
  const auto place = place_around(chart, centre);
  // A ring of some ten thousand cells at most: wider steps for larger regions.
  const double area = (right - left + 2 * ring) * (bottom - top + 2 * ring);
  const double stride = std::max(step, std::sqrt(area / 6000));
  const auto near = [&](const Region& other, double x, double y) {
    const auto [l, t, r, b] = other.bounds();
    const double rx = (r - l) / 2 * 1.15, ry = (b - t) / 2 * 1.15;
    return other.contains(x, y) || std::hypot((x - (l + r) / 2) / rx, (y - (t + b) / 2) / ry) < 1;
  };
  std::vector<Cell> found;
  for (double y = top - ring; y < bottom + ring; y += stride)
    for (double x = left - ring; x < right + ring; x += stride) {
      const PointMm p = cells.mm(x, y);
      if (place && !(p.x > place->x + edge_gap_mm && p.x < place->x + place->width - edge_gap_mm &&
                     p.y > place->y + edge_gap_mm && p.y < place->y + place->height - edge_gap_mm))
        continue;
      if (near(region, x, y) ||
          std::any_of(others.begin(), others.end(), [&](const Region& other) { return near(other, x, y); }))
        continue;
      if (auto cell = cells.at(x, y)) found.push_back(std::move(*cell));
    }
  return found;
}

struct Ground {
  CalibratedColor color;
  Vector3 noise{};
};

/// The commonest colour of the ring.
Result<Ground> ground_in(const std::vector<Cell>& ring, const Calibration& calibration, const std::string& id,
                         const FilmOptions& options) {
  const auto no_ground = [&] {
    return fail(ErrorCode::untrustworthy,
                fmt::format("Computing the masstone of region '{}': no bare ground is seen beside it, and without the ground a "
                            "thin layer's own colour cannot be told.", id),
                "Leave some bare ground of the same kind round the deposit.");
  };
  if (ring.size() < options.least_cells) return no_ground();
  const std::size_t stride = std::max<std::size_t>(1, ring.size() / 400);
  std::size_t best = 0, most = 0;
  for (std::size_t i = 0; i < ring.size(); i += stride) {
    std::size_t count = 0;
    for (std::size_t j = 0; j < ring.size(); j += stride)
      count += difference_cie76(ring[i].lab, ring[j].lab) < options.ground_spread;
    if (count > most) most = count, best = i;
  }
  const Lab commonest = ring[best].lab;
  // Noise is larger in dark colours.
  const double darker = 1 + std::max(0.0, 40 - commonest.l) / 30;
  std::vector<double> distances;
  for (const Cell& cell : ring) distances.push_back(difference_cie76(cell.lab, commonest));
  const auto middle = distances.begin() + static_cast<std::ptrdiff_t>(distances.size() / 2);
  std::nth_element(distances.begin(), middle, distances.end());
  if (*middle > darker * options.most_unevenness)
    return fail(ErrorCode::untrustworthy,
                fmt::format("Computing the masstone of region '{}': the ground beside it is not one matt, evenly lit colour (half "
                            "of it is more than {:.1f} Lab units off). On foil, which mirrors its surroundings, a thin layer's "
                            "own colour cannot be told.", id, *middle),
                "Move the deposit to matt card, or better to the sheet with a black and a white ground.");
  std::vector<const Cell*> bare;
  std::vector<SheetPixel> pixels;
  for (const Cell& cell : ring)
    if (difference_cie76(cell.lab, commonest) < darker * options.ground_spread) {
      bare.push_back(&cell);
      if (pixels.size() < 6000) pixels.insert(pixels.end(), cell.pixels.begin(), cell.pixels.end());
    }
  if (bare.size() < options.least_cells) return no_ground();
  Ground ground;
  ground.color = calibration.color_of(pixels);
  Vector3 mean{}, squares{};
  for (const Cell* cell : bare)
    for (std::size_t k = 0; k < 3; ++k) {
      mean[k] += cell->root[k] / static_cast<double>(bare.size());
      squares[k] += cell->root[k] * cell->root[k] / static_cast<double>(bare.size());
    }
  for (std::size_t k = 0; k < 3; ++k) ground.noise[k] = std::sqrt(std::max(squares[k] - mean[k] * mean[k], 0.0));
  return ground;
}

std::vector<Cell> film_cells(const Cells& cells, const Region& region, double step) {
  const auto [left, top, right, bottom] = region.bounds();
  const double stride = std::max(step, std::sqrt((right - left) * (bottom - top) / 5000));
  std::vector<Cell> found;
  for (double y = top + stride / 2; y < bottom; y += stride)
    for (double x = left + stride / 2; x < right; x += stride)
      if (region.contains(x, y))
        if (auto cell = cells.at(x, y)) found.push_back(std::move(*cell));
  return found;
}

}  // namespace

Vector3 narrow_responses(const Xyz& xyz) {
  const Matrix3& cones = cone_response_matrix(AdaptationMethod::bradford);
  const Vector3 white = cones * vector_from(white_d50), own = cones * vector_from(xyz);
  return {own[0] / white[0], own[1] / white[1], own[2] / white[2]};
}

Xyz xyz_from_narrow(const Vector3& responses) {
  const Matrix3& cones = cone_response_matrix(AdaptationMethod::bradford);
  const Vector3 white = cones * vector_from(white_d50);
  return xyz_from(inverse(cones) * Vector3{responses[0] * white[0], responses[1] * white[1], responses[2] * white[2]});
}

Result<FilmSample> sample_film(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                               const Calibration& calibration, const Region& region, RegionFrame frame,
                               const std::vector<Region>& others, const Lab& seen, const Matrix3& seen_covariance,
                               const FilmOptions& options) {
  const auto [left, top, right, bottom] = region.bounds();
  const PointMm centre = frame == RegionFrame::chart_mm
                             ? PointMm{(left + right) / 2, (top + bottom) / 2}
                             : placement.mm_from_px({(left + right) / 2, (top + bottom) / 2});
  const double scale = frame == RegionFrame::chart_mm ? 1 : placement.px_per_mm(centre);
  const double step = options.cell_mm * scale;
  const Cells cells(photo, placement, calibration, frame, step);
  const auto ground =
      ground_in(ring_cells(cells, chart, region, others, step, options.ring_mm * scale), calibration, region.id, options);
  if (!ground) return fail(ground.error());
  std::vector<Cell> film = film_cells(cells, region, step);
  if (film.size() < options.least_cells)
    return fail(ErrorCode::untrustworthy,
                fmt::format("Computing the masstone of region '{}': only {} places of {:.1f} mm lie in it, {} are needed.",
                            region.id, film.size(), options.cell_mm, options.least_cells),
                "Draw a larger region.");

  // From the cells' mean to the reading: the correction for a grown surface, which holds for the film's colour.
  Vector3 mean_xyz{}, mean_root{};
  for (const Cell& cell : film) {
    const Vector3 xyz = vector_from(xyz_from_lab(cell.lab, white_d50));
    for (std::size_t k = 0; k < 3; ++k) {
      mean_xyz[k] += xyz[k] / static_cast<double>(film.size());
      mean_root[k] += cell.root[k] / static_cast<double>(film.size());
    }
  }
  const Lab mean = lab_from_xyz(xyz_from(mean_xyz), white_d50);
  const Vector3 ground_responses = narrow_responses(xyz_from_lab(ground->color.lab, white_d50));
  Vector3 away{};
  for (std::size_t k = 0; k < 3; ++k) away[k] = mean_root[k] - std::cbrt(std::max(ground_responses[k], 1e-4));
  const auto likeness = [&](const Cell& cell) {
    return cell.root[0] * away[0] + cell.root[1] * away[1] + cell.root[2] * away[2];
  };
  std::sort(film.begin(), film.end(), [&](const Cell& a, const Cell& b) { return likeness(a) < likeness(b); });

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
      const Vector3 xyz = vector_from(
          xyz_from_lab({lab.l + seen.l - mean.l, lab.a + seen.a - mean.a, lab.b + seen.b - mean.b}, white_d50));
      for (std::size_t k = 0; k < 3; ++k) sum[k] += xyz[k] / static_cast<double>(last - first);
    }
    sample.shares.push_back(narrow_responses(xyz_from(sum)));
  }
  return sample;
}

}  // namespace colorlib
