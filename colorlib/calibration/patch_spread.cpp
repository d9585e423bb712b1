#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/calibration/patch_spread_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>

namespace colorlib {
namespace {

Vector3 scaled(const Vector3& lab_difference, const Lab& reference) {
  const Vector3 weight = ciede2000_axis_weights(reference);
  return {lab_difference[0] / weight[0], lab_difference[1] / weight[1], lab_difference[2] / weight[2]};
}

/// Each axis at so many robust standard deviations.
void clip(std::vector<Vector3>& residuals, double robust_sd) {
  for (std::size_t axis = 0; axis < 3 && !residuals.empty(); ++axis) {
    std::vector<double> sizes;
    for (const auto& r : residuals) sizes.push_back(std::abs(r[axis]));
    const double limit = robust_sd * 1.4826 * std::max(median(std::move(sizes)), 0.02);
    for (auto& r : residuals) r[axis] = std::clamp(r[axis], -limit, limit);
  }
}

void pool(PatchSpread& spread) {
  double all = 0;
  for (const double weight : spread.weights) all += weight;
  for (std::size_t i = 0; i < spread.places.size(); ++i)
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const double share = spread.weights[i] / all, residual = spread.residual_scaled[i][axis],
                   known = spread.reference_scaled[i][axis];
      spread.pooled_variance[axis] += share * residual * residual;
      spread.pooled_reference_variance[axis] += share * known * known;
    }
}

}  // namespace

PatchSpread patch_spread(const UsableSamples& usable, const FitOutcome& fit, bool carried_over,
                         const BudgetConstants& budget) {
  PatchSpread spread;
  for (std::size_t i = 0; i < usable.input.patches.size(); ++i) {
    const PatchRow& row = usable.input.patches[i];
    const Vector3& u = row.reference_sd;
    spread.places.push_back(row.reference);
    spread.residual_scaled.push_back(scaled(vector_from(fit.leave_one_out[i]), row.reference));
    spread.reference_scaled.push_back(scaled(u, row.reference));
    // What an uneven patch is off by is soil, not lack of fit: it says little of how far a specimen is off.
    // The same of one that the fit doubts.
    const double trust = usable.trust[i] * fit.patch_weights[i];
    spread.weights.push_back(trust * trust);
    if (carried_over) spread.transfer_variance.push_back({u[0] * u[0], u[1] * u[1], u[2] * u[2]});
  }
  clip(spread.residual_scaled, budget.clip_robust_sd);
  pool(spread);
  return spread;
}

Vector3 PatchSpread::variance_near(const Lab& lab, const BudgetConstants& budget) const {
  Vector3 sum{}, known{};
  double total = budget.pooled_patches;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    sum[axis] = budget.pooled_patches * pooled_variance[axis];
    known[axis] = budget.pooled_patches * pooled_reference_variance[axis];
  }
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double distance = difference_cie76(lab, places[i]) / budget.near_lab;
    const double near = weights[i] * std::exp(-distance * distance / 2);
    total += near;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      sum[axis] += near * residual_scaled[i][axis] * residual_scaled[i][axis];
      known[axis] += near * reference_scaled[i][axis] * reference_scaled[i][axis];
    }
  }
  Vector3 variance;
  for (std::size_t axis = 0; axis < 3; ++axis)
    variance[axis] = std::max(sum[axis] - known[axis], budget.least_residual_share * sum[axis]) / total;
  return variance;
}

Matrix3 PatchSpread::transferred_near(const Lab& lab, const BudgetConstants& budget) const {
  Vector3 sum{};
  double total = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double distance = difference_cie76(lab, places[i]) / budget.near_lab;
    // Far from all patches all count alike; ones of which little is known say little.
    const auto& u = transfer_variance[i];
    const double near = (std::exp(-distance * distance / 2) + 1e-3) / (u[0] + u[1] + u[2]);
    total += near;
    for (std::size_t axis = 0; axis < 3; ++axis) sum[axis] += near * transfer_variance[i][axis];
  }
  const double share = budget.transferred * budget.transferred / total;
  return Matrix3::diagonal(share * sum[0], share * sum[1], share * sum[2]);
}

}  // namespace colorlib
