#pragma once
/// What a phone does between its sensor and its JPEG.

#include <colorlib/base/image.hpp>
#include <colorlib/base/small_matrix.hpp>

#include "tests/scenes/tone_curves.hpp"

namespace colorlib::scenes {

struct DevelopmentSettings {
  /// Automatic white balance: 1 removes the light's colour wholly, 0 leaves that of daylight's.
  double balance_strength = 0.95;
  Vector3 balance_error{1, 1, 1};       ///< gains the balance is off by
  double matrix_temperature_error = 0;  ///< of the maker's interpolation, in reciprocal megakelvin
  double saturation = 1.1;              ///< about luma, after the matrix
  bool saturation_encoded = false;      ///< applied to encoded values instead of linear ones
  double vibrance = 0;                  ///< further saturation of the less saturated colours, encoded values
  ToneCurve tone;
  Vector3 channel_exponent{1, 1, 1};  ///< a film look: slight power a channel, after the tone curve
  double sharpening = 0;              ///< amount of an unsharp mask (radius about 1 px) on encoded values
  /// Local tone mapping: gain (blurred luminance / mean)^(-strength), blur as a share of the picture's width.
  double local_strength = 0, local_blur_share = 0.06;  ///< local tone mapping; share of the picture's width
  double local_edge_share = 0;                         ///< how far its neighbourhoods follow strong edges
  int jpeg_quality = 92;
  bool jpeg_subsampled = true;  ///< 4:2:0, else 4:4:4
};

/// Linear sensor picture (3 channels, exposure set) -> encoded 8-bit RGB: gains, clipping at full scale,
/// matrix, and the settings' steps. The input is used up (changed in place).
Image8 develop(ImageF& sensor, const Vector3& gains, const Matrix3& matrix,
               const DevelopmentSettings& settings);

}  // namespace colorlib::scenes
