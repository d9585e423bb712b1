#pragma once
/// The colours of a path, solved for in closed form while times and rates are given [Golub1973].

#include <Eigen/Dense>
#include <colorlib/reaction/corrected_path_internal.hpp>
#include <vector>

namespace colorlib {

/// Which curve the frames are held against, and the colours that it mixes.
enum class PathShape {
  constant,   ///< one colour
  straight,   ///< a colour and a change in step with time
  one_step,   ///< untreated colour, change; onset, ln k
  two_steps,  ///< untreated, middle and last colour; onset, ln k1, ln k2
};
constexpr int colours_of(PathShape shape) {
  return shape == PathShape::constant ? 1 : shape == PathShape::two_steps ? 3 : 2;
}
constexpr int times_of(PathShape shape) {
  return shape == PathShape::one_step ? 2 : shape == PathShape::two_steps ? 3 : 0;
}
/// Of the mean curve: three coordinates a colour, and the times.
constexpr int parameters_of(PathShape shape) { return 3 * colours_of(shape) + times_of(shape); }

/// How much of each colour is in a frame: frames x colours.
using Shares = Eigen::Array<double, Eigen::Dynamic, Eigen::Dynamic, 0, Eigen::Dynamic, 3>;
/// `times` are onset_s, ln k1, ln k2 as far as the shape has them; `span_s` the unit of `straight`.
Eigen::Array3d shares_at(PathShape shape, const double* times, double seconds, double span_s);

/// Colours side by side: 3 x colours.
using Colours = Eigen::Matrix<double, 3, Eigen::Dynamic, 0, 3, 3>;

/// What solves a path once its times are given.
struct PathSolution {
  Colours colours;            ///< the untreated colour, then changes against it
  double control_excess = 0;  ///< the share by which the spot follows its controls more (or less) than wholly
  double sum_of_squares = 0;
};

class PathRegression {
 public:
  /// `left_out` frames carry no weight.
  PathRegression(const CorrectedPath& path, const std::vector<bool>& left_out);

  /// The smallest weighted sum of squares of the curve with these times.
  double sum_of_squares(PathShape shape, const double* times) const;
  PathSolution solve(PathShape shape, const double* times) const;
  /// Residuals in units of the stated deviations, three a frame, then those that hold the colours within
  /// reach and the control's share near 1.
  void residuals(PathShape shape, const std::vector<double>& times, std::vector<double>& residuals) const;
  std::size_t residual_count(PathShape shape) const;

  /// Covariance, at scale 1, of (colours one after another, times): of the inverse normal matrix at the
  /// solution.
  Eigen::MatrixXd covariance(PathShape shape, const std::vector<double>& times) const;

  /// d times / d a frame's colour, at the solution: times x 3, one a frame.
  std::vector<Eigen::MatrixXd> time_gains(PathShape shape, const std::vector<double>& times) const;

  /// A frame's colour minus the curve's, in Lab; and its square in units of the stated covariance.
  Eigen::Vector3d residual(PathShape shape, const double* times, const PathSolution& solution,
                           std::size_t frame) const;
  double squared_distance(PathShape shape, const double* times, const PathSolution& solution,
                          std::size_t frame) const;
  Eigen::Vector3d colour_on_curve(PathShape shape, const double* times, const Colours& colours,
                                  double seconds) const;

  /// d colour on the curve / d times, the colours held: 3 x times.
  Eigen::MatrixXd slopes_by_times(PathShape shape, const std::vector<double>& times, const Colours& colours,
                                  double seconds) const;

  const std::vector<double>& seconds() const { return seconds_; }
  std::size_t frames_in_use() const { return in_use_; }
  double span_s() const { return span_s_; }

 private:
  Shares shares(PathShape shape, const double* times) const;
  struct Linear;
  Linear solve(const Shares& shares) const;
  /// d colour of a frame / d (colours, times, control's excess): 3 x all.
  Eigen::MatrixXd slopes_of(PathShape shape, const std::vector<double>& times, const Colours& colours,
                            std::size_t frame) const;
  Eigen::MatrixXd inverse_normal(PathShape shape, const std::vector<double>& times) const;

  std::vector<double> seconds_;
  std::vector<Eigen::Vector3d> lab_, weighted_lab_;        ///< from `origin_`
  std::vector<Eigen::Vector3d> change_, weighted_change_;  ///< of the controls
  std::vector<Eigen::Matrix3d> weight_, root_;  ///< inverse covariance and its upper root, 0 when left out
  Eigen::Vector3d origin_ = Eigen::Vector3d::Zero();
  double weighted_squares_ = 0, weighted_changes_ = 0, span_s_ = 1;
  std::size_t in_use_ = 0;
};

}  // namespace colorlib
