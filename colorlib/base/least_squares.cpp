#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <colorlib/base/least_squares.hpp>
#include <limits>

namespace colorlib {
namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;
using RowMatrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// The problem in Eigen's terms, with bounds that are always there.
class Model {
 public:
  explicit Model(const LeastSquaresProblem& problem)
      : problem_(problem),
        size_(problem.start.size()),
        residuals_(problem.residual_count),
        jacobian_(problem.residual_count * size_),
        lower_(VectorXd::Constant(static_cast<Index>(size_), -std::numeric_limits<double>::infinity())),
        upper_(-lower_) {
    if (!problem.lower.empty()) lower_ = Eigen::Map<const VectorXd>(problem.lower.data(), lower_.size());
    if (!problem.upper.empty()) upper_ = Eigen::Map<const VectorXd>(problem.upper.data(), upper_.size());
  }

  VectorXd residuals(const VectorXd& x) {
    parameters_.assign(x.data(), x.data() + x.size());
    problem_.residuals(parameters_, residuals_);
    return Eigen::Map<const VectorXd>(residuals_.data(), static_cast<Index>(residuals_.size()));
  }

  MatrixXd jacobian(const VectorXd& x) {
    if (problem_.jacobian) {
      parameters_.assign(x.data(), x.data() + x.size());
      problem_.jacobian(parameters_, jacobian_);
      return Eigen::Map<const RowMatrix>(jacobian_.data(), static_cast<Index>(residuals_.size()), x.size());
    }
    MatrixXd result(static_cast<Index>(residuals_.size()), x.size());
    for (Index j = 0; j < x.size(); ++j) result.col(j) = slope(x, j);
    return result;
  }

  VectorXd within(VectorXd x) const { return x.cwiseMax(lower_).cwiseMin(upper_); }
  bool at_bound(const VectorXd& x, Index j) const { return x[j] <= lower_[j] || x[j] >= upper_[j]; }
  /// Whether going downhill would leave the allowed range.
  bool held(const VectorXd& x, const VectorXd& gradient, Index j) const {
    return (x[j] <= lower_[j] && gradient[j] > 0) || (x[j] >= upper_[j] && gradient[j] < 0);
  }

 private:
  /// Central difference with the step that balances rounding against curvature; one-sided at a bound.
  VectorXd slope(const VectorXd& x, Index j) {
    const double step = 6.06e-6 * (x[j] == 0 ? 1 : std::abs(x[j]));  // third root of the machine's precision
    VectorXd up = x, down = x;
    up[j] = std::min(x[j] + step, upper_[j]);
    down[j] = std::max(x[j] - step, lower_[j]);
    VectorXd difference = residuals(up);
    difference -= residuals(down);
    if (up[j] == down[j]) return VectorXd::Zero(difference.size());
    return difference / (up[j] - down[j]);
  }

