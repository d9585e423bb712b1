#pragma once
/// The whole forward model, encoded value at a place -> XYZ (D50), with its derivatives by every parameter.

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <colorlib/calibration/calibration.hpp>
#include <colorlib/calibration/color_correction.hpp>
#include <colorlib/calibration/lighting_field.hpp>
#include <colorlib/calibration/tone_response.hpp>

namespace colorlib {

/// Where each group of parameters stands in the vector. Tone groups are absent for linear photos.
struct ParameterLayout {
  bool tone = true;
  int field = 0;                        ///< monomials
  int local = 0;                        ///< scales of local tone mapping; none for linear photos
  int other = 0;                        ///< 3 when there is paper of a second sheet
  int saturation() const { return 0; }  ///< ln s
  int tone_curve() const { return 1; }  ///< p, the same for every channel
  int brightness() const { return tone ? 1 + tone_basis_size : 0; }  ///< f0
  int red_blue() const { return brightness() + field; }              ///< f1
  int green() const { return brightness() + 2 * field; }             ///< f2
  int correction() const { return brightness() + 3 * field; }        ///< C, 3 x 6 row-major
  int mix() const { return correction() + 3 * root_term_count; }     ///< C1, 3 x 3 row-major
  int paper() const { return mix() + 9; }                            ///< ln of the paper's camera colour
  int flare() const { return paper() + 3; }                          ///< o, share of white, one a channel
  int local_tone() const { return flare() + 3; }  ///< strength at each scale of the surroundings
  int other_paper() const {
    return local_tone() + local;
  }  ///< ln of the second sheet's paper against the first's
  int size() const { return other_paper() + other; }
};

/// Luma of an encoded value by the weights of Rec. 601, the ones JPEG's own colour transform uses [T871].
inline double luma_of(const Vector3& encoded) {
  return 0.299 * encoded[0] + 0.587 * encoded[1] + 0.114 * encoded[2];
}
/// Linear values below this are noise about the black level.
inline constexpr double lowest_linear = 1e-5;
/// Nothing reflects less than this share of a white; keeps roots and logarithms defined where flare is
/// overestimated.
inline constexpr double lowest_surface = 1e-4;

/// Rows L, a, b or X, Y, Z; one column a parameter.
using ParameterJacobian = Eigen::Matrix<double, 3, Eigen::Dynamic>;

struct CameraModel {
  ParameterLayout layout;
  LightingBasis lighting;
  Surroundings surroundings;  ///< empty without local tone mapping
  Eigen::Vector3d scale =
      Eigen::Vector3d::Ones();  ///< k_c: camera signal of a white of Y = 1 at the sheet's centre
  Eigen::VectorXd parameters;

  /// Encoded value after the chroma of the encoding is undone: u. Linear photos: unchanged.
  Eigen::Vector3d uncoupled(const Vector3& encoded) const;
  /// Tone: ln y at u, and its slope in u.
  double log_light(double u) const;
  double log_light_slope(double u) const;
  /// ln g of the three channels at a place: the light and what local tone mapping made of it.
  Eigen::Vector3d log_field(const PointMm& place) const;
  /// The local mix of lights, ln g_R - ln g_B.
  double mix_at(const PointMm& place) const;
  /// ln of light per channel of an encoded value.
  Eigen::Vector3d log_light(const Vector3& encoded) const;

  /// z: light per channel relative to white, flare taken off and the light field divided out; above 0.
  std::array<double, 3> surface_light(const Eigen::Vector3d& log_light,
                                      const Eigen::Vector3d& log_field) const;
  /// The same for one channel, from its light instead of the logarithm.
  double surface_light(int channel, double light, double log_field) const {
    return std::max((light / scale[channel] - parameters[layout.flare() + channel]) * std::exp(-log_field),
                    lowest_surface);
  }
  /// XYZ of z where the mix of lights (`mix_at`) is `mix`.
  Eigen::Vector3d corrected(const std::array<double, 3>& z, double mix) const;
  Eigen::Vector3d xyz(const SheetPixel& pixel) const;
  /// XYZ and dXYZ/dparameters (the mix is held while differentiating).
  Eigen::Vector3d xyz(const SheetPixel& pixel, ParameterJacobian& jacobian) const;
};

}  // namespace colorlib
