#pragma once
/// What a fitted camera model says of the sheet's light and paper, in single figures.

#include <array>
#include <colorlib/calibration/camera_model_internal.hpp>

namespace colorlib {

/// dE00 between bare paper under the brightest and under the dimmest light on the sheet.
double lighting_spread_de00(const CameraModel& model, const ChartDefinition& chart);

/// Root sum of squares of the ranges of ln(red/green) and ln(blue/green) in the light on the sheet.
double lighting_tint(const CameraModel& model, const ChartDefinition& chart);

/// The paper under the light of the sheet's centre, D50.
Lab paper_lab(const CameraModel& model);

/// Of red, green and blue in X, Y and Z round white: the derivatives of each over their sum.
std::array<Vector3, 3> channel_shares(const CameraModel& model);

/// ln of red/green and of blue/green of a white at the sheet's centre over the camera's own in daylight.
std::array<double, 2> white_from_daylight(const CameraModel& model, const Vector3& daylight_white);

}  // namespace colorlib
