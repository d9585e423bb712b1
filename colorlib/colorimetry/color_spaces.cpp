#include <algorithm>
#include <cmath>
#include <colorlib/colorimetry/color_spaces.hpp>

namespace colorlib {
namespace {

// CIE 1976 [ISO/CIE 11664-4, eq. 4 to 7]: a cube root with a straight piece below (6/29)^3.
constexpr double lab_join = 216.0 / 24389.0;
constexpr double lab_slope = 841.0 / 108.0;
constexpr double lab_offset = 4.0 / 29.0;
// Ratios beyond this are held: a difference of two infinities would be NaN. No surface comes near.
constexpr double ratio_limit = 1e100;

double lab_compressed(double value, double white) {
  const double ratio = std::clamp(value / white, -ratio_limit, ratio_limit);
  return ratio > lab_join ? std::cbrt(ratio) : lab_slope * ratio + lab_offset;
}

double lab_compressed_slope(double value, double white) {
  const double ratio = value / white;
  if (ratio <= lab_join) return lab_slope / white;
  const double root = std::cbrt(ratio);
  return 1.0 / (3.0 * root * root * white);
}

double lab_expanded(double compressed) {
  return compressed > 6.0 / 29.0 ? compressed * compressed * compressed
                                 : (compressed - lab_offset) / lab_slope;
}

// IEC 61966-2-1, four digits.
constexpr Matrix3 srgb_to_xyz{{0.4124, 0.3576, 0.1805,  //
                               0.2126, 0.7152, 0.0722,  //
                               0.0193, 0.1192, 0.9505}};
constexpr Matrix3 xyz_to_srgb = inverse(srgb_to_xyz);

}  // namespace

Lab lab_from_xyz(const Xyz& xyz, const White& white) {
  const double fx = lab_compressed(xyz.x, white.x);
  const double fy = lab_compressed(xyz.y, white.y);
  const double fz = lab_compressed(xyz.z, white.z);
  return {116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)};
}

Xyz xyz_from_lab(const Lab& lab, const White& white) {
  const double fy = (lab.l + 16.0) / 116.0;
  return {white.x * lab_expanded(fy + lab.a / 500.0), white.y * lab_expanded(fy),
          white.z * lab_expanded(fy - lab.b / 200.0)};
}

Matrix3 lab_jacobian(const Xyz& xyz, const White& white) {
  const double sx = lab_compressed_slope(xyz.x, white.x);
  const double sy = lab_compressed_slope(xyz.y, white.y);
  const double sz = lab_compressed_slope(xyz.z, white.z);
  return {{0, 116.0 * sy, 0, 500.0 * sx, -500.0 * sy, 0, 0, 200.0 * sy, -200.0 * sz}};
}

double linear_from_srgb(double encoded) {
  const double size = std::abs(encoded);
  const double linear = size <= 0.04045 ? size / 12.92 : std::pow((size + 0.055) / 1.055, 2.4);
  return std::copysign(linear, encoded);
}

double srgb_from_linear(double linear) {
  const double size = std::abs(linear);
  const double encoded = size <= 0.0031308 ? 12.92 * size : 1.055 * std::pow(size, 1.0 / 2.4) - 0.055;
  return std::copysign(encoded, linear);
}

Xyz xyz_from_linear_srgb(const LinearRgb& rgb) {
  return xyz_from(srgb_to_xyz * Vector3{rgb.r, rgb.g, rgb.b});
}

LinearRgb linear_srgb_from_xyz(const Xyz& xyz) {
  const Vector3 rgb = xyz_to_srgb * vector_from(xyz);
  return {rgb[0], rgb[1], rgb[2]};
}

}  // namespace colorlib
