#include <cmath>
#include <colorlib/calibration/model_start_internal.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

/// Chroma below which a patch may tell about the light: any printed neutral, no printed colour.
constexpr double neutral_chroma = 6;
/// Neutrals darker than this say more about flare and the curve's foot than about the light.
constexpr double darkest_neutral_l = 35;

/// ln g per channel from log neutrals and log paper with two unknown offsets; ridge keeps it tame.
/// Returns columns R, G, B; rows: field monomials, then the offset of the neutrals, then that of the paper.
Eigen::MatrixXd field_by_channel(const FitInput& input, const CameraModel& model) {
  const int n = model.layout.field;
  Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(n + 2, n + 2), right = Eigen::MatrixXd::Zero(n + 2, 3);
  Eigen::VectorXd row(n + 2);
  const auto add = [&](const SheetPixel& sample, double log_reflectance, int offset) {
    row.setZero();
    model.lighting.values(sample.place, row.data());
    row[n + offset] = 1;
    const Eigen::Vector3d light = model.log_light(sample.encoded).array() - log_reflectance;
    normal += row * row.transpose();
    right += row * light.transpose();
  };
  for (const auto& patch : input.patches)
    if (is_light_neutral(patch.reference))
      add(patch.sample, std::log(xyz_from_lab(patch.reference, white_d50).y), 0);
  for (const auto& paper : input.paper) add(paper, 0, 1);
  normal.diagonal().head(n).array() += 1e-3;
  normal.diagonal().tail(2).array() += 1e-9;
  return normal.ldlt().solve(right);
}

/// C by linear least squares on the linear terms, weighted by Y^(-2/3): roughly equal steps of L*.
void guess_correction(const FitInput& input, CameraModel& model) {
  Eigen::Matrix3d normal = Eigen::Matrix3d::Identity() * 1e-6, right = Eigen::Matrix3d::Zero();
  for (const auto& patch : input.patches) {
    const Xyz xyz = xyz_from_lab(patch.reference, white_d50);
    const Eigen::Vector3d z =
        ((model.log_light(patch.sample.encoded) - model.log_field(patch.sample.place)).array().exp() /
         model.scale.array())
            .matrix();
    const double weight = std::pow(std::max(xyz.y, 1e-3), -2.0 / 3.0);
    normal += weight * weight * z * z.transpose();
    right += weight * weight * z * Eigen::RowVector3d(xyz.x, xyz.y, xyz.z);
  }
  const Eigen::Matrix3d solution = normal.ldlt().solve(right);
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j)
      model.parameters[model.layout.correction() + i * root_term_count + j] = solution(j, i);
}

}  // namespace

bool is_light_neutral(const Lab& reference) {
  return std::hypot(reference.a, reference.b) < neutral_chroma && reference.l > darkest_neutral_l;
}

CameraModel first_guess(const FitInput& input, bool display_referred, double sheet_width_mm,
                        double sheet_height_mm, int field_order, const FitConstants& constants) {
  CameraModel model;
  model.lighting = LightingBasis(sheet_width_mm, sheet_height_mm, field_order);
  model.surroundings = input.surroundings;
  model.layout = {display_referred, model.lighting.size(),
                  model.surroundings.empty() ? 0 : static_cast<int>(Surroundings::scales.size()),
                  input.other_paper.empty() ? 0 : 3};
  model.parameters = Eigen::VectorXd::Zero(model.layout.size());
  if (display_referred) model.parameters[model.layout.saturation()] = constants.saturation_mean;

  const Eigen::MatrixXd by_channel = field_by_channel(input, model);
  const int n = model.layout.field;
  for (int j = 0; j < n; ++j) {
    const double r = by_channel(j, 0), g = by_channel(j, 1), b = by_channel(j, 2), mean = (r + g + b) / 3;
    model.parameters[model.layout.brightness() + j] = mean;
    model.parameters[model.layout.red_blue() + j] = (r - b) / 2;
    model.parameters[model.layout.green() + j] = mean - g;
  }
  bool neutrals = false;
  for (const auto& patch : input.patches) neutrals = neutrals || is_light_neutral(patch.reference);
  for (int c = 0; c < 3; ++c) {
    // Without a light neutral the paper alone sets the scale, as if it reflected all light.
    const double log_scale = by_channel(n + (neutrals ? 0 : 1), c);
    model.scale[c] = std::exp(log_scale);
    model.parameters[model.layout.paper() + c] = input.paper.empty() ? 0 : by_channel(n + 1, c) - log_scale;
  }
  guess_correction(input, model);
  return model;
}

Prior prior_about(const CameraModel& guess, const FitConstants& k) {
  const ParameterLayout& at = guess.layout;
  Prior prior{Eigen::VectorXd::Zero(at.size()), Eigen::MatrixXd::Zero(at.size(), at.size())};
  const auto spread = [&](int first, int count, double sd) {
    prior.information.diagonal().segment(first, count).array() += 1 / (sd * sd);
  };
  if (at.tone) {
    prior.mean[at.saturation()] = k.saturation_mean;
    spread(at.saturation(), 1, k.saturation_sd);
    const int first = at.tone_curve();
    spread(first, tone_basis_size, k.tone_sd);
    Eigen::VectorXd row = Eigen::VectorXd::Zero(at.size());
    for (int j = 0; j + 2 < tone_basis_size; ++j) {
      row.setZero();
      row[first + j] = 1;
      row[first + j + 1] = -2;
      row[first + j + 2] = 1;
      prior.information += row * row.transpose() / (k.tone_bend_sd * k.tone_bend_sd);
    }
    // Pinned to 0 at mid-scale: the overall scale belongs to the colour correction.
    row.setZero();
    const ToneBasis middle = tone_basis(0.5);
    for (int j = 0; j < tone_basis_size; ++j) row[first + j] = middle[static_cast<std::size_t>(j)];
    prior.information += row * row.transpose() / (k.tone_pin_sd * k.tone_pin_sd);
  }
  spread(at.brightness(), at.field, k.brightness_sd);
  spread(at.red_blue(), at.field, k.red_blue_sd);
  spread(at.green(), at.field, k.green_sd);
  for (int i = 0; i < 3; ++i) {
    const int row = at.correction() + i * root_term_count;
    for (int j = 0; j < 3; ++j) prior.mean[row + j] = guess.parameters[row + j];
    spread(row, 3, k.linear_term_sd);
    spread(row + 3, root_term_count - 3, k.root_term_sd);
  }
  spread(at.mix(), 9, k.mix_sd);
  const Eigen::Matrix3d common =
      Eigen::Matrix3d::Constant(1.0 / 3);  // projects on what the three channels share
  prior.information.block<3, 3>(at.flare(), at.flare()) +=
      common / (3 * k.flare_sd * k.flare_sd) +
      (Eigen::Matrix3d::Identity() - common) / (k.flare_apart_sd * k.flare_apart_sd);
  spread(at.local_tone(), at.local, k.local_tone_sd);
  spread(at.other_paper(), at.other, k.other_paper_sd);
  // The paper's camera colour is free; a very wide prior keeps the matrix regular when there is no paper.
  prior.mean.segment(at.paper(), 3) = guess.parameters.segment(at.paper(), 3);
  spread(at.paper(), 3, 3);
  return prior;
}

}  // namespace colorlib
