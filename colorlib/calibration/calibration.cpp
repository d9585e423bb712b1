#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/median.hpp>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/calibration/grown_surface_internal.hpp>
#include <colorlib/calibration/light_rest_internal.hpp>
#include <colorlib/calibration/local_correction_internal.hpp>
#include <colorlib/calibration/model_fit_internal.hpp>
#include <colorlib/calibration/model_start_internal.hpp>
#include <colorlib/calibration/patch_unevenness_internal.hpp>
#include <colorlib/calibration/region_color_internal.hpp>
#include <colorlib/calibration/specular_pixels_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

constexpr double least_local_tone = 0.05;  // below that it is the noise of looking for it
constexpr int least_patches = 12;
constexpr int least_light_neutrals = 3;
constexpr double worst_check_measured = 5, worst_check_nominal = 9;

Matrix3 matrix_from(const Eigen::Matrix3d& m) {
  Matrix3 out;
  for (int r = 0; r < 3; ++r)
    for (int c = 0; c < 3; ++c) out(r, c) = m(r, c);
  return out;
}

Lab lab_of(const Eigen::Vector3d& xyz) { return lab_from_xyz({xyz[0], xyz[1], xyz[2]}, white_d50); }

/// Leave-one-out residuals in units of each axis' own CIEDE2000 weight, clipped at robust standard
/// deviations.
std::vector<Vector3> scaled_residuals(const FitInput& input, const std::vector<Lab>& away,
                                      const BudgetConstants& k) {
  std::vector<Vector3> scaled(away.size());
  for (std::size_t i = 0; i < away.size(); ++i) {
    const Vector3 weight = ciede2000_axis_weights(input.patches[i].reference);
    scaled[i] = {away[i].l / weight[0], away[i].a / weight[1], away[i].b / weight[2]};
  }
  for (std::size_t axis = 0; axis < 3 && !scaled.empty(); ++axis) {
    std::vector<double> sizes;
    for (const auto& s : scaled) sizes.push_back(std::abs(s[axis]));
    const double limit = k.clip_robust_sd * 1.4826 * std::max(median(std::move(sizes)), 0.02);
    for (auto& s : scaled) s[axis] = std::clamp(s[axis], -limit, limit);
  }
  return scaled;
}

}  // namespace

struct Calibration::State {
  CameraModel model;
  FastModel fast;
  Eigen::MatrixXd covariance;            ///< of the parameters
  Eigen::MatrixXd light_covariance;      ///< the part of it that knowing the light would remove
  Eigen::MatrixXd reference_covariance;  ///< of the parameters, from the references' own uncertainties
  LocalCorrection local;
  LightRest light_rest;
  std::vector<Lab> patch_places;
  std::vector<Vector3> residual_scaled;
  std::vector<Vector3> reference_scaled;  ///< standard uncertainty of the references, in the same units
  std::vector<double> patch_weight;  ///< of the residuals' squares: 1, less for patches of uneven colour or
                                     ///< that the fit doubts
  Vector3 pooled_variance{}, pooled_reference_variance{};
  bool nominal = false;
  std::vector<Vector3>
      transfer_variance;  ///< of each used patch, Lab; empty: the reference was not carried over
  BudgetConstants budget;
  CalibrationSummary summary;
  std::vector<PatchResidual> residuals;

  void split_light();
  double lighting_spread(const ChartDefinition& chart) const;
  double lighting_tint(const ChartDefinition& chart) const;
  std::array<Vector3, 3> channel_shares() const;
  Lab paper_lab() const;
  Eigen::Vector3d corrected(const std::array<double, 3>& z) const;
  double plain_paper_limit() const { return budget.plain_paper_b - budget.plain_paper_spread; }
  Matrix3 glow_component(const Lab& lab, double glow_b) const;
  Matrix3 transferred_component(const Lab& lab) const;
  std::vector<BudgetComponent> budget_of(const Lab& lab, const RegionMean& mean) const;
};

/// What of the parameters' covariance would vanish if the lighting field were known: Sigma_.L Sigma_LL^-1
/// Sigma_L.
void Calibration::State::split_light() {
  const ParameterLayout& at = model.layout;
  const auto columns = covariance.middleCols(at.brightness(), 3 * at.field);
  const auto block = covariance.block(at.brightness(), at.brightness(), 3 * at.field, 3 * at.field);
  light_covariance = columns * block.ldlt().solve(columns.transpose());
}

