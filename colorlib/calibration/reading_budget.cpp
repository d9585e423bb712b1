#include <algorithm>
#include <cmath>
#include <colorlib/calibration/reading_budget_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

constexpr double least_local_tone = 0.05;  // below that it is the noise of looking for it

/// What of the parameters' covariance would vanish if the lighting field were known: Sigma_.L Sigma_LL^-1
/// Sigma_L.
Eigen::MatrixXd light_part(const Eigen::MatrixXd& covariance, const ParameterLayout& at) {
  const auto columns = covariance.middleCols(at.brightness(), 3 * at.field);
  const auto block = covariance.block(at.brightness(), at.brightness(), 3 * at.field, 3 * at.field);
  return columns * block.ldlt().solve(columns.transpose());
}

Matrix3 lack_of_fit_part(const ReadingBudget& budget, const LackOfFit& own, const CalibrationSummary& summary,
                         const Lab& lab) {
  const Vector3 weight = ciede2000_axis_weights(lab);
  const Vector3 by_light = spread_by_light(own, summary.light, summary.light_odds),
                by_lightness = spread_by_lightness(lab.l),
                variance = budget.patches.variance_near(lab, budget.constants);
  Vector3 diagonal;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const double v2 = variance[axis];
    const double unit = weight[axis] * by_lightness[axis];
    diagonal[axis] =
        unit * unit *
        (own.share[axis] * own.share[axis] * v2 +
         own.growth[axis] * own.growth[axis] * v2 * std::min(v2, own.growth_end * own.growth_end) +
         own.floor[axis] * own.floor[axis] + by_light[axis] * by_light[axis]);
  }
  return Matrix3::diagonal(diagonal[0], diagonal[1], diagonal[2]);
}

/// By the uncertainty of the fitted parameters, the light's share of it apart, and by the references.
void add_fit_parts(const ReadingBudget& budget, const LackOfFit& own, const Lab& lab,
                   const ParameterJacobian& jacobian, std::vector<BudgetComponent>& parts) {
  const double coefficient_scale = own.coefficients * own.coefficients;
  const Eigen::Matrix3d all = coefficient_scale * jacobian * budget.covariance * jacobian.transpose();
  const Eigen::Matrix3d light = coefficient_scale * jacobian * budget.light_covariance * jacobian.transpose();
  Eigen::Matrix3d reference = jacobian * budget.reference_covariance * jacobian.transpose();
  const BudgetConstants& k = budget.constants;
  if (budget.nominal) reference.diagonal().array() += k.nominal_cast * k.nominal_cast;
  if (!budget.patches.transfer_variance.empty())
    reference += eigen_from(budget.patches.transferred_near(lab, k));
  parts.push_back({"coefficients", matrix3_from(all - light)});
  parts.push_back({"light", matrix3_from(light)});
  parts.push_back({"reference", matrix3_from(reference)});
}

/// By what the region's own pixels leave open: glints, black level, noise.
void add_pixel_parts(const BudgetConstants& k, const Lab& lab, const RegionMean& mean,
                     const Eigen::Matrix3d& to_lab, std::vector<BudgetComponent>& parts) {
  const double glint = k.glint_de00 * ciede2000_axis_weights(lab)[0];
  const Eigen::Matrix3d black =
      k.black_level * k.black_level * to_lab *
      Eigen::Vector3d(white_d50.x, white_d50.y, white_d50.z).cwiseAbs2().asDiagonal() * to_lab.transpose();
  const Eigen::Matrix3d noise =
      to_lab * mean.scatter * to_lab.transpose() / static_cast<double>(std::max<std::size_t>(mean.pixels, 1));
  parts.push_back({"glint", Matrix3::diagonal(glint * glint * mean.glint_share, 0, 0)});
  parts.push_back({"black-level", matrix3_from(black)});
  parts.push_back({"noise", matrix3_from(noise)});
}

/// By what the lighting field did not follow on the paper round the reading, `rest` in ln light.
Matrix3 light_rest_part(const BudgetConstants& k, const Lab& lab, double rest) {
  const double rest_of_light = k.light_rest * rest * (1 + rest * rest / (k.light_step * k.light_step));
  return rest_of_light * rest_of_light * outer(proportional_light_direction(lab));
}

/// By not knowing how strongly the paper glowed in the photo against the reference: the paper's blueness of
/// `glow_b` (b* beyond the limit) as a proportional change of Z.
Matrix3 glow_part(const BudgetConstants& k, const Lab& paper, const Lab& lab, double glow_b) {
  const Xyz plain = xyz_from_lab({paper.l, paper.a, k.plain_paper_b}, white_d50);
  const Xyz glowing =
      xyz_from_lab({paper.l, paper.a, k.plain_paper_b - k.plain_paper_spread - glow_b}, white_d50);
  const double share = glowing.z / plain.z - 1;
  const Xyz xyz = xyz_from_lab(lab, white_d50);
  const double glow = k.glow_ratio * share;
  return outer(lab_jacobian(xyz, white_d50) * Vector3{k.glow_x_share * glow * xyz.x, 0, glow * xyz.z});
}

}  // namespace

std::vector<BudgetComponent> ReadingBudget::of(const CalibrationSummary& summary, const Lab& lab,
                                               const RegionMean& mean) const {
  const LackOfFit& own = developed ? constants.developed : constants.linear;
  const Eigen::Matrix3d to_lab = eigen_from(lab_jacobian({mean.xyz[0], mean.xyz[1], mean.xyz[2]}, white_d50));
  std::vector<BudgetComponent> parts{{"lack-of-fit", lack_of_fit_part(*this, own, summary, lab)}};
  add_fit_parts(*this, own, lab, to_lab * mean.by_parameters, parts);
  add_pixel_parts(constants, lab, mean, to_lab, parts);
  parts.push_back({"light-rest", light_rest_part(constants, lab, light_rest.at(mean.place))});
  const double glow = constants.plain_paper_b - constants.plain_paper_spread - summary.paper.b;
  if (glow > 0 && summary.paper_used > 0)
    parts.push_back({"paper-glow", glow_part(constants, summary.paper, lab, glow)});
  if (std::abs(summary.local_tone) > least_local_tone) {
    const double rest = constants.local_tone_rest * summary.local_tone;
    parts.push_back({"local-tone", rest * rest * outer(proportional_light_direction(lab))});
  }
  return parts;
}

ReadingBudget reading_budget(const UsableSamples& usable, const FitOutcome& fit, ReferenceKind reference) {
  ReadingBudget budget;
  budget.developed = fit.model.layout.tone;
  budget.nominal = reference == ReferenceKind::nominal;
  budget.covariance = fit.covariance;
  budget.light_covariance = light_part(fit.covariance, fit.model.layout);
  budget.reference_covariance = fit.reference_covariance;
  budget.patches = patch_spread(usable, fit, reference == ReferenceKind::transferred, budget.constants);
  std::vector<PointMm> paper_places;
  for (const auto& paper : usable.input.paper) paper_places.push_back(paper.place);
  budget.light_rest = LightRest(std::move(paper_places), fit.paper_rest, fit.paper_weights);
  return budget;
}

}  // namespace colorlib
