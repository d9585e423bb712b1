#include <cmath>
#include <colorlib/reaction/kinetic_curves.hpp>
#include <colorlib/reaction/path_regression_internal.hpp>

namespace colorlib {
namespace {

using Eigen::Index;
using Eigen::Matrix3d;
using Eigen::MatrixXd;
using Eigen::Vector3d;
using Eigen::VectorXd;

/// Colours are within some hundred units of one another: a weak hold that keeps the solution of a curve which
/// the frames do not reach (a plateau far beyond the last one) among what can be.
constexpr double reach = 150;
constexpr double hold = 1 / (reach * reach);
/// Two places of one tissue do not get wet, and do not catch the light, to quite the same degree: a spot does
/// what its controls do to within a quarter (k = 1). The project's own figure.
constexpr double control_share_sd = 0.25;

using Normal = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 10, 10>;
using Side = Eigen::Matrix<double, Eigen::Dynamic, 1, 0, 10, 1>;

}  // namespace

Eigen::Array3d shares_at(PathShape shape, const double* times, double seconds, double span_s) {
  switch (shape) {
    case PathShape::constant:
      return {1, 0, 0};
    case PathShape::straight:
      return {1, seconds / span_s, 0};
    case PathShape::one_step:
      return {1, first_order_progress(seconds - times[0], std::exp(times[1])), 0};
    case PathShape::two_steps: {
      const auto s = consecutive_shares(seconds - times[0], std::exp(times[1]), std::exp(times[2]));
      // As changes against the first colour, so that the colours stay apart where shares do.
      return {1, s.b, s.c};
    }
  }
  return {1, 0, 0};
}

struct PathRegression::Linear {
  Normal normal;
  Side unknowns;  ///< colours from the origin, then the control's excess
  double sum_of_squares = 0;
};

PathRegression::PathRegression(const CorrectedPath& path, const std::vector<bool>& left_out)
    : seconds_(path.seconds) {
  const auto frames = path.frames.size();
  span_s_ = std::max(path.seconds.back() - path.seconds.front(), 1e-9);
  for (const ColorState& frame : path.frames) origin_ += Vector3d(frame.lab.l, frame.lab.a, frame.lab.b);
  origin_ /= static_cast<double>(frames);
  for (std::size_t i = 0; i < frames; ++i) {
    const Lab& lab = path.frames[i].lab;
    lab_.push_back(Vector3d(lab.l, lab.a, lab.b) - origin_);
    Matrix3d weight = Matrix3d::Zero(), root = Matrix3d::Zero();
    if (!left_out[i]) {
      const Matrix3d covariance =
          Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(path.frames[i].covariance.m.data());
      weight = covariance.inverse();
      weight = (0.5 * (weight + weight.transpose())).eval();
      root = weight.llt().matrixU();
      ++in_use_;
    }
    const Vector3& change = path.control_change[i];
    change_.push_back({change[0], change[1], change[2]});
    weight_.push_back(weight);
    root_.push_back(root);
    weighted_lab_.push_back(weight * lab_.back());
    weighted_change_.push_back(weight * change_.back());
    weighted_squares_ += lab_.back().dot(weighted_lab_.back());
    weighted_changes_ += change_.back().dot(weighted_change_.back());
  }
}

Shares PathRegression::shares(PathShape shape, const double* times) const {
  Shares result(static_cast<Index>(seconds_.size()), colours_of(shape));
  for (Index i = 0; i < result.rows(); ++i)
    result.row(i) = shares_at(shape, times, seconds_[static_cast<std::size_t>(i)], span_s_)
                        .head(result.cols())
                        .transpose();
  return result;
}

PathRegression::Linear PathRegression::solve(const Shares& shares) const {
  const Index colours = shares.cols(), excess = 3 * colours;
  Linear linear;
  Normal& normal = linear.normal;
  normal.setZero(excess + 1, excess + 1);
  Side side = Side::Zero(excess + 1);
  for (Index i = 0; i < shares.rows(); ++i) {
    const auto frame = static_cast<std::size_t>(i);
    for (Index a = 0; a < colours; ++a) {
      const double share = shares(i, a);
      if (share == 0) continue;
      side.segment<3>(3 * a) += share * weighted_lab_[frame];
      normal.block<1, 3>(excess, 3 * a) += share * weighted_change_[frame].transpose();
      for (Index b = 0; b <= a; ++b)
        normal.block<3, 3>(3 * a, 3 * b) += share * shares(i, b) * weight_[frame];
    }
    side[excess] += weighted_change_[frame].dot(lab_[frame]);
  }
  normal(excess, excess) = weighted_changes_ + 1 / (control_share_sd * control_share_sd);
  normal.diagonal().head(excess).array() += hold;
  const Eigen::LLT<Normal> factors(normal);  // reads the lower triangle
  linear.unknowns = factors.solve(side);
  linear.sum_of_squares = std::max(0.0, weighted_squares_ - linear.unknowns.dot(side));
  return linear;
}

double PathRegression::sum_of_squares(PathShape shape, const double* times) const {
  return solve(shares(shape, times)).sum_of_squares;
}

PathSolution PathRegression::solve(PathShape shape, const double* times) const {
  const Linear linear = solve(shares(shape, times));
  PathSolution result;
  result.colours.resize(3, colours_of(shape));
  for (Index c = 0; c < result.colours.cols(); ++c) result.colours.col(c) = linear.unknowns.segment<3>(3 * c);
  result.colours.col(0) += origin_;
  result.control_excess = linear.unknowns[linear.unknowns.size() - 1];
  result.sum_of_squares = linear.sum_of_squares;
  return result;
}

std::size_t PathRegression::residual_count(PathShape shape) const {
  return 3 * (seconds_.size() + static_cast<std::size_t>(colours_of(shape))) + 1;
}

void PathRegression::residuals(PathShape shape, const std::vector<double>& times,
                               std::vector<double>& residuals) const {
  const Shares by_frame = shares(shape, times.data());
  const Linear linear = solve(by_frame);
  const double excess = linear.unknowns[linear.unknowns.size() - 1];
  std::size_t at = 0;
  for (Index i = 0; i < by_frame.rows(); ++i) {
    const auto frame = static_cast<std::size_t>(i);
    Vector3d away = excess * change_[frame] - lab_[frame];
    for (Index c = 0; c < by_frame.cols(); ++c) away += by_frame(i, c) * linear.unknowns.segment<3>(3 * c);
    away = root_[frame] * away;
    for (int axis = 0; axis < 3; ++axis) residuals[at++] = away[axis];
  }
  for (Index c = 0; c < 3 * by_frame.cols(); ++c) residuals[at++] = linear.unknowns[c] / reach;
  residuals[at] = excess / control_share_sd;
}

MatrixXd PathRegression::slopes_of(PathShape shape, const std::vector<double>& times, const Colours& colours,
                                   std::size_t frame) const {
  const Index of_colours = 3 * colours.cols(), excess = of_colours + static_cast<Index>(times.size());
  MatrixXd slopes = MatrixXd::Zero(3, excess + 1);
  const Eigen::Array3d share = shares_at(shape, times.data(), seconds_[frame], span_s_);
  for (Index c = 0; c < colours.cols(); ++c) slopes.block<3, 3>(0, 3 * c) = share[c] * Matrix3d::Identity();
  slopes.middleCols(of_colours, static_cast<Index>(times.size())) =
      slopes_by_times(shape, times, colours, seconds_[frame]);
  slopes.col(excess) = change_[frame];
  return slopes;
}

MatrixXd PathRegression::inverse_normal(PathShape shape, const std::vector<double>& times) const {
  const Colours at = solve(shape, times.data()).colours;
  const Index of_colours = 3 * at.cols(), excess = of_colours + static_cast<Index>(times.size());
  MatrixXd normal = MatrixXd::Zero(excess + 1, excess + 1);
  normal.diagonal().head(of_colours).array() += hold;
  normal(excess, excess) = 1 / (control_share_sd * control_share_sd);
  for (std::size_t frame = 0; frame < seconds_.size(); ++frame) {
    const MatrixXd slopes = slopes_of(shape, times, at, frame);
    normal += slopes.transpose() * weight_[frame] * slopes;
  }
  // A time that no frame feels: its row is held at what the series spans.
  for (std::size_t j = 0; j < times.size(); ++j)
    normal(of_colours + static_cast<Index>(j), of_colours + static_cast<Index>(j)) +=
        j == 0 ? 1 / (span_s_ * span_s_) : 1.0 / 16;
  return normal.ldlt().solve(MatrixXd::Identity(excess + 1, excess + 1));
}

MatrixXd PathRegression::covariance(PathShape shape, const std::vector<double>& times) const {
  const Index size = 3 * colours_of(shape) + static_cast<Index>(times.size());
  return inverse_normal(shape, times).topLeftCorner(size, size);
}

std::vector<MatrixXd> PathRegression::time_gains(PathShape shape, const std::vector<double>& times) const {
  const Colours at = solve(shape, times.data()).colours;
  const MatrixXd inverse =
      inverse_normal(shape, times).middleRows(3 * at.cols(), static_cast<Index>(times.size()));
  std::vector<MatrixXd> gains;
  for (std::size_t frame = 0; frame < seconds_.size(); ++frame)
    gains.push_back(inverse * slopes_of(shape, times, at, frame).transpose() * weight_[frame]);
  return gains;
}

MatrixXd PathRegression::slopes_by_times(PathShape shape, const std::vector<double>& times,
                                         const Colours& colours, double seconds) const {
  MatrixXd slopes(3, static_cast<Index>(times.size()));
  for (std::size_t j = 0; j < times.size(); ++j) {
    auto up = times, down = times;
    const double step = j == 0 ? 1e-4 * span_s_ : 1e-4;
    up[j] += step;
    down[j] -= step;
    slopes.col(static_cast<Index>(j)) = (colour_on_curve(shape, up.data(), colours, seconds) -
                                         colour_on_curve(shape, down.data(), colours, seconds)) /
                                        (2 * step);
  }
  return slopes;
}

Eigen::Vector3d PathRegression::colour_on_curve(PathShape shape, const double* times, const Colours& colours,
                                                double seconds) const {
  const Eigen::Array3d share = shares_at(shape, times, seconds, span_s_);
  Vector3d colour = Vector3d::Zero();
  for (Index c = 0; c < colours.cols(); ++c) colour += share[c] * colours.col(c);
  return colour;
}

Eigen::Vector3d PathRegression::residual(PathShape shape, const double* times, const PathSolution& solution,
                                         std::size_t frame) const {
  return lab_[frame] + origin_ - solution.control_excess * change_[frame] -
         colour_on_curve(shape, times, solution.colours, seconds_[frame]);
}

double PathRegression::squared_distance(PathShape shape, const double* times, const PathSolution& solution,
                                        std::size_t frame) const {
  const Vector3d away = residual(shape, times, solution, frame);
  return away.dot(weight_[frame] * away);
}

}  // namespace colorlib