/// The colour correction without the mix of lights.
Eigen::Vector3d Calibration::State::corrected(const std::array<double, 3>& z) const {
  const RootTerms terms = root_terms(z);
  Eigen::Vector3d xyz = Eigen::Vector3d::Zero();
  for (int r = 0; r < 3; ++r)
    for (int t = 0; t < root_term_count; ++t)
      xyz[r] += model.parameters[model.layout.correction() + r * root_term_count + t] *
                terms[static_cast<std::size_t>(t)];
  return xyz;
}

/// Of red, green and blue in X, Y and Z round white: the derivatives of each over their sum.
std::array<Vector3, 3> Calibration::State::channel_shares() const {
  std::array<Vector3, 3> shares;
  for (int row = 0; row < 3; ++row) {
    const double* c = model.parameters.data() + model.layout.correction() + row * root_term_count;
    const Vector3 s{c[0] + 0.5 * (c[3] + c[5]), c[1] + 0.5 * (c[3] + c[4]), c[2] + 0.5 * (c[4] + c[5])};
    const double sum = s[0] + s[1] + s[2];
    shares[static_cast<std::size_t>(row)] = {s[0] / sum, s[1] / sum, s[2] / sum};
  }
  return shares;
}

/// The paper under the light of the sheet's centre.
Lab Calibration::State::paper_lab() const {
  const auto& at = model.layout;
  std::array<double, 3> z;
  for (int c = 0; c < 3; ++c) z[static_cast<std::size_t>(c)] = std::exp(model.parameters[at.paper() + c]);
  return lab_of(corrected(z));
}

double Calibration::State::lighting_spread(const ChartDefinition& chart) const {
  const auto& at = model.layout;
  constexpr int steps = 12;
  double brightest = -INFINITY, dimmest = INFINITY;
  Lab lightest, darkest;
  for (int i = 0; i <= steps; ++i)
    for (int j = 0; j <= steps; ++j) {
      const Eigen::Vector3d field =
          model.log_field({chart.width_mm * i / steps, chart.height_mm * j / steps});
      // The paper seen under this place's light by a camera corrected for the centre's.
      std::array<double, 3> z;
      for (int c = 0; c < 3; ++c)
        z[static_cast<std::size_t>(c)] = std::exp(model.parameters[at.paper() + c] + field[c]);
      const Eigen::Vector3d xyz = corrected(z);
      if (xyz[1] > brightest) brightest = xyz[1], lightest = lab_of(xyz);
      if (xyz[1] < dimmest) dimmest = xyz[1], darkest = lab_of(xyz);
    }
  return difference_ciede2000(lightest, darkest);
}

/// Covariance of a reading by not knowing how strongly the paper glowed in the photo against the reference:
/// the paper's blueness of `glow_b` (b* beyond the limit) as a proportional change of Z.
Matrix3 Calibration::State::glow_component(const Lab& lab, double glow_b) const {
  const Xyz plain = xyz_from_lab({summary.paper.l, summary.paper.a, budget.plain_paper_b}, white_d50);
  const Xyz glowing = xyz_from_lab(
      {summary.paper.l, summary.paper.a, budget.plain_paper_b - budget.plain_paper_spread - glow_b},
      white_d50);
  const double share = glowing.z / plain.z - 1;
  const Xyz xyz = xyz_from_lab(lab, white_d50);
  const double glow = budget.glow_ratio * share;
  return outer(lab_jacobian(xyz, white_d50) * Vector3{budget.glow_x_share * glow * xyz.x, 0, glow * xyz.z});
}

/// What carrying the reference over brought into every patch of like colour alike: the patches' own residuals
/// cannot show it. The mean variance of the patches near the colour.
Matrix3 Calibration::State::transferred_component(const Lab& lab) const {
  Vector3 sum{};
  double total = 0;
  for (std::size_t i = 0; i < patch_places.size(); ++i) {
    const double distance = difference_cie76(lab, patch_places[i]) / budget.near_lab;
    // Far from all patches all count alike; ones of which little is known say little.
    const auto& u = transfer_variance[i];
    const double near = (std::exp(-distance * distance / 2) + 1e-3) / (u[0] + u[1] + u[2]);
    total += near;
    for (std::size_t axis = 0; axis < 3; ++axis) sum[axis] += near * transfer_variance[i][axis];
  }
  const double share = budget.transferred * budget.transferred / total;
  return Matrix3::diagonal(share * sum[0], share * sum[1], share * sum[2]);
}