  const LeastSquaresProblem& problem_;
  std::size_t size_;
  std::vector<double> parameters_, residuals_, jacobian_;
  VectorXd lower_, upper_;
};

/// The step d that makes |r + J d|^2 + damping |D d|^2 smallest.
VectorXd damped_step(const MatrixXd& jacobian, const VectorXd& residuals, const VectorXd& scale,
                     double damping) {
  const Index rows = jacobian.rows(), columns = jacobian.cols();
  MatrixXd stacked(rows + columns, columns);
  stacked.topRows(rows) = jacobian;
  stacked.bottomRows(columns) = MatrixXd((std::sqrt(damping) * scale).asDiagonal());
  VectorXd side = VectorXd::Zero(rows + columns);
  side.head(rows) = -residuals;
  return stacked.colPivHouseholderQr().solve(side);
}

/// The share of the step that changes no parameter more than `most_growth` times its size.
double shortening(const VectorXd& x, const VectorXd& step, double most_growth) {
  double share = 1;
  for (Index j = 0; j < x.size(); ++j)
    if (x[j] != 0 && std::abs(step[j]) > most_growth * std::abs(x[j]))
      share = std::min(share, most_growth * std::abs(x[j]) / std::abs(step[j]));
  return share;
}

/// The largest cosine between the residuals and a free column.
double steepest_cosine(const MatrixXd& jacobian, const VectorXd& gradient, double residual_norm) {
  double largest = 0;
  for (Index j = 0; j < jacobian.cols(); ++j) {
    const double norm = jacobian.col(j).norm();
    if (norm > 0) largest = std::max(largest, std::abs(gradient[j]) / (norm * residual_norm));
  }
  return largest;
}

void take_errors(const MatrixXd& jacobian, const std::vector<Index>& free, LeastSquaresFit& fit) {
  const Index size = static_cast<Index>(fit.parameters.size());
  const auto spare = static_cast<double>(jacobian.rows()) - static_cast<double>(size);
  fit.residual_sd = spare > 0 ? std::sqrt(fit.residual_sum_of_squares / spare) : 0;
  RowMatrix covariance = RowMatrix::Zero(size, size);
  if (!free.empty()) {
    // Columns are brought to one length first: the factorisation then judges rank fairly.
    MatrixXd columns(jacobian.rows(), static_cast<Index>(free.size()));
    VectorXd lengths(columns.cols());
    for (Index j = 0; j < columns.cols(); ++j) {
      const VectorXd column = jacobian.col(free[static_cast<std::size_t>(j)]);
      lengths[j] = column.norm();
      columns.col(j) = column / lengths[j];
    }
    const Eigen::CompleteOrthogonalDecomposition<MatrixXd> factors(columns);
    const MatrixXd inverse = factors.pseudoInverse();
    const MatrixXd normal_inverse = inverse * inverse.transpose();
    for (Index i = 0; i < columns.cols(); ++i)
      for (Index j = 0; j < columns.cols(); ++j)
        covariance(free[static_cast<std::size_t>(i)], free[static_cast<std::size_t>(j)]) =
            fit.residual_sd * fit.residual_sd * normal_inverse(i, j) / (lengths[i] * lengths[j]);
  }
  fit.covariance.assign(covariance.data(), covariance.data() + covariance.size());
  fit.standard_errors.resize(fit.parameters.size());
  for (Index i = 0; i < size; ++i)
    fit.standard_errors[static_cast<std::size_t>(i)] = std::sqrt(covariance(i, i));
}

/// One way downhill, and whether it ended where the residuals no longer feel a parameter that they felt
/// before.
struct Descent {
  LeastSquaresFit fit;
  bool on_a_plain = false;
};

Descent descend(const LeastSquaresProblem& problem, const LeastSquaresOptions& options, double most_growth) {
  Model model(problem);
  Descent descent;
  LeastSquaresFit& fit = descent.fit;
  VectorXd x = Eigen::Map<const VectorXd>(problem.start.data(), static_cast<Index>(problem.start.size()));
  VectorXd residuals = model.residuals(x);
  double cost = residuals.squaredNorm();
  fit.parameters = problem.start;
  fit.residual_sum_of_squares = cost;
  fit.standard_errors.assign(problem.start.size(), 0);
  fit.covariance.assign(problem.start.size() * problem.start.size(), 0);
  if (!std::isfinite(cost)) return descent;

  VectorXd scale = VectorXd::Zero(x.size());
  MatrixXd jacobian;
  std::vector<Index> free;
  double damping = 1e-3, growth = 2;
  fit.stop = LeastSquaresStop::iteration_limit;
  bool moved = true;
  while (fit.iterations < options.most_iterations) {
    VectorXd gradient;
    if (moved) jacobian = model.jacobian(x);
    if (!jacobian.allFinite()) {
      fit.stop = LeastSquaresStop::no_better_step;
      jacobian = jacobian.array().isFinite().select(jacobian, 0);
      break;
    }
    gradient = jacobian.transpose() * residuals;
    free.clear();
    for (Index j = 0; j < x.size(); ++j) {
      const double norm = jacobian.col(j).norm();
      scale[j] = std::max(scale[j], norm);
      if (norm > 0 && !model.held(x, gradient, j)) free.push_back(j);
    }
    if (cost == 0) {
      fit.stop = LeastSquaresStop::exact;
      break;
    }
    const MatrixXd free_jacobian = jacobian(Eigen::all, free);
    const VectorXd free_gradient = gradient(free);
    if (free.empty() ||
        steepest_cosine(free_jacobian, free_gradient, std::sqrt(cost)) < options.slope_tolerance) {
      fit.stop = LeastSquaresStop::slope;
      break;
    }
    const VectorXd free_step = damped_step(free_jacobian, residuals, scale(free), damping);
    VectorXd candidate = x;
    candidate(free) += shortening(x(free), free_step, most_growth) * free_step;
    candidate = model.within(candidate);
    const VectorXd step = candidate - x;
    ++fit.iterations;
    if ((step.array().abs() <= options.step_tolerance * (x.array().abs() + 1e-300)).all()) {
      fit.stop = LeastSquaresStop::small_step;
      break;
    }
    const VectorXd candidate_residuals = model.residuals(candidate);
    const double candidate_cost = candidate_residuals.squaredNorm();
    const double expected = cost - (residuals + jacobian * step).squaredNorm();
    const double gain = (cost - candidate_cost) / std::max(expected, std::numeric_limits<double>::min());
    moved = std::isfinite(candidate_cost) && candidate_cost < cost && gain > 1e-4;
    if (moved) {
      x = candidate;
      residuals = candidate_residuals;
      cost = candidate_cost;
      damping = std::max(damping * std::max(1.0 / 3, 1 - std::pow(2 * std::min(gain, 1.0) - 1, 3)), 1e-18);
      growth = 2;
    } else {
      damping *= growth;
      growth *= 2;
      if (damping > 1e18) {
        fit.stop = LeastSquaresStop::no_better_step;
        break;
      }
    }
  }
  std::vector<Index> inside;
  for (const Index j : free)
    if (!model.at_bound(x, j)) inside.push_back(j);
  for (Index j = 0; j < x.size(); ++j)
    descent.on_a_plain = descent.on_a_plain || jacobian.col(j).norm() < 1e-9 * scale[j];
  fit.parameters.assign(x.data(), x.data() + x.size());
  fit.residual_sum_of_squares = cost;
  take_errors(jacobian, inside, fit);
  return descent;
}
tl::unexpected<Error> misused(const char* what) {
  return fail(ErrorCode::bad_call, std::string("Fitting by least squares: ") + what + ".",
              "Give residuals, a start, and bounds around it.");
}

}  // namespace

