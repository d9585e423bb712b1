#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/chart/placement_fit.hpp>

namespace colorlib {
namespace {

using Parameters = Eigen::Matrix<double, 9, 1>;  // eight of the homography (its last element is 1), radial
using Row = Eigen::Matrix<double, 1, 9>;

/// Translation and scale that bring points to mean 0 and mean distance sqrt(2).
struct Normalisation {
  double x = 0, y = 0, unit = 1;
};

template <class Point>
Normalisation normalisation_of(std::span<const PointPair> pairs, Point PointPair::*member) {
  Normalisation n;
  for (const PointPair& pair : pairs) {
    n.x += (pair.*member).x;
    n.y += (pair.*member).y;
  }
  n.x /= static_cast<double>(pairs.size());
  n.y /= static_cast<double>(pairs.size());
  double distance = 0;
  for (const PointPair& pair : pairs) distance += std::hypot((pair.*member).x - n.x, (pair.*member).y - n.y);
  n.unit = distance / static_cast<double>(pairs.size()) / std::sqrt(2.0);
  return n;
}

/// The photo in units of its half diagonal about its centre, the sheet in units of its own: every parameter
/// is then about 1.
struct Frame {
  PointMm sheet_centre;
  double sheet_unit_mm = 1;
  PointPx photo_centre;
  double half_diagonal_px = 1;
};

Parameters parameters_from(const Placement& placement, const Frame& frame) {
  const double s = frame.sheet_unit_mm, d = frame.half_diagonal_px;
  const Matrix3 to_mm{{s, 0, frame.sheet_centre.x, 0, s, frame.sheet_centre.y, 0, 0, 1}};
  const Matrix3 from_px{{1 / d, 0, -frame.photo_centre.x / d, 0, 1 / d, -frame.photo_centre.y / d, 0, 0, 1}};
  const Matrix3 h = from_px * placement.homography * to_mm;
  Parameters p;
  for (int i = 0; i < 8; ++i) p[i] = h.m[static_cast<std::size_t>(i)] / h(2, 2);
  p[8] = placement.radial;
  return p;
}

Placement placement_from(const Parameters& p, const Frame& frame) {
  const double s = frame.sheet_unit_mm, d = frame.half_diagonal_px;
  const Matrix3 from_mm{{1 / s, 0, -frame.sheet_centre.x / s, 0, 1 / s, -frame.sheet_centre.y / s, 0, 0, 1}};
  const Matrix3 to_px{{d, 0, frame.photo_centre.x, 0, d, frame.photo_centre.y, 0, 0, 1}};
  Placement placement;
  placement.homography = to_px * Matrix3{{p[0], p[1], p[2], p[3], p[4], p[5], p[6], p[7], 1}} * from_mm;
  placement.centre = frame.photo_centre;
  placement.half_diagonal_px = d;
  placement.radial = p[8];
  return placement;
}

/// The photo place (units of the half diagonal) of sheet point (x, y) in sheet units, and its derivatives by
/// the parameters.
struct Projection {
  double u = 0, v = 0;
  Row by_u, by_v;
  bool in_front = false;
};

Projection project(const Parameters& p, double x, double y) {
  Projection r;
  const double w = p[6] * x + p[7] * y + 1;
  r.in_front = w > 1e-3;
  if (!r.in_front) return r;
  const double u = (p[0] * x + p[1] * y + p[2]) / w, v = (p[3] * x + p[4] * y + p[5]) / w;
  Row du = Row::Zero(), dv = Row::Zero();
  du.segment<3>(0) << x / w, y / w, 1 / w;
  dv.segment<3>(3) << x / w, y / w, 1 / w;
  du.segment<2>(6) << -u * x / w, -u * y / w;
  dv.segment<2>(6) << -v * x / w, -v * y / w;
  const double k = p[8], r2 = u * u + v * v, stretch = 1 + k * r2;
  r.u = u * stretch;
  r.v = v * stretch;
  r.by_u = (stretch + 2 * k * u * u) * du + 2 * k * u * v * dv;
  r.by_v = 2 * k * u * v * du + (stretch + 2 * k * v * v) * dv;
  r.by_u[8] = u * r2;
  r.by_v[8] = v * r2;
  return r;
}

/// Residuals in px (seen minus fitted along the normal); false when a point falls behind the camera.
bool residuals_of(const Parameters& p, const Frame& frame, std::span<const EdgeObservation> observations,
                  std::vector<double>& residuals, Eigen::Matrix<double, Eigen::Dynamic, 9>* jacobian) {
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const EdgeObservation& o = observations[i];
    const Projection q = project(p, (o.sheet.x - frame.sheet_centre.x) / frame.sheet_unit_mm,
                                 (o.sheet.y - frame.sheet_centre.y) / frame.sheet_unit_mm);
    if (!q.in_front) return false;
    const double d = frame.half_diagonal_px;
    residuals[i] = o.normal.x * (o.photo.x - frame.photo_centre.x - d * q.u) +
                   o.normal.y * (o.photo.y - frame.photo_centre.y - d * q.v);
    if (jacobian)
      jacobian->row(static_cast<Eigen::Index>(i)) = d * (o.normal.x * q.by_u + o.normal.y * q.by_v);
  }
  return true;
}

}  // namespace