double Calibration::State::lighting_tint(const ChartDefinition& chart) const {
  constexpr int steps = 12;
  Eigen::Array2d least(INFINITY, INFINITY), most = -least;
  for (int i = 0; i <= steps; ++i)
    for (int j = 0; j <= steps; ++j) {
      const Eigen::Vector3d field =
          model.log_field({chart.width_mm * i / steps, chart.height_mm * j / steps});
      const Eigen::Array2d tint(field[0] - field[1], field[2] - field[1]);
      least = least.min(tint);
      most = most.max(tint);
    }
  return (most - least).matrix().norm();
}

std::vector<BudgetComponent> Calibration::State::budget_of(const Lab& lab, const RegionMean& mean) const {
  const Vector3 weight = ciede2000_axis_weights(lab);
  Vector3 sum{}, known{};
  double total = budget.pooled_patches;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    sum[axis] = budget.pooled_patches * pooled_variance[axis];
    known[axis] = budget.pooled_patches * pooled_reference_variance[axis];
  }
  for (std::size_t i = 0; i < patch_places.size(); ++i) {
    const double distance = difference_cie76(lab, patch_places[i]) / budget.near_lab;
    const double near = patch_weight[i] * std::exp(-distance * distance / 2);
    total += near;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      sum[axis] += near * residual_scaled[i][axis] * residual_scaled[i][axis];
      known[axis] += near * reference_scaled[i][axis] * reference_scaled[i][axis];
    }
  }
  const LackOfFit& own = model.layout.tone ? budget.developed : budget.linear;
  const Vector3 by_light = spread_by_light(own, summary.light, summary.light_odds),
                by_lightness = spread_by_lightness(lab.l);
  Vector3 diagonal;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    // What the references' own errors put into the residuals is not lack of fit.
    const double v2 = std::max(sum[axis] - known[axis], budget.least_residual_share * sum[axis]) / total;
    const double unit = weight[axis] * by_lightness[axis];
    diagonal[axis] =
        unit * unit *
        (own.share[axis] * own.share[axis] * v2 +
         own.growth[axis] * own.growth[axis] * v2 * std::min(v2, own.growth_end * own.growth_end) +
         own.floor[axis] * own.floor[axis] + by_light[axis] * by_light[axis]);
  }

  const Matrix3 to_lab = lab_jacobian({mean.xyz[0], mean.xyz[1], mean.xyz[2]}, white_d50);
  const ParameterJacobian jacobian = eigen_from(to_lab) * mean.by_parameters;
  const double coefficient_scale = own.coefficients * own.coefficients;
  const Eigen::Matrix3d all = coefficient_scale * jacobian * covariance * jacobian.transpose();
  const Eigen::Matrix3d light = coefficient_scale * jacobian * light_covariance * jacobian.transpose();
  Eigen::Matrix3d reference = jacobian * reference_covariance * jacobian.transpose();
  if (nominal) reference.diagonal().array() += budget.nominal_cast * budget.nominal_cast;
  if (!transfer_variance.empty()) reference += eigen_from(transferred_component(lab));
  const double glint = budget.glint_de00 * weight[0];
  const Eigen::Matrix3d black =
      budget.black_level * budget.black_level * eigen_from(to_lab) *
      Eigen::Vector3d(white_d50.x, white_d50.y, white_d50.z).cwiseAbs2().asDiagonal() *
      eigen_from(to_lab).transpose();
  const Eigen::Matrix3d noise = eigen_from(to_lab) * mean.scatter * eigen_from(to_lab).transpose() /
                                static_cast<double>(std::max<std::size_t>(mean.pixels, 1));

  std::vector<BudgetComponent> parts{
      {"lack-of-fit", Matrix3::diagonal(diagonal[0], diagonal[1], diagonal[2])},
      {"coefficients", matrix_from(all - light)},
      {"light", matrix_from(light)},
      {"reference", matrix_from(reference)},
      {"glint", Matrix3::diagonal(glint * glint * mean.glint_share, 0, 0)},
      {"black-level", matrix_from(black)},
      {"noise", matrix_from(noise)}};
  const double rest = light_rest.at(mean.place);
  const double rest_of_light =
      budget.light_rest * rest * (1 + rest * rest / (budget.light_step * budget.light_step));
  parts.push_back({"light-rest", rest_of_light * rest_of_light * outer(proportional_light_direction(lab))});
  if (const double glow = plain_paper_limit() - summary.paper.b; glow > 0 && summary.paper_used > 0)
    parts.push_back({"paper-glow", glow_component(lab, glow)});
  if (std::abs(summary.local_tone) > least_local_tone) {
    const double rest = budget.local_tone_rest * summary.local_tone;
    parts.push_back({"local-tone", rest * rest * outer(proportional_light_direction(lab))});
  }
  return parts;
}