std::string_view stop_sentence(LeastSquaresStop stop) {
  switch (stop) {
    case LeastSquaresStop::slope:
      return "at a minimum: no direction leads downhill";
    case LeastSquaresStop::small_step:
      return "at a minimum: the next step changes nothing that counts";
    case LeastSquaresStop::no_better_step:
      return "at a minimum as far as rounding lets it be seen";
    case LeastSquaresStop::exact:
      return "every residual is zero";
    case LeastSquaresStop::iteration_limit:
      return "not at a minimum: the number of steps was used up";
    case LeastSquaresStop::undefined_start:
      return "not begun: the residuals are not defined at the start";
  }
  return "";
}

Result<LeastSquaresFit> least_squares(const LeastSquaresProblem& problem,
                                      const LeastSquaresOptions& options) {
  const std::size_t size = problem.start.size();
  if (size == 0 || problem.residual_count == 0 || !problem.residuals)
    return misused("nothing is to be fitted");
  if ((!problem.lower.empty() && problem.lower.size() != size) ||
      (!problem.upper.empty() && problem.upper.size() != size))
    return misused("the bounds are not as many as the parameters");
  for (std::size_t i = 0; i < size; ++i)
    if ((!problem.lower.empty() && !(problem.start[i] >= problem.lower[i])) ||
        (!problem.upper.empty() && !(problem.start[i] <= problem.upper[i])))
      return misused("the start lies outside the bounds");

  Descent first = descend(problem, options, std::numeric_limits<double>::infinity());
  if (!first.on_a_plain) return first.fit;
  // The full first step was too long: nothing leads back from there. Again, with steps that do not more than
  // treble a parameter.
  Descent second = descend(problem, options, 2);
  second.fit.iterations += first.fit.iterations;
  return second.fit.residual_sum_of_squares < first.fit.residual_sum_of_squares ? second.fit : first.fit;
}

}  // namespace colorlib