std::optional<Matrix3> homography_from_pairs(std::span<const PointPair> pairs) {
  if (pairs.size() < 4) return std::nullopt;
  const Normalisation sheet = normalisation_of(pairs, &PointPair::sheet);
  const Normalisation photo = normalisation_of(pairs, &PointPair::photo);
  if (!(sheet.unit > 0 && photo.unit > 0 && std::isfinite(photo.unit))) return std::nullopt;
  Eigen::Matrix<double, 9, 9> normal = Eigen::Matrix<double, 9, 9>::Zero();
  for (const PointPair& pair : pairs) {
    const double x = (pair.sheet.x - sheet.x) / sheet.unit, y = (pair.sheet.y - sheet.y) / sheet.unit;
    const double u = (pair.photo.x - photo.x) / photo.unit, v = (pair.photo.y - photo.y) / photo.unit;
    Row a, b;
    a << x, y, 1, 0, 0, 0, -u * x, -u * y, -u;
    b << 0, 0, 0, x, y, 1, -v * x, -v * y, -v;
    normal += a.transpose() * a + b.transpose() * b;
  }
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix<double, 9, 9>> solver(normal);
  // A second eigenvalue at rounding level: three pairs on a line, or the like.
  if (solver.info() != Eigen::Success || solver.eigenvalues()[1] < 1e-10 * solver.eigenvalues()[8])
    return std::nullopt;
  const Parameters h = solver.eigenvectors().col(0);
  if (std::fabs(h[8]) < 1e-9) return std::nullopt;
  Matrix3 normalised;
  for (int i = 0; i < 9; ++i) normalised.m[static_cast<std::size_t>(i)] = h[i] / h[8];
  const Matrix3 from_mm{
      {1 / sheet.unit, 0, -sheet.x / sheet.unit, 0, 1 / sheet.unit, -sheet.y / sheet.unit, 0, 0, 1}};
  const Matrix3 to_px{{photo.unit, 0, photo.x, 0, photo.unit, photo.y, 0, 0, 1}};
  const Matrix3 homography = to_px * normalised * from_mm;
  for (const PointPair& pair : pairs)
    if (!((homography * Vector3{pair.sheet.x, pair.sheet.y, 1})[2] > 1e-6)) return std::nullopt;
  return homography;
}

namespace {

/// Coordinates about the middle of what was observed, in units of its mean distance from there.
Frame frame_of(const Placement& start, std::span<const EdgeObservation> observations) {
  const auto count = static_cast<double>(observations.size());
  Frame frame;
  frame.photo_centre = start.centre;
  frame.half_diagonal_px = start.half_diagonal_px;
  for (const EdgeObservation& o : observations) {
    frame.sheet_centre.x += o.sheet.x / count;
    frame.sheet_centre.y += o.sheet.y / count;
  }
  double spread = 0;
  for (const EdgeObservation& o : observations)
    spread += std::hypot(o.sheet.x - frame.sheet_centre.x, o.sheet.y - frame.sheet_centre.y);
  frame.sheet_unit_mm = std::max(1e-6, spread / count);
  return frame;
}

/// Of a residual of `size` robust standard deviations: Tukey's biweight, which gives what lies far away
/// nothing, or Huber's, which only bounds its pull. Both are 95 % efficient where nothing is wrong.
double robust_weight(double size, bool reject) {
  constexpr double tukey = 4.685, huber = 1.345;
  if (!reject) return size > huber ? huber / size : 1;
  const double t = size / tukey;
  return t < 1 ? (1 - t * t) * (1 - t * t) : 0;
}

/// Fills in what the weighted residuals and their normal equations say of the fit; false when it has no
/// covariance or too little is left.
bool describe(const std::vector<double>& residuals, const std::vector<double>& weights,
              const Eigen::Matrix<double, 9, 9>& normal, PlacementFit& fit) {
  double sum = 0, used = 0;
  for (std::size_t i = 0; i < residuals.size(); ++i)
    if (weights[i] > 0) {
      sum += residuals[i] * residuals[i];
      used += 1;
    }
  if (used < 8) return false;
  fit.rms_px = std::sqrt(sum / used);
  // `normal` holds the scale already. A fraction of its diagonal keeps what nothing determines finite.
  const Eigen::Matrix<double, 9, 9> regular =
      normal + Eigen::Matrix<double, 9, 9>(normal.diagonal().asDiagonal()) * 1e-12;
  const Eigen::Matrix<double, 9, 9> covariance =
      regular.ldlt().solve(Eigen::Matrix<double, 9, 9>::Identity());
  if (!covariance.allFinite()) return false;
  Eigen::Map<Eigen::Matrix<double, 9, 9>>(fit.covariance.data()) = covariance;
  return true;
}

}  // namespace

