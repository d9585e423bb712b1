#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/reaction/frame_alignment.hpp>
#include <numbers>

namespace colorlib {
namespace {

constexpr double turn_unit = std::numbers::pi / 180;
/// Edges that agree so well, and whose first step is so short, have not moved: a series counts less than 0.25
/// mm as placing error.
constexpr double plainly_still = 0.75, still_mm = 0.12, still_deg = 0.7;

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

constexpr std::size_t least_compared = 30;

/// One level of the pyramid of the first window.
struct Still {
  ImageF picture;
  std::vector<int> rows, columns;  ///< of the compared pixels
  std::vector<float> values;
};

/// One comparison: correlation, and when asked for the normal equations of the next step. Shift in pixels of
/// the level, turn in radians.
struct Comparison {
  double correlation = -1;
  Eigen::Matrix3d normal = Eigen::Matrix3d::Zero();
  Eigen::Vector3d right = Eigen::Vector3d::Zero();
  std::size_t pixels = 0;
};

/// The correlation alone.
Comparison correlate(const Still& still, const ImageF& moved, const Eigen::Vector3d& parameters) {
  const double cx = 0.5 * (still.picture.columns - 1), cy = 0.5 * (still.picture.rows - 1);
  const double cosine = std::cos(parameters[2]), sine = std::sin(parameters[2]);
  double f = 0, m = 0, ff = 0, mm = 0, fm = 0;
  std::size_t count = 0;
  for (std::size_t i = 0; i < still.rows.size(); ++i) {
    const double u = still.columns[i] - cx, v = still.rows[i] - cy;
    const double here = value_at(moved, cx + cosine * u - sine * v + parameters[0],
                                 cy + sine * u + cosine * v + parameters[1]);
    if (!std::isfinite(here)) continue;
    const double there = still.values[i];
    ++count;
    f += there, m += here, ff += there * there, mm += here * here, fm += there * here;
  }
  Comparison result;
  result.pixels = count;
  if (count < least_compared || 2 * count < still.rows.size()) return result;
  const double n = static_cast<double>(count);
  ff -= f * f / n, mm -= m * m / n, fm -= f * m / n;
  if (ff > 0 && mm > 0) result.correlation = fm / std::sqrt(ff * mm);
  return result;
}

Comparison compare(const Still& still, const ImageF& moved, const Eigen::Vector3d& parameters) {
  const double cx = 0.5 * (still.picture.columns - 1), cy = 0.5 * (still.picture.rows - 1);
  const double cosine = std::cos(parameters[2]), sine = std::sin(parameters[2]);
  struct Sample {
    double first, moved;
    Eigen::Vector3d slope;
  };
  std::vector<Sample> samples;
  samples.reserve(still.rows.size());
  double mean_first = 0, mean_moved = 0;
  Eigen::Vector3d mean_slope = Eigen::Vector3d::Zero();
  for (std::size_t i = 0; i < still.rows.size(); ++i) {
    const double u = still.columns[i] - cx, v = still.rows[i] - cy;
    const double x = cx + cosine * u - sine * v + parameters[0],
                 y = cy + sine * u + cosine * v + parameters[1];
    const float here = value_at(moved, x, y);
    const float gx = 0.5f * (value_at(moved, x + 1, y) - value_at(moved, x - 1, y)),
                gy = 0.5f * (value_at(moved, x, y + 1) - value_at(moved, x, y - 1));
    if (!std::isfinite(here) || !std::isfinite(gx) || !std::isfinite(gy)) continue;
    Sample sample;
    sample.first = still.values[i];
    sample.moved = here;
    sample.slope = {gx, gy, gx * (-sine * u - cosine * v) + gy * (cosine * u - sine * v)};
    mean_first += sample.first;
    mean_moved += sample.moved;
    mean_slope += sample.slope;
    samples.push_back(sample);
  }
  Comparison result;
  result.pixels = samples.size();
  if (samples.size() < least_compared || 2 * samples.size() < still.rows.size()) return result;
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
Eigen::Vector3d coarse_shift(const Still& still, const ImageF& moved, int reach) {
  Eigen::Vector3d best = Eigen::Vector3d::Zero();
  double highest = correlate(still, moved, best).correlation;
  for (int dy = -reach; dy <= reach; ++dy)
    for (int dx = -reach; dx <= reach; ++dx) {
      const Eigen::Vector3d shift(dx, dy, 0);
      const double correlation = correlate(still, moved, shift).correlation;
      // A shift must be worth it: ties and near ties stay at rest.
      if (correlation > highest + 0.02) highest = correlation, best = shift;
    }
  return best;
}

Eigen::Vector3d next_step(const Comparison& now) {
  return (now.normal + 1e-9 * now.normal.trace() * Eigen::Matrix3d::Identity()).ldlt().solve(now.right);
}

}  // namespace

PointMm moved_point(const Movement& movement, const PointMm& centre, const PointMm& p) {
  const double turn = movement.turn_deg * turn_unit, u = p.x - centre.x, v = p.y - centre.y;
  return {centre.x + std::cos(turn) * u - std::sin(turn) * v + movement.dx_mm,
          centre.y + std::sin(turn) * u + std::cos(turn) * v + movement.dy_mm};
}

struct MovementFinder::State {
  AlignmentOptions options;
  RectangleMm place;
  double px_per_mm = 1, contrast = 0;
  int rows = 0, columns = 0;
  std::vector<Still> levels;  ///< the finest first

