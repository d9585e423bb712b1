#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/calibration/model_fit_internal.hpp>
#include <colorlib/calibration/model_start_internal.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

using Eigen::Matrix3d;
using Eigen::MatrixXd;
using Eigen::Vector3d;
using Eigen::VectorXd;

/// Huber weights of residual vectors of three entries, sized by norm / sqrt(3).
std::vector<double> huber_weights(const std::vector<Vector3d>& residuals, const FitConstants& k) {
  std::vector<double> sizes;
  for (const auto& r : residuals) sizes.push_back(r.norm() / std::sqrt(3.0));
  const double limit = k.huber_limit * std::max(1.0, median(sizes) / k.expected_median);
  for (double& size : sizes) size = size > limit ? limit / size : 1.0;
  return sizes;
}

/// The paper's, cubed: a smudge is always darker, so that even a bounded pull of many smudges would move the
/// light.
std::vector<double> redescending_weights(const std::vector<Vector3d>& residuals, const FitConstants& k) {
  std::vector<double> weights = huber_weights(residuals, k);
  for (double& w : weights) w = w * w * w;
  return weights;
}

/// The least-squares problem at one set of parameters.
class Problem {
 public:
  Problem(const FitInput& input, const FitConstants& constants, const Prior& prior)
      : input_(input), k_(constants), prior_(prior) {}

  /// Residuals; with `normal` also J^T W J + prior and J^T W r + prior.
  double evaluate(const CameraModel& model, MatrixXd* normal, VectorXd* gradient) {
    const int size = model.layout.size();
    if (normal) {
      normal->setZero(size, size);
      gradient->setZero(size);
    }
    double cost = 0;
    patch_residuals.resize(input_.patches.size());
    patch_jacobians.resize(normal ? input_.patches.size() : patch_jacobians.size());
    ParameterJacobian jacobian;
    for (std::size_t i = 0; i < input_.patches.size(); ++i) {
      const PatchRow& row = input_.patches[i];
      const Vector3d xyz = normal ? model.xyz(row.sample, jacobian) : model.xyz(row.sample);
      const Lab lab = lab_from_xyz({xyz[0], xyz[1], xyz[2]}, white_d50);
      const Matrix3d weight = eigen_from(row.metric_root) / row.sigma;
      patch_residuals[i] =
          weight * Vector3d(lab.l - row.reference.l, lab.a - row.reference.a, lab.b - row.reference.b);
      const double w = patch_weights.empty() ? 1 : patch_weights[i];
      cost += w * patch_residuals[i].squaredNorm();
      if (!normal) continue;
      jacobian = eigen_from(lab_jacobian({xyz[0], xyz[1], xyz[2]}, white_d50)) * jacobian;
      patch_jacobians[i] = jacobian;
      const ParameterJacobian weighted = weight * jacobian;
      normal->selfadjointView<Eigen::Lower>().rankUpdate(weighted.transpose(), w);
      *gradient += w * weighted.transpose() * patch_residuals[i];
    }
    cost += paper(model, normal, gradient);
    const VectorXd away = model.parameters - prior_.mean;
    const VectorXd pull = prior_.information * away;
    cost += away.dot(pull);
    if (normal) {
      *normal += prior_.information;
      *gradient += pull;
      normal->triangularView<Eigen::StrictlyUpper>() = normal->transpose();
    }
    return cost;
  }

  std::vector<Vector3d> patch_residuals, paper_residuals;  ///< weighted by 1/sigma, before robust weights
  std::vector<ParameterJacobian> patch_jacobians;          ///< dLab/dparameters
  std::vector<double> patch_weights, paper_weights;