std::optional<PlacementFit> fit_placement(const Placement& start,
                                          std::span<const EdgeObservation> observations,
                                          const PlacementFitOptions& options) {
  const std::size_t count = observations.size();
  if (count < 8) return std::nullopt;
  const Frame frame = frame_of(start, observations);
  std::vector<double> sd(count), residuals(count), trial_residuals(count), weights(count, 1.0), sizes(count);
  for (std::size_t i = 0; i < count; ++i) sd[i] = std::hypot(observations[i].sd_px, options.model_sd_px);
  const double radial_sd = options.radial_sd;

  Parameters p = parameters_from(start, frame);
  Eigen::Matrix<double, Eigen::Dynamic, 9> jacobian(static_cast<Eigen::Index>(count), 9);
  Eigen::Matrix<double, 9, 9> normal;
  double scale = 1, damping = 1e-6;
  const auto cost_of = [&](const std::vector<double>& r, const Parameters& at) {
    const double off = (at[8] - options.radial_mean) / radial_sd;
    double sum = off * off;
    for (std::size_t i = 0; i < count; ++i)
      sum += weights[i] * r[i] * r[i] / (sd[i] * sd[i]) / (scale * scale);
    return sum;
  };
  constexpr int rounds = 30;
  int quiet = 0;
  for (int round = 0; round < rounds; ++round) {
    if (!residuals_of(p, frame, observations, residuals, &jacobian)) return std::nullopt;
    for (std::size_t i = 0; i < count; ++i) sizes[i] = std::fabs(residuals[i]) / sd[i];
    scale = std::max(1.0, 1.4826 * median(sizes));
    const bool settled = round >= 4, reject = settled && options.reject;
    for (std::size_t i = 0; i < count; ++i) weights[i] = robust_weight(sizes[i] / scale, reject);
    normal.setZero();
    Parameters gradient = Parameters::Zero();
    for (std::size_t i = 0; i < count; ++i) {
      const auto row = jacobian.row(static_cast<Eigen::Index>(i));
      const double w = weights[i] / (sd[i] * sd[i] * scale * scale);
      normal.noalias() += w * row.transpose() * row;
      gradient.noalias() += w * residuals[i] * row.transpose();
    }
    normal(8, 8) += 1 / (radial_sd * radial_sd);
    gradient[8] -= (p[8] - options.radial_mean) / (radial_sd * radial_sd);

    const double cost = cost_of(residuals, p);
    bool stepped = false;
    for (int attempt = 0; attempt < 8 && !stepped; ++attempt) {
      Eigen::Matrix<double, 9, 9> damped = normal;
      damped.diagonal() *= 1 + damping;
      const Parameters next = p + damped.ldlt().solve(gradient);
      if (next.allFinite() && residuals_of(next, frame, observations, trial_residuals, nullptr) &&
          cost_of(trial_residuals, next) <= cost * (1 + 1e-9)) {
        const double moved = (next - p).cwiseAbs().maxCoeff();
        p = next;
        damping = std::max(1e-9, damping * 0.1);
        stepped = true;
        quiet = moved < 1e-8 ? quiet + 1 : 0;
      } else {
        damping *= 30;
      }
    }
    if (!stepped) quiet += 1;
    if (quiet >= 2 && settled) break;
  }
  if (!residuals_of(p, frame, observations, residuals, nullptr)) return std::nullopt;

  PlacementFit fit;
  fit.placement = placement_from(p, frame);
  fit.sheet_centre = frame.sheet_centre;
  fit.sheet_unit_mm = frame.sheet_unit_mm;
  fit.scale = scale;
  if (!describe(residuals, weights, normal, fit)) return std::nullopt;
  fit.residuals_px = std::move(residuals);
  fit.weights = std::move(weights);
  return fit;
}

double placement_sd_px(const PlacementFit& fit, const PointMm& p) {
  const Frame frame{fit.sheet_centre, fit.sheet_unit_mm, fit.placement.centre,
                    fit.placement.half_diagonal_px};
  const Projection q =
      project(parameters_from(fit.placement, frame), (p.x - frame.sheet_centre.x) / frame.sheet_unit_mm,
              (p.y - frame.sheet_centre.y) / frame.sheet_unit_mm);
  if (!q.in_front) return 1e9;
  const Eigen::Map<const Eigen::Matrix<double, 9, 9>> covariance(fit.covariance.data());
  Eigen::Matrix<double, 2, 9> rows;
  rows << q.by_u, q.by_v;
  const Eigen::Matrix2d c = rows * covariance * rows.transpose();
  const double mean = 0.5 * (c(0, 0) + c(1, 1)), half = 0.5 * (c(0, 0) - c(1, 1));
  return frame.half_diagonal_px * std::sqrt(std::max(0.0, mean + std::hypot(half, c(0, 1))));
}

}  // namespace colorlib