  std::optional<Movement> if_still(const std::vector<ImageF>& pictures, double quality_unmoved) const;
};

MovementFinder::MovementFinder(const RectifiedWindow& first,
                               const std::function<bool(const PointMm&)>& compared,
                               const AlignmentOptions& options)
    : state_(std::make_shared<State>()) {
  State& s = *state_;
  s.options = options;
  s.place = first.place;
  s.px_per_mm = first.px_per_mm;
  s.rows = first.lab.rows, s.columns = first.lab.columns;
  if (first.empty()) return;
  for (int k = 0; k < options.levels; ++k) {
    Still still;
    still.picture = k == 0 ? edges_of(first) : halved(s.levels.back().picture);
    if (k > 0 && std::min(still.picture.rows, still.picture.columns) < 12) break;
    const double scale = first.px_per_mm / (1 << k);
    for (int r = 0; r < still.picture.rows; ++r)
      for (int c = 0; c < still.picture.columns; ++c)
        if (const float value = *still.picture.at(r, c);
            std::isfinite(value) &&
            compared({first.place.x + (c + 0.5) / scale, first.place.y + (r + 0.5) / scale})) {
          still.rows.push_back(r);
          still.columns.push_back(c);
          still.values.push_back(value);
        }
    if (still.rows.size() < 60) break;
    s.levels.push_back(std::move(still));
  }
  if (s.levels.empty()) return;
  double sum = 0, squares = 0;
  for (const float v : s.levels[0].values) sum += v, squares += static_cast<double>(v) * v;
  const double n = static_cast<double>(s.levels[0].values.size());
  s.contrast = std::sqrt(std::max(0.0, squares / n - sum * sum / (n * n)));
}

double MovementFinder::contrast() const { return state_ ? state_->contrast : 0; }

/// One step at about 2 px a mm says how little it moved.
std::optional<Movement> MovementFinder::State::if_still(const std::vector<ImageF>& pictures,
                                                        double quality_unmoved) const {
  if (quality_unmoved < plainly_still) return std::nullopt;
  const std::size_t level = px_per_mm > 3 && levels.size() > 1 ? 1 : 0;
  const double level_px_per_mm = px_per_mm / (1 << level);
  const Comparison at_rest = compare(levels[level], pictures[level], Eigen::Vector3d::Zero());
  const Eigen::Vector3d step = next_step(at_rest);
  if (at_rest.pixels < least_compared || !step.allFinite() ||
      step.head<2>().norm() >= still_mm * level_px_per_mm || std::abs(step[2]) >= still_deg * turn_unit)
    return std::nullopt;
  Movement result;
  result.contrast = contrast;
  result.quality = result.quality_unmoved = quality_unmoved;
  result.dx_mm = step[0] / level_px_per_mm, result.dy_mm = step[1] / level_px_per_mm;
  result.turn_deg = step[2] / turn_unit;
  result.converged = true;
  return result;
}

std::optional<Movement> MovementFinder::if_still(const RectifiedWindow& moved) const {
  if (!state_ || state_->levels.empty() || moved.lab.rows != state_->rows ||
      moved.lab.columns != state_->columns)
    return std::nullopt;
  std::vector<ImageF> pictures{edges_of(moved)};
  if (state_->levels.size() > 1) pictures.push_back(halved(pictures.back()));
  return state_->if_still(pictures,
                          correlate(state_->levels[0], pictures[0], Eigen::Vector3d::Zero()).correlation);
}

Movement MovementFinder::movement_to(const RectifiedWindow& moved) const {
  Movement result;
  if (!state_) return result;
  const State& s = *state_;
  result.contrast = s.contrast;
  if (s.levels.empty() || moved.lab.rows != s.rows || moved.lab.columns != s.columns) return result;
  std::vector<ImageF> pictures{edges_of(moved)};
  result.quality = result.quality_unmoved =
      correlate(s.levels[0], pictures[0], Eigen::Vector3d::Zero()).correlation;
  if (result.contrast < s.options.least_contrast) return result;
  while (pictures.size() < s.levels.size()) pictures.push_back(halved(pictures.back()));
  if (const auto still = s.if_still(pictures, result.quality_unmoved)) return *still;

  const std::size_t coarsest = s.levels.size() - 1;
  const double coarse_px = s.px_per_mm / (1 << coarsest);
  Eigen::Vector3d parameters =
      coarse_shift(s.levels[coarsest], pictures[coarsest],
                   std::max(1, static_cast<int>(std::ceil(s.options.farthest_mm * coarse_px))));
  for (std::size_t k = s.levels.size(); k-- > 0;) {
    const Still& still = s.levels[k];
    for (int i = 0; i < s.options.most_iterations; ++i) {
      const Comparison now = compare(still, pictures[k], parameters);
      if (now.pixels < least_compared) break;
      const Eigen::Vector3d step = next_step(now);
      if (!step.allFinite()) break;
      bool better = false;
      for (double share = 1; share > 0.05 && !better; share *= 0.5)
        if (correlate(still, pictures[k], parameters + share * step).correlation > now.correlation) {
          parameters += share * step;
          better = true;
        }
      if (!better || step.head<2>().norm() < 0.005) {
        result.converged = k == 0;
        break;
      }
    }
    if (k > 0) parameters.head<2>() *= 2;
  }
  result.dx_mm = parameters[0] / s.px_per_mm;
  result.dy_mm = parameters[1] / s.px_per_mm;
  result.turn_deg = parameters[2] / turn_unit;
  result.quality = correlate(s.levels[0], pictures[0], parameters).correlation;
  if (std::hypot(result.dx_mm, result.dy_mm) > 1.5 * s.options.farthest_mm ||
      result.quality <= result.quality_unmoved) {
    result.dx_mm = result.dy_mm = result.turn_deg = 0;
    result.quality = result.quality_unmoved;
  }
  return result;
}

Movement movement_between(const RectifiedWindow& first, const RectifiedWindow& moved,
                          const std::function<bool(const PointMm&)>& compared,
                          const AlignmentOptions& options) {
  return MovementFinder(first, compared, options).movement_to(moved);
}

}  // namespace colorlib
