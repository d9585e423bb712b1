#include <cmath>
#include <colorlib/calibration/model_summary_internal.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

constexpr int steps = 12;  // of the lattice over the sheet, each way

Lab lab_of(const Eigen::Vector3d& xyz) { return lab_from_xyz({xyz[0], xyz[1], xyz[2]}, white_d50); }

/// The colour correction without the mix of lights.
Eigen::Vector3d corrected(const CameraModel& model, const std::array<double, 3>& z) {
  const RootTerms terms = root_terms(z);
  Eigen::Vector3d xyz = Eigen::Vector3d::Zero();
  for (int r = 0; r < 3; ++r)
    for (int t = 0; t < root_term_count; ++t)
      xyz[r] += model.parameters[model.layout.correction() + r * root_term_count + t] *
                terms[static_cast<std::size_t>(t)];
  return xyz;
}

}  // namespace

double lighting_spread_de00(const CameraModel& model, const ChartDefinition& chart) {
  double brightest = -INFINITY, dimmest = INFINITY;
  Lab lightest, darkest;
  for (int i = 0; i <= steps; ++i)
    for (int j = 0; j <= steps; ++j) {
      const Eigen::Vector3d field =
          model.log_field({chart.width_mm * i / steps, chart.height_mm * j / steps});
      // The paper seen under this place's light by a camera corrected for the centre's.
      std::array<double, 3> z{};
      for (int c = 0; c < 3; ++c)
        z[static_cast<std::size_t>(c)] = std::exp(model.parameters[model.layout.paper() + c] + field[c]);
      const Eigen::Vector3d xyz = corrected(model, z);
      if (xyz[1] > brightest) brightest = xyz[1], lightest = lab_of(xyz);
      if (xyz[1] < dimmest) dimmest = xyz[1], darkest = lab_of(xyz);
    }
  return difference_ciede2000(lightest, darkest);
}

double lighting_tint(const CameraModel& model, const ChartDefinition& chart) {
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

Lab paper_lab(const CameraModel& model) {
  std::array<double, 3> z{};
  for (int c = 0; c < 3; ++c)
    z[static_cast<std::size_t>(c)] = std::exp(model.parameters[model.layout.paper() + c]);
  return lab_of(corrected(model, z));
}

std::array<Vector3, 3> channel_shares(const CameraModel& model) {
  std::array<Vector3, 3> shares{};
  for (int row = 0; row < 3; ++row) {
    const double* c = &model.parameters[model.layout.correction() + row * root_term_count];
    const Vector3 s{c[0] + 0.5 * (c[3] + c[5]), c[1] + 0.5 * (c[3] + c[4]), c[2] + 0.5 * (c[4] + c[5])};
    const double sum = s[0] + s[1] + s[2];
    shares[static_cast<std::size_t>(row)] = {s[0] / sum, s[1] / sum, s[2] / sum};
  }
  return shares;
}

std::array<double, 2> white_from_daylight(const CameraModel& model, const Vector3& daylight_white) {
  const Eigen::Vector3d& white = model.scale;
  return {std::log(white[0] / white[1] * daylight_white[1] / daylight_white[0]),
          std::log(white[2] / white[1] * daylight_white[1] / daylight_white[2])};
}

}  // namespace colorlib