 private:
  /// Paper residuals stand in the encoded domain: measured after the tone curve they could be made small by
  /// flattening the curve in the highlights.
  double paper(const CameraModel& model, MatrixXd* normal, VectorXd* gradient) {
    const ParameterLayout& at = model.layout;
    const std::size_t own = input_.paper.size(), all = own + input_.other_paper.size();
    paper_residuals.resize(all);
    double cost = 0;
    double basis[LightingBasis::most_size];
    // The columns one paper row touches are few and, per channel, always the same: sum in a small dense
    // block.
    const int tone_columns = at.tone ? 1 + tone_basis_size : 0;  // saturation, tone curve
    const int small = tone_columns + 3 * at.field + 2 + at.local + (at.other > 0 ? 1 : 0);
    MatrixXd blocks[3];
    VectorXd sides[3];
    for (int c = 0; c < 3 && normal; ++c) {
      blocks[c].setZero(small, small);
      sides[c].setZero(small);
    }
    VectorXd row(small);
    for (std::size_t i = 0; i < all; ++i) {
      const bool other = i >= own;
      const SheetPixel& sample = other ? input_.other_paper[i - own] : input_.paper[i];
      model.lighting.values(sample.place, basis);
      const Vector3d field = model.log_field(sample.place);
      const auto around = at.local > 0 ? model.surroundings.at(sample.place) : std::array<double, 2>{};
      const Vector3d u = model.uncoupled(sample.encoded);
      Vector3d slopes = Vector3d::Ones(), predicted, lit_shares, by_flare;
      for (int c = 0; c < 3; ++c) {
        const double flare = model.parameters[at.flare() + c];
        const double against = other ? model.parameters[at.other_paper() + c] : 0;
        const double lit = std::exp(model.parameters[at.paper() + c] + against +
                                    field[c]);  // light of the paper here, white = 1
        lit_shares[c] = lit / std::max(lit + flare, lowest_surface);
        const double target = std::log(model.scale[c]) + std::log(std::max(lit + flare, lowest_surface));
        by_flare[c] = 1 / std::max(lit + flare, lowest_surface);
        if (!at.tone) {
          paper_residuals[i][c] = (model.log_light(u[c]) - target) / k_.paper_sigma;
          continue;
        }
        double solved = u[c];
        for (int step = 0; step < 3; ++step) {
          slopes[c] = std::max(model.log_light_slope(solved), 0.2);
          solved = std::clamp(solved - (model.log_light(solved) - target) / slopes[c], lowest_encoded, 1.3);
        }
        predicted[c] = solved;
        slopes[c] = std::max(model.log_light_slope(solved), 0.2);
        paper_residuals[i][c] = (u[c] - solved) / k_.paper_sigma;
      }
      const double w = paper_weights.empty() ? 1 : paper_weights[i];
      cost += w * paper_residuals[i].squaredNorm();
      if (!normal) continue;
      const double luma = luma_of(sample.encoded);
      for (int c = 0; c < 3; ++c) {
        const double by_target = -1 / (slopes[c] * k_.paper_sigma);  // slope is 1 for linear photos
        int column = 0;
        if (at.tone) {
          row[column++] = -(u[c] - luma) / k_.paper_sigma;
          const ToneBasis tone = tone_basis(predicted[c]);
          for (int j = 0; j < tone_basis_size; ++j)
            row[column++] = -by_target * tone[static_cast<std::size_t>(j)];
        }
        const double by_lit = by_target * lit_shares[c];
        for (int j = 0; j < at.field; ++j) row[column++] = by_lit * basis[j];
        for (int j = 0; j < at.field; ++j) row[column++] = by_lit * red_blue_weight[c] * basis[j];
        for (int j = 0; j < at.field; ++j) row[column++] = by_lit * green_weight[c] * basis[j];
        row[column++] = by_lit;
        row[column++] = by_target * by_flare[c];
        for (int s = 0; s < at.local; ++s) row[column++] = by_lit * around[static_cast<std::size_t>(s)];
        if (at.other > 0) row[column++] = other ? by_lit : 0;
        blocks[c].selfadjointView<Eigen::Lower>().rankUpdate(row, w);
        sides[c] += w * paper_residuals[i][c] * row;
      }
    }
    for (int c = 0; c < 3 && normal; ++c) scatter(at, c, blocks[c], sides[c], *normal, *gradient);
    return cost;
  }

  /// Adds one channel's small block to the whole matrix (lower triangle).
  static void scatter(const ParameterLayout& at, int channel, const MatrixXd& block, const VectorXd& side,
                      MatrixXd& normal, VectorXd& gradient) {
    std::vector<int> where;
    if (at.tone) {
      where.push_back(at.saturation());
      for (int j = 0; j < tone_basis_size; ++j) where.push_back(at.tone_curve() + j);
    }
    for (int j = 0; j < 3 * at.field; ++j) where.push_back(at.brightness() + j);
    where.push_back(at.paper() + channel);
    where.push_back(at.flare() + channel);
    for (int s = 0; s < at.local; ++s) where.push_back(at.local_tone() + s);
    if (at.other > 0) where.push_back(at.other_paper() + channel);
    for (std::size_t i = 0; i < where.size(); ++i) {
      const auto r = static_cast<Eigen::Index>(i);
      gradient[where[i]] += side[r];
      for (std::size_t j = 0; j <= i; ++j)
        normal(std::max(where[i], where[j]), std::min(where[i], where[j])) +=
            block(r, static_cast<Eigen::Index>(j));
    }
  }