Calibration::Calibration() = default;
Calibration::~Calibration() = default;
Calibration::Calibration(Calibration&&) noexcept = default;
Calibration& Calibration::operator=(Calibration&&) noexcept = default;

const CalibrationSummary& Calibration::summary() const { return state_->summary; }
const std::vector<PatchResidual>& Calibration::residuals() const { return state_->residuals; }

Xyz Calibration::xyz_from_pixel(const SheetPixel& pixel) const {
  const Eigen::Vector3d xyz = state_->fast.xyz(state_->model, pixel);
  return {xyz[0], xyz[1], xyz[2]};
}

std::vector<bool> Calibration::specular(std::span<const SheetPixel> pixels) const {
  std::vector<Eigen::Vector3d> xyz;
  for (const auto& pixel : pixels) xyz.push_back(state_->fast.xyz(state_->model, pixel));
  return specular_pixels(xyz, pixels, state_->model.layout.tone);
}

CalibratedColor Calibration::color_of(std::span<const SheetPixel> pixels, Surface surface,
                                      const std::optional<Xyz>& matt_ground) const {
  const RegionMean mean = region_mean(state_->model, state_->fast, pixels, matt_ground);
  const Lab raw = lab_of(mean.xyz);
  CalibratedColor color;
  if (surface == Surface::printed) {
    const Vector3 away = state_->local.at(raw);
    color.lab = {raw.l - away[0], raw.a - away[1], raw.b - away[2]};
  } else {
    const Vector3 shift =
        grown_surface_shift(raw, state_->summary.light_odds.unlike_daylight(), !state_->model.layout.tone);
    color.lab = {raw.l + shift[0], raw.a + shift[1], raw.b + shift[2]};
  }
  color.xyz = xyz_from_lab(color.lab, white_d50);
  color.budget = state_->budget_of(color.lab, mean);
  for (const auto& part : color.budget) color.covariance = color.covariance + part.covariance;
  color.glint_share = mean.glint_share;
  color.light_rest = state_->light_rest.at(mean.place);
  color.pixels = mean.pixels;
  const Matrix3 to_de00 =
      ciede2000_metric_root(color.lab) * lab_jacobian({mean.xyz[0], mean.xyz[1], mean.xyz[2]}, white_d50);
  const Matrix3 spread = to_de00 * matrix_from(mean.scatter) * transpose(to_de00);
  color.unevenness_de00 = std::sqrt(std::max(spread(0, 0) + spread(1, 1) + spread(2, 2), 0.0));
  return color;
}

namespace {

std::array<double, 2> white_from_daylight(const Eigen::Vector3d& white, const Vector3& daylight) {
  return {std::log(white[0] / white[1] * daylight[1] / daylight[0]),
          std::log(white[2] / white[1] * daylight[1] / daylight[2])};
}

}  // namespace

