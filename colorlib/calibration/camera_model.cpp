#include <algorithm>
#include <cmath>
#include <colorlib/calibration/camera_model_internal.hpp>

namespace colorlib {

Eigen::Vector3d CameraModel::uncoupled(const Vector3& v) const {
  Eigen::Vector3d u(v[0], v[1], v[2]);
  if (!layout.tone) return u;
  const double luma = luma_of(v);
  const double boost = std::exp(parameters[layout.saturation()]);
  return (luma + (u.array() - luma) / boost).matrix();
}

double CameraModel::log_light(double u) const {
  if (!layout.tone) return std::log(std::max(u, lowest_linear));
  const ToneBasis basis = tone_basis(u);
  double correction = 0;
  for (int j = 0; j < tone_basis_size; ++j)
    correction += parameters[layout.tone_curve() + j] * basis[static_cast<std::size_t>(j)];
  return log_srgb_light(u) + correction;
}

double CameraModel::log_light_slope(double u) const {
  if (!layout.tone) return 1 / std::max(u, lowest_linear);
  const ToneBasis slope = tone_basis_slope(u);
  double correction = 0;
  for (int j = 0; j < tone_basis_size; ++j)
    correction += parameters[layout.tone_curve() + j] * slope[static_cast<std::size_t>(j)];
  return log_srgb_light_slope(u) + correction;
}

Eigen::Vector3d CameraModel::log_field(const PointMm& place) const {
  double basis[LightingBasis::most_size];
  lighting.values(place, basis);
  double f[3] = {0, 0, 0};
  for (int j = 0; j < layout.field; ++j) {
    f[0] += parameters[layout.brightness() + j] * basis[j];
    f[1] += parameters[layout.red_blue() + j] * basis[j];
    f[2] += parameters[layout.green() + j] * basis[j];
  }
  if (layout.local > 0) {
    const auto around = surroundings.at(place);
    for (int s = 0; s < layout.local; ++s)
      f[0] += parameters[layout.local_tone() + s] * around[static_cast<std::size_t>(s)];
  }
  Eigen::Vector3d g;
  for (int c = 0; c < 3; ++c) g[c] = f[0] + red_blue_weight[c] * f[1] + green_weight[c] * f[2];
  return g;
}

double CameraModel::mix_at(const PointMm& place) const {
  const Eigen::Vector3d g = log_field(place);
  return g[0] - g[2];
}

Eigen::Vector3d CameraModel::log_light(const Vector3& encoded) const {
  const Eigen::Vector3d u = uncoupled(encoded);
  return {log_light(u[0]), log_light(u[1]), log_light(u[2])};
}

std::array<double, 3> CameraModel::surface_light(const Eigen::Vector3d& light,
                                                 const Eigen::Vector3d& field) const {
  std::array<double, 3> z;
  for (int c = 0; c < 3; ++c) z[static_cast<std::size_t>(c)] = surface_light(c, std::exp(light[c]), field[c]);
  return z;
}

Eigen::Vector3d CameraModel::xyz(const SheetPixel& pixel) const {
  const Eigen::Vector3d field = log_field(pixel.place);
  return corrected(surface_light(log_light(pixel.encoded), field), field[0] - field[2]);
}

Eigen::Vector3d CameraModel::corrected(const std::array<double, 3>& z, double mix) const {
  const RootTerms terms = root_terms(z);
  const double* correction = parameters.data() + layout.correction();
  const double* mixing = parameters.data() + layout.mix();
  Eigen::Vector3d out;
  for (int i = 0; i < 3; ++i) {
    double sum = 0;
    for (std::size_t j = 0; j < root_term_count; ++j)
      sum += correction[i * root_term_count + static_cast<int>(j)] * terms[j];
    for (std::size_t j = 0; j < 3; ++j) sum += mix * mixing[3 * i + static_cast<int>(j)] * z[j];
    out[i] = sum;
  }
  return out;
}

Eigen::Vector3d CameraModel::xyz(const SheetPixel& pixel, ParameterJacobian& jacobian) const {
  jacobian.setZero(3, layout.size());
  double basis[LightingBasis::most_size];
  lighting.values(pixel.place, basis);
  const Eigen::Vector3d field = log_field(pixel.place);
  const auto around = layout.local > 0 ? surroundings.at(pixel.place) : std::array<double, 2>{};
  const Eigen::Vector3d u = uncoupled(pixel.encoded);
  const double mix = field[0] - field[2];
  const std::array<double, 3> z = surface_light({log_light(u[0]), log_light(u[1]), log_light(u[2])}, field);
  const RootTerms terms = root_terms(z);
  const auto slopes = root_term_log_slopes(terms);

  Eigen::Vector3d out = Eigen::Vector3d::Zero();
  Eigen::Matrix3d by_log_z = Eigen::Matrix3d::Zero();  // dXYZ / d ln z_c
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < root_term_count; ++j) {
      const double coefficient = parameters[layout.correction() + i * root_term_count + j];
      const auto term = static_cast<std::size_t>(j);
      out[i] += coefficient * terms[term];
      jacobian(i, layout.correction() + i * root_term_count + j) = terms[term];
      for (int c = 0; c < 3; ++c) by_log_z(i, c) += coefficient * slopes[term][static_cast<std::size_t>(c)];
    }
    for (int c = 0; c < 3; ++c) {
      const double mixed = mix * z[static_cast<std::size_t>(c)];
      const double coefficient = parameters[layout.mix() + 3 * i + c];
      out[i] += coefficient * mixed;
      by_log_z(i, c) += coefficient * mixed;
      jacobian(i, layout.mix() + 3 * i + c) = mixed;
    }
  }
  for (int c = 0; c < 3; ++c) {
    const Eigen::Vector3d column = by_log_z.col(c);
    for (int j = 0; j < layout.field; ++j) {
      jacobian.col(layout.brightness() + j) -= column * basis[j];
      jacobian.col(layout.red_blue() + j) -= column * (red_blue_weight[c] * basis[j]);
      jacobian.col(layout.green() + j) -= column * (green_weight[c] * basis[j]);
    }
    for (int s = 0; s < layout.local; ++s)
      jacobian.col(layout.local_tone() + s) -= column * around[static_cast<std::size_t>(s)];
    const double flare_share = std::exp(-field[c]) / z[static_cast<std::size_t>(c)];  // -d ln z / d flare
    jacobian.col(layout.flare() + c) -= column * flare_share;
    if (!layout.tone) continue;
    const double by_log_light = 1 + parameters[layout.flare() + c] * flare_share;  // d ln z / d ln y
    const ToneBasis tone = tone_basis(u[c]);
    const double luma = luma_of(pixel.encoded);
    if (u[c] > lowest_encoded)
      jacobian.col(layout.saturation()) -= column * (by_log_light * log_light_slope(u[c]) * (u[c] - luma));
    for (int j = 0; j < tone_basis_size; ++j)
      jacobian.col(layout.tone_curve() + j) += column * (by_log_light * tone[static_cast<std::size_t>(j)]);
  }
  return out;
}

}  // namespace colorlib
