#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/reaction/frame_alignment.hpp>
#include <numbers>

namespace colorlib {
namespace {

constexpr double turn_unit = std::numbers::pi / 180;

/// How steep lightness is, L* a mm, after a mean over 3 x 3; NaN where it is not known.
ImageF edges_of(const RectifiedWindow& window) {
  const ImageF& lab = window.lab;
  ImageF smooth(lab.rows, lab.columns, 1), edges(lab.rows, lab.columns, 1);
  const auto inside = [&](int r, int c) { return r > 0 && c > 0 && r + 1 < lab.rows && c + 1 < lab.columns; };
  for (int r = 0; r < lab.rows; ++r)
    for (int c = 0; c < lab.columns; ++c) {
      float sum = 0;
      for (int i = -1; i <= 1; ++i)
        for (int k = -1; k <= 1; ++k)
          sum += *lab.at(std::clamp(r + i, 0, lab.rows - 1), std::clamp(c + k, 0, lab.columns - 1));
      *smooth.at(r, c) = sum / 9;
    }
  const float scale = static_cast<float>(0.5 * window.px_per_mm);
  for (int r = 0; r < lab.rows; ++r)
    for (int c = 0; c < lab.columns; ++c)
      *edges.at(r, c) = inside(r, c) ? scale * std::hypot(*smooth.at(r, c + 1) - *smooth.at(r, c - 1),
                                                          *smooth.at(r + 1, c) - *smooth.at(r - 1, c))
                                     : 0;
  return edges;
}

/// Half as fine: means of 2 x 2, a NaN spreads.
ImageF halved(const ImageF& image) {
  ImageF half(image.rows / 2, image.columns / 2, 1);
  for (int r = 0; r < half.rows; ++r)
    for (int c = 0; c < half.columns; ++c)
      *half.at(r, c) = 0.25f * (*image.at(2 * r, 2 * c) + *image.at(2 * r, 2 * c + 1) +
                                *image.at(2 * r + 1, 2 * c) + *image.at(2 * r + 1, 2 * c + 1));
  return half;
}

/// Value at a place between pixels; NaN outside.
float value_at(const ImageF& image, double x, double y) {
  if (!(x >= 0 && y >= 0 && x <= image.columns - 1 && y <= image.rows - 1)) return std::nanf("");
  const int c = std::min(static_cast<int>(x), image.columns - 2),
            r = std::min(static_cast<int>(y), image.rows - 2);
  const float tx = static_cast<float>(x - c), ty = static_cast<float>(y - r);
  const float *a = image.at(r, c), *b = image.at(r + 1, c);
  return (1 - ty) * ((1 - tx) * a[0] + tx * a[1]) + ty * ((1 - tx) * b[0] + tx * b[1]);
}

struct Level {
  ImageF first, moved;
  std::vector<int> rows, columns;  ///< of the compared pixels
};

/// One comparison: correlation, and the normal equations of the next step. Shift in pixels of the level, turn
/// in radians.
struct Comparison {
  double correlation = -1;
  Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
  Eigen::Vector3d right = Eigen::Vector3d::Zero();
  std::size_t pixels = 0;
};

Comparison compare(const Level& level, const Eigen::Vector3d& parameters) {
  const double cx = 0.5 * (level.first.columns - 1), cy = 0.5 * (level.first.rows - 1);
  const double cosine = std::cos(parameters[2]), sine = std::sin(parameters[2]);
  struct Sample {
    double first, moved;
    Eigen::Vector3d slope;
  };
  std::vector<Sample> samples;
  samples.reserve(level.rows.size());
  double mean_first = 0, mean_moved = 0;
  Eigen::Vector3d mean_slope = Eigen::Vector3d::Zero();
  for (std::size_t i = 0; i < level.rows.size(); ++i) {
    const double u = level.columns[i] - cx, v = level.rows[i] - cy;
    const double x = cx + cosine * u - sine * v + parameters[0],
                 y = cy + sine * u + cosine * v + parameters[1];
    const float here = value_at(level.moved, x, y);
    const float gx = 0.5f * (value_at(level.moved, x + 1, y) - value_at(level.moved, x - 1, y)),
                gy = 0.5f * (value_at(level.moved, x, y + 1) - value_at(level.moved, x, y - 1));
    if (!std::isfinite(here) || !std::isfinite(gx) || !std::isfinite(gy)) continue;
    Sample sample;
    sample.first = *level.first.at(level.rows[i], level.columns[i]);
    sample.moved = here;
    sample.slope = {gx, gy, gx * (-sine * u - cosine * v) + gy * (cosine * u - sine * v)};
    mean_first += sample.first;
    mean_moved += sample.moved;
    mean_slope += sample.slope;
    samples.push_back(sample);
  }
  Comparison result;
  result.pixels = samples.size();
  if (samples.size() < 30 || 2 * samples.size() < level.rows.size()) return result;
  const double n = static_cast<double>(samples.size());
  mean_first /= n, mean_moved /= n, mean_slope /= n;
  double ff = 0, mm = 0, fm = 0;
  for (const Sample& s : samples) {
    ff += (s.first - mean_first) * (s.first - mean_first);
    mm += (s.moved - mean_moved) * (s.moved - mean_moved);
    fm += (s.first - mean_first) * (s.moved - mean_moved);
  }
  if (!(ff > 0) || !(mm > 0)) return result;
  result.correlation = fm / std::sqrt(ff * mm);
  const double gain = std::sqrt(mm / ff);
  for (const Sample& s : samples) {
    const Eigen::Vector3d slope = s.slope - mean_slope;
    result.normal += slope * slope.transpose();
    result.right += slope * (gain * (s.first - mean_first) - (s.moved - mean_moved));
  }
  return result;
}

/// The best whole-pixel shift of the coarsest level.
Eigen::Vector3d coarse_shift(const Level& level, int reach) {
  Eigen::Vector3d best = Eigen::Vector3d::Zero();
  double highest = compare(level, best).correlation;
  for (int dy = -reach; dy <= reach; ++dy)
    for (int dx = -reach; dx <= reach; ++dx) {
      const Eigen::Vector3d shift(dx, dy, 0);
      const double correlation = compare(level, shift).correlation;
      // A shift must be worth it: ties and near ties stay at rest.
      if (correlation > highest + 0.02) highest = correlation, best = shift;
    }
  return best;
}

}  // namespace

PointMm moved_point(const Movement& movement, const PointMm& centre, const PointMm& p) {
  const double turn = movement.turn_deg * turn_unit, u = p.x - centre.x, v = p.y - centre.y;
  return {centre.x + std::cos(turn) * u - std::sin(turn) * v + movement.dx_mm,
          centre.y + std::sin(turn) * u + std::cos(turn) * v + movement.dy_mm};
}

Movement movement_between(const RectifiedWindow& first, const RectifiedWindow& moved,
                          const std::function<bool(const PointMm&)>& compared,
                          const AlignmentOptions& options) {
  Movement result;
  if (first.empty() || first.lab.rows != moved.lab.rows || first.lab.columns != moved.lab.columns)
    return result;
  std::vector<Level> levels;
  Level finest{edges_of(first), edges_of(moved), {}, {}};
  for (int k = 0; k < options.levels; ++k) {
    if (k > 0) {
      finest = {halved(levels.back().first), halved(levels.back().moved), {}, {}};
      if (std::min(finest.first.rows, finest.first.columns) < 12) break;
    }
    const double scale = first.px_per_mm / (1 << k);
    for (int r = 0; r < finest.first.rows; ++r)
      for (int c = 0; c < finest.first.columns; ++c)
        if (std::isfinite(*finest.first.at(r, c)) &&
            compared({first.place.x + (c + 0.5) / scale, first.place.y + (r + 0.5) / scale})) {
          finest.rows.push_back(r);
          finest.columns.push_back(c);
        }
    if (finest.rows.size() < 60) break;
    levels.push_back(finest);
  }
  if (levels.empty()) return result;

  double sum = 0, squares = 0;
  for (std::size_t i = 0; i < levels[0].rows.size(); ++i) {
    const double v = *levels[0].first.at(levels[0].rows[i], levels[0].columns[i]);
    sum += v, squares += v * v;
  }
  const double n = static_cast<double>(levels[0].rows.size());
  result.contrast = std::sqrt(std::max(0.0, squares / n - sum * sum / (n * n)));
  result.quality = result.quality_unmoved = compare(levels[0], Eigen::Vector3d::Zero()).correlation;
  if (result.contrast < options.least_contrast) return result;

  const std::size_t coarsest = levels.size() - 1;
  const double coarse_px = first.px_per_mm / (1 << coarsest);
  Eigen::Vector3d parameters = coarse_shift(
      levels[coarsest], std::max(1, static_cast<int>(std::ceil(options.farthest_mm * coarse_px))));
  for (std::size_t k = levels.size(); k-- > 0;) {
    Comparison now = compare(levels[k], parameters);
    for (int i = 0; i < options.most_iterations && now.pixels >= 30; ++i) {
      const Eigen::Vector3d step =
          (now.normal + 1e-9 * now.normal.trace() * Eigen::Matrix3d::Identity()).ldlt().solve(now.right);
      if (!step.allFinite()) break;
      bool better = false;
      for (double share = 1; share > 0.05; share *= 0.5) {
        const Comparison next = compare(levels[k], parameters + share * step);
        if (!(next.correlation > now.correlation)) continue;
        parameters += share * step;
        now = next;
        better = true;
        break;
      }
      if (!better || step.head<2>().norm() < 0.005) {
        result.converged = k == 0;
        break;
      }
    }
    if (k > 0) parameters.head<2>() *= 2;
  }
  result.dx_mm = parameters[0] / first.px_per_mm;
  result.dy_mm = parameters[1] / first.px_per_mm;
  result.turn_deg = parameters[2] / turn_unit;
  result.quality = compare(levels[0], parameters).correlation;
  if (std::hypot(result.dx_mm, result.dy_mm) > 1.5 * options.farthest_mm ||
      result.quality <= result.quality_unmoved) {
    result.dx_mm = result.dy_mm = result.turn_deg = 0;
    result.quality = result.quality_unmoved;
  }
  return result;
}

}  // namespace colorlib
