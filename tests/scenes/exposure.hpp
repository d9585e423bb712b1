#pragma once
/// What the camera does about the light's colour.

#include "tests/scenes/scene.hpp"

namespace colorlib::scenes {

/// The lights' spectra at Y = 1, in the settings' order.
std::vector<Spectrum> unit_lights(const SceneSettings& settings);

/// Sensor RGB -> linear sRGB as this camera develops it.
struct Balance {
  Vector3 gains{1, 1, 1};  ///< the smallest is 1: what the sensor clips stays white
  Matrix3 matrix;          ///< balanced RGB -> linear sRGB
  Matrix3 whole() const { return matrix * Matrix3::diagonal(gains[0], gains[1], gains[2]); }
};
/// Automatic balance on the mix of lights at the sheet's centre (with its error), then the maker's matrices
/// for A and D65 mixed by reciprocal colour temperature.
Balance balance_of(const SceneSettings& settings);

/// What a white reads under CIE D65 as the raw file has it: green 1, off by `unlike_its_matrix`.
Vector3 daylight_white_of(const SceneSettings& settings);

}  // namespace colorlib::scenes
