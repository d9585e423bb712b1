#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/calibration/grown_surface_internal.hpp>
#include <colorlib/calibration/local_correction_internal.hpp>
#include <colorlib/calibration/model_fit_internal.hpp>
#include <colorlib/calibration/model_summary_internal.hpp>
#include <colorlib/calibration/reading_budget_internal.hpp>
#include <colorlib/calibration/refusals_internal.hpp>
#include <colorlib/calibration/region_color_internal.hpp>
#include <colorlib/calibration/specular_pixels_internal.hpp>
#include <colorlib/calibration/usable_samples_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

Lab lab_of(const Eigen::Vector3d& xyz) { return lab_from_xyz({xyz[0], xyz[1], xyz[2]}, white_d50); }

std::vector<PatchResidual> patch_residuals(const UsableSamples& usable, const FitOutcome& fit) {
  std::vector<PatchResidual> residuals;
  for (std::size_t i = 0; i < usable.patches.size(); ++i) {
    const Lab& truth = usable.input.patches[i].reference;
    const Lab& away = fit.leave_one_out[i];
    const Lab predicted{truth.l + away.l, truth.a + away.a, truth.b + away.b};
    residuals.push_back({usable.patches[i], fit.patch_lab[i], predicted,
                         difference_ciede2000(truth, predicted), fit.patch_weights[i]});
  }
  return residuals;
}

LocalCorrection local_correction(const UsableSamples& usable, const FitOutcome& fit) {
  std::vector<Lab> places, away;
  for (std::size_t i = 0; i < usable.patches.size(); ++i) {
    const Lab& truth = usable.input.patches[i].reference;
    const Lab& fitted = fit.patch_lab[i];
    places.push_back(truth);
    away.push_back({fitted.l - truth.l, fitted.a - truth.a, fitted.b - truth.b});
  }
  return {std::move(places), away, fit.patch_weights};
}

void summarise_checks(const std::vector<PatchResidual>& residuals, CalibrationSummary& summary) {
  const int used = static_cast<int>(residuals.size());
  std::vector<double> checks;
  for (const PatchResidual& residual : residuals) checks.push_back(residual.leave_one_out_de00);
  for (const double check : checks) summary.check_de00_mean += check / used;
  std::sort(checks.begin(), checks.end());
  summary.check_de00_median = checks[static_cast<std::size_t>(used / 2)];
  summary.check_de00_p95 = checks[static_cast<std::size_t>(std::lround(0.95 * (used - 1)))];
}

CalibrationSummary summary_of(const UsableSamples& usable, const FitOutcome& fit,
                              const std::vector<PatchResidual>& residuals, const ChartDefinition& chart,
                              const CalibrationOptions& options) {
  const CameraModel& model = fit.model;
  const bool phone = model.layout.tone;
  CalibrationSummary summary;
  summary.model = fmt::format(
      "{}light field of order {}, root polynomial of degree 2, one least squares over patches "
      "and bare paper",
      phone ? "tone curve, " : "", options.field_order);
  summary.patches_used = static_cast<int>(usable.patches.size());
  summary.paper_used = static_cast<int>(usable.input.paper.size());
  summary.iterations = fit.iterations;
  summary.converged = fit.converged;
  summarise_checks(residuals, summary);
  summary.lighting_spread_de00 = lighting_spread_de00(model, chart);
  summary.lighting_tint = lighting_tint(model, chart);
  summary.paper = paper_lab(model);
  summary.channel_shares = channel_shares(model);
  if (options.daylight_white)
    summary.white_from_daylight = white_from_daylight(model, *options.daylight_white);
  summary.light_odds =
      light_odds({summary.channel_shares, summary.lighting_tint, summary.white_from_daylight, phone});
  summary.light = options.light;
  for (int i = 0; i < model.layout.local; ++i)
    summary.local_tone -= model.parameters[model.layout.local_tone() + i];
  return summary;
}

}  // namespace

struct Calibration::State {
  CameraModel model;
  FastModel fast;
  LocalCorrection local;
  ReadingBudget budget;
  CalibrationSummary summary;
  std::vector<PatchResidual> residuals;
};

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
  color.budget = state_->budget.of(state_->summary, color.lab, mean);
  for (const auto& part : color.budget) color.covariance = color.covariance + part.covariance;
  color.glint_share = mean.glint_share;
  color.light_rest = state_->budget.light_rest.at(mean.place);
  color.pixels = mean.pixels;
  const Matrix3 to_de00 =
      ciede2000_metric_root(color.lab) * lab_jacobian({mean.xyz[0], mean.xyz[1], mean.xyz[2]}, white_d50);
  const Matrix3 spread = to_de00 * matrix3_from(mean.scatter) * transpose(to_de00);
  color.unevenness_de00 = std::sqrt(std::max(spread(0, 0) + spread(1, 1) + spread(2, 2), 0.0));
  return color;
}

Result<Calibration> calibrate(const ChartDefinition& chart, const ReferenceValues& reference,
                              const SheetSamples& samples, const CalibrationOptions& options) {
  if (auto why = bad_field_order(options.field_order)) return fail(std::move(*why));
  const FitConstants constants;
  const bool phone = options.encoding == EncodingKind::display_referred;
  const UsableSamples usable = usable_samples(samples, reference, phone, constants);
  if (auto why = too_little_to_fit(usable, samples)) return fail(std::move(*why));

  FitOutcome fit =
      fit_camera_model(usable.input, phone, chart.width_mm, chart.height_mm, options.field_order, constants);
  Calibration calibration;
  calibration.state_ = std::make_unique<Calibration::State>();
  auto& state = *calibration.state_;
  state.residuals = patch_residuals(usable, fit);
  state.local = local_correction(usable, fit);
  state.budget = reading_budget(usable, fit, reference.kind);
  state.summary = summary_of(usable, fit, state.residuals, chart, options);
  state.model = std::move(fit.model);
  state.fast = FastModel(state.model);

  if (auto why = poorly_fitted(state.summary, reference.kind, state.budget.light_rest.largest()))
    return fail(std::move(*why));
  return calibration;
}

}  // namespace colorlib