Result<Calibration> calibrate(const ChartDefinition& chart, const ReferenceValues& reference,
                              const SheetSamples& samples, const CalibrationOptions& options) {
  if (options.field_order < 1 || options.field_order > LightingBasis::most_order)
    return fail(ErrorCode::bad_call,
                fmt::format("Calibrating: a lighting field of order {} was asked for, there are 1 to {}.",
                            options.field_order, LightingBasis::most_order),
                "Use order 3.");
  const FitConstants constants;
  const bool phone = options.encoding == EncodingKind::display_referred;
  FitInput input;
  std::vector<std::size_t> which;
  int light_neutrals = 0;
  double most_chroma = 0;
  const std::vector<double> unevenness = patch_unevenness(samples.patches, phone);
  std::vector<double> patch_trust;
  for (std::size_t i = 0; i < samples.patches.size(); ++i) {
    const auto& sample = samples.patches[i];
    if (sample.dropped) continue;
    const auto& value = reference.patches[sample.patch];
    PatchRow row{{sample.place, sample.encoded}, value.lab, ciede2000_metric_root(value.lab), 1};
    const double base = phone ? constants.patch_sigma_phone : constants.patch_sigma_linear;
    const auto& u = value.standard_uncertainty;
    row.reference_sd = u;
    const double even = base * base + (u[0] * u[0] + u[1] * u[1] + u[2] * u[2]) / 3;
    row.sigma = std::sqrt(even + unevenness[i] * unevenness[i]);
    patch_trust.push_back(even / (row.sigma * row.sigma));
    input.patches.push_back(row);
    which.push_back(sample.patch);
    light_neutrals += is_light_neutral(value.lab);
    const auto [low, high] = std::minmax_element(sample.encoded.begin(), sample.encoded.end());
    most_chroma = std::max(most_chroma, *high - *low);
  }
  for (const auto& paper : samples.paper) input.paper.push_back({paper.place, paper.encoded});

  for (const auto& paper : samples.other_paper) input.other_paper.push_back({paper.place, paper.encoded});

  input.surroundings = samples.surroundings;

  const int used = static_cast<int>(input.patches.size());
  const auto clipped = std::count_if(samples.patches.begin(), samples.patches.end(),
                                     [](const PatchSample& sample) { return over_exposed(sample, {}); });
  const bool mostly_clipped = 2 * clipped > static_cast<std::ptrdiff_t>(samples.patches.size()) - used;
  if (used < least_patches && mostly_clipped)
    return fail(ErrorCode::untrustworthy,
                fmt::format("Calibrating: only {} of {} patches can be used, {} are needed; {} are "
                            "over-exposed.",
                            used, samples.patches.size(), least_patches, clipped),
                expose_less_advice);
  if (used < least_patches)
    return fail(
        ErrorCode::untrustworthy,
        fmt::format("Calibrating: only {} of {} patches can be used, {} are needed.", used,
                    samples.patches.size(), least_patches),
        "Take the photo again with the whole sheet in view, sharp, without glare and not over-exposed.");
  if (input.paper.empty() && light_neutrals < least_light_neutrals &&
      samples.paper_clipped_share > mostly_clipped_paper)
    return fail(
        ErrorCode::untrustworthy,
        fmt::format("Calibrating: the bare paper is over-exposed, and only {} light neutral patches can "
                    "be used, {} are needed to know the light.",
                    light_neutrals, least_light_neutrals),
        expose_less_advice);
  if (input.paper.empty() && light_neutrals < least_light_neutrals)
    return fail(
        ErrorCode::untrustworthy,
        fmt::format(
            "Calibrating: no bare paper and only {} light neutral patches can be used, {} are needed to "
            "know the light.",
            light_neutrals, least_light_neutrals),
        "Keep the paper round the opening clean and in view, and avoid over-exposure.");
  if (most_chroma < 0.02)
    return fail(ErrorCode::untrustworthy, "Calibrating: the photo shows the coloured patches without colour.",
                "Use a colour photo, not a black-and-white one.");

  FitOutcome fit =
      fit_camera_model(input, phone, chart.width_mm, chart.height_mm, options.field_order, constants);
  Calibration calibration;
  calibration.state_ = std::make_unique<Calibration::State>();
  auto& state = *calibration.state_;
  state.model = std::move(fit.model);
  state.fast = FastModel(state.model);
  state.covariance = std::move(fit.covariance);
  state.reference_covariance = std::move(fit.reference_covariance);
  state.split_light();
  state.nominal = reference.kind == ReferenceKind::nominal;

  std::vector<PointMm> paper_places;
  for (const auto& paper : input.paper) paper_places.push_back(paper.place);
  state.light_rest = LightRest(std::move(paper_places), fit.paper_rest, fit.paper_weights);

  std::vector<Lab> plain;
  std::vector<double> checks;
  for (std::size_t i = 0; i < input.patches.size(); ++i) {
    const Lab& truth = input.patches[i].reference;
    const Lab& fitted = fit.patch_lab[i];
    plain.push_back({fitted.l - truth.l, fitted.a - truth.a, fitted.b - truth.b});
    const Lab& away = fit.leave_one_out[i];
    const Lab predicted{truth.l + away.l, truth.a + away.a, truth.b + away.b};
    checks.push_back(difference_ciede2000(truth, predicted));
    state.residuals.push_back({which[i], fitted, predicted, checks.back(), fit.patch_weights[i]});
    state.patch_places.push_back(truth);
    const auto& u = reference.patches[which[i]].standard_uncertainty;
    if (reference.kind == ReferenceKind::transferred)
      state.transfer_variance.push_back({u[0] * u[0], u[1] * u[1], u[2] * u[2]});
  }
  state.local = LocalCorrection(state.patch_places, plain, fit.patch_weights);
  state.residual_scaled = scaled_residuals(input, fit.leave_one_out, state.budget);
  for (const auto& row : input.patches) {
    const Vector3 weight = ciede2000_axis_weights(row.reference);
    Vector3 scaled;
    for (std::size_t axis = 0; axis < 3; ++axis) scaled[axis] = row.reference_sd[axis] / weight[axis];
    state.reference_scaled.push_back(scaled);
  }
  // What an uneven patch is off by is soil, not lack of fit: it says little of how far a specimen is off. The
  // same of one that the fit doubts.
  double all = 0;
  for (std::size_t i = 0; i < patch_trust.size(); ++i) {
    const double trust = patch_trust[i] * fit.patch_weights[i];
    state.patch_weight.push_back(trust * trust);
    all += trust * trust;
  }
  for (std::size_t i = 0; i < input.patches.size(); ++i)
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const double share = state.patch_weight[i] / all, residual = state.residual_scaled[i][axis],
                   known = state.reference_scaled[i][axis];
      state.pooled_variance[axis] += share * residual * residual;
      state.pooled_reference_variance[axis] += share * known * known;
    }

  auto& summary = state.summary;
  summary.model = fmt::format(
      "{}light field of order {}, root polynomial of degree 2, one least squares over patches "
      "and bare paper",
      phone ? "tone curve, " : "", options.field_order);
  summary.patches_used = used;
  summary.paper_used = static_cast<int>(input.paper.size());
  summary.iterations = fit.iterations;
  summary.converged = fit.converged;
  for (const double check : checks) summary.check_de00_mean += check / used;
  std::sort(checks.begin(), checks.end());
  summary.check_de00_median = checks[static_cast<std::size_t>(used / 2)];
  summary.check_de00_p95 = checks[static_cast<std::size_t>(0.95 * (used - 1) + 0.5)];
  summary.lighting_spread_de00 = state.lighting_spread(chart);
  summary.lighting_tint = state.lighting_tint(chart);
  summary.paper = state.paper_lab();
  summary.channel_shares = state.channel_shares();
  if (options.daylight_white)
    summary.white_from_daylight = white_from_daylight(state.model.scale, *options.daylight_white);
  summary.light_odds =
      light_odds({summary.channel_shares, summary.lighting_tint, summary.white_from_daylight, phone});
  summary.light = options.light;
  for (int i = 0; i < state.model.layout.local; ++i)
    summary.local_tone -= state.model.parameters[state.model.layout.local_tone() + i];

  const double worst = state.nominal ? worst_check_nominal : worst_check_measured;
  if (summary.check_de00_mean > worst && state.light_rest.largest() > most_light_rest)
    return fail(ErrorCode::untrustworthy,
                fmt::format("Calibrating: the light on the sheet's paper departs by up to {:.0f} % from what "
                            "is smooth, as at a shadow's edge or under heavy "
                            "soil, and the patches differ from their reference values by {:.1f} \u0394E00 on "
                            "average, more than {:.0f} cannot be trusted.",
                            100 * state.light_rest.largest(), summary.check_de00_mean, worst),
                even_light_advice);
  if (!std::isfinite(summary.check_de00_mean) || summary.check_de00_mean > worst)
    return fail(ErrorCode::untrustworthy,
                fmt::format("Calibrating: the patches differ from their reference values by {:.1f} \u0394E00 "
                            "on average, more "
                            "than {:.0f} cannot be trusted.",
                            summary.check_de00_mean, worst),
                "Check that the chart and the reference file belong to this sheet, that it lies the right "
                "way round, and "
                "that no patch is dirty, wet, in glare or in a shadow.");
  return calibration;
}

}  // namespace colorlib