  const FitInput& input_;
  const FitConstants& k_;
  const Prior& prior_;
};

}  // namespace

FitOutcome fit_camera_model(const FitInput& input, bool display_referred, double sheet_width_mm,
                            double sheet_height_mm, int field_order, const FitConstants& constants) {
  FitOutcome outcome;
  outcome.model =
      first_guess(input, display_referred, sheet_width_mm, sheet_height_mm, field_order, constants);
  CameraModel& model = outcome.model;
  const Prior prior = prior_about(model, constants);
  Problem problem(input, constants, prior);
  MatrixXd normal;
  VectorXd gradient;
  double damping = 1e-3;
  double cost = problem.evaluate(model, &normal, &gradient);
  for (outcome.iterations = 0; outcome.iterations < constants.most_iterations && !outcome.converged;
       ++outcome.iterations) {
    if (outcome.iterations >= constants.robust_from_iteration) {
      problem.patch_weights = huber_weights(problem.patch_residuals, constants);
      problem.paper_weights = redescending_weights(problem.paper_residuals, constants);
      cost = problem.evaluate(model, &normal, &gradient);
    }
    bool accepted = false;
    for (int attempt = 0; attempt < 8 && !accepted; ++attempt) {
      MatrixXd damped = normal;
      damped.diagonal() *= 1 + damping;
      const VectorXd step = damped.ldlt().solve(-gradient);
      CameraModel candidate = model;
      candidate.parameters += step;
      const double candidate_cost =
          step.allFinite() ? problem.evaluate(candidate, nullptr, nullptr) : INFINITY;
      if (candidate_cost <= cost) {
        const bool settled =
            outcome.iterations > constants.robust_from_iteration + 1 && cost - candidate_cost < 1e-4 * cost;
        model.parameters = candidate.parameters;
        damping = std::max(damping / 5, 1e-9);
        accepted = true;
        outcome.converged = settled;
      } else {
        damping *= 8;
      }
    }
    if (!accepted) {
      // No downhill step at any damping: at the minimum to rounding.
      outcome.converged = true;
    }
    cost = problem.evaluate(model, &normal, &gradient);
  }

  outcome.covariance = normal.ldlt().solve(MatrixXd::Identity(normal.rows(), normal.cols()));
  outcome.patch_weights = problem.patch_weights;
  outcome.paper_weights = huber_weights(problem.paper_residuals, constants);
  if (outcome.patch_weights.empty()) outcome.patch_weights.assign(input.patches.size(), 1.0);
  for (std::size_t i = 0; i < input.paper.size(); ++i) {
    const Vector3d u = model.uncoupled(input.paper[i].encoded);
    double rest = 0;
    for (int c = 0; c < 3; ++c)
      rest += problem.paper_residuals[i][c] * constants.paper_sigma *
              (display_referred ? model.log_light_slope(u[c]) : 1.0) / 3;
    outcome.paper_rest.push_back(rest);
  }
  outcome.reference_covariance.setZero(normal.rows(), normal.cols());
  for (std::size_t i = 0; i < input.patches.size(); ++i) {
    const PatchRow& row = input.patches[i];
    const Vector3d xyz = model.xyz(row.sample);
    const Lab lab = lab_from_xyz({xyz[0], xyz[1], xyz[2]}, white_d50);
    outcome.patch_lab.push_back(lab);
    const Vector3d residual(lab.l - row.reference.l, lab.a - row.reference.a, lab.b - row.reference.b);
    const Matrix3d weight = eigen_from(row.metric_root) / row.sigma;
    const ParameterJacobian& jacobian = problem.patch_jacobians[i];
    // How the parameters follow this patch's reference.
    const MatrixXd gain =
        outcome.patch_weights[i] * outcome.covariance * jacobian.transpose() * (weight.transpose() * weight);
    const Matrix3d leverage = jacobian * gain;
    const MatrixXd moved =
        gain * Vector3d(row.reference_sd[0], row.reference_sd[1], row.reference_sd[2]).asDiagonal();
    outcome.reference_covariance.noalias() += moved * moved.transpose();
    const Vector3d away = (Matrix3d::Identity() - leverage).fullPivLu().solve(residual);
    outcome.leave_one_out.push_back({away[0], away[1], away[2]});
  }
  return outcome;
}

}  // namespace colorlib
