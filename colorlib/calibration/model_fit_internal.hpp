#pragma once
/// Fitting the camera model to patches and bare paper: one regularised, robust least squares.

#include <Eigen/Dense>
#include <colorlib/calibration/camera_model_internal.hpp>
#include <vector>

namespace colorlib {

inline Eigen::Matrix3d eigen_from(const Matrix3& m) { return converted<Eigen::Matrix3d>(m); }

/// Constants of the fit, with the reason or the experiment behind each in docs/explanation/calibration.md.
struct FitConstants {
  double patch_sigma_phone = 0.7,
         patch_sigma_linear = 0.4;  ///< dE00 a patch is off by, apart from its reference
  double paper_sigma = 0.006;       ///< encoded value (phone) or ln light (linear)
  double saturation_mean = 0.07696, saturation_sd = 0.12;  ///< ln 1.08
  double tone_sd = 1, tone_bend_sd = 0.3, tone_pin_sd = 1e-3;
  double brightness_sd = 1, red_blue_sd = 0.3, green_sd = 0.15;
  double linear_term_sd = 3, root_term_sd = 0.2, mix_sd = 0.1;
  double flare_sd =
      0.001;  ///< share of white, common to the channels: veiling glare of a clean lens, black level
  double flare_apart_sd =
      0.0001;  ///< of each channel by itself: more would let dark inks bend the colours of dark specimens
  double local_tone_sd = 0.15;  ///< ln gain for each ln of the neighbourhood's light
  double other_paper_sd = 0.1;  ///< ln of a second sheet's paper against the first one's, each channel
  double huber_limit = 2.5, expected_median = 0.8;
  int robust_from_iteration = 3;
  int most_iterations = 40;
};

struct PatchRow {
  SheetPixel sample;
  Lab reference;
  Matrix3 metric_root;     ///< W at the reference
  double sigma = 1;        ///< dE00
  Vector3 reference_sd{};  ///< standard uncertainty of the reference, Lab
};

struct FitInput {
  std::vector<PatchRow> patches;
  std::vector<SheetPixel> paper;
  std::vector<SheetPixel> other_paper;  ///< of a second sheet: of another colour, under the same light
  Surroundings surroundings;            ///< empty: no local tone mapping is looked for
};

struct FitOutcome {
  CameraModel model;
  Eigen::MatrixXd covariance;  ///< of the parameters, (J^T J)^-1 with robust weights and priors
  Eigen::MatrixXd
      reference_covariance;           ///< of the parameters, from the patches' reference uncertainties alone
  std::vector<double> patch_weights;  ///< robust, in (0, 1]
  std::vector<double> paper_weights;  ///< of the paper, from its last residuals: how far each place is
                                      ///< believed to show the light
  std::vector<Lab> patch_lab;         ///< fitted
  std::vector<Lab> leave_one_out;     ///< Lab residual (fitted - reference) had the patch not taken part
  std::vector<double>
      paper_rest;  ///< ln light that the lighting field leaves at each paper place, mean of the channels
  int iterations = 0;
  bool converged = false;
};

/// Values are not checked: `calibrate` has seen to enough patches before.
FitOutcome fit_camera_model(const FitInput& input, bool display_referred, double sheet_width_mm,
                            double sheet_height_mm, int field_order, const FitConstants& constants);

}  // namespace colorlib
