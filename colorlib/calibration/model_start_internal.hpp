#pragma once
/// A first guess of the camera model from linear least squares, and the Gaussian priors about it.

#include <colorlib/calibration/model_fit_internal.hpp>

namespace colorlib {

/// Whether a patch of this colour (D50) may tell about the light: neutral, and not so dark that flare and the
/// foot of the tone curve say more.
bool is_light_neutral(const Lab& reference);

/// Sets layout, lighting, scale and parameters: sRGB decoding, field from log neutrals and log paper, C from
/// the patches.
CameraModel first_guess(const FitInput& input, bool display_referred, double sheet_width_mm,
                        double sheet_height_mm, int field_order, const FitConstants& constants);

/// A Gaussian prior on the parameters: (theta - mean)^T information (theta - mean).
struct Prior {
  Eigen::VectorXd mean;
  Eigen::MatrixXd information;
};
Prior prior_about(const CameraModel& guess, const FitConstants& constants);

}  // namespace colorlib
