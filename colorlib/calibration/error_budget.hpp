#pragma once
/// The parts of a reading's Lab covariance, and what they come to as one colour difference.

#include <colorlib/calibration/lack_of_fit.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <string>
#include <vector>

namespace colorlib {

/// One part of the error budget (JCGM 100: a component of the combined standard uncertainty, here 3x3).
struct BudgetComponent {
  std::string name;      ///< "lack-of-fit", "light", "coefficients", "reference", "glint", "black-level",
                         ///< "noise", "light-rest", "paper-glow", "local-tone", "edge", "foreign-matter",
                         ///< "off-plane";
                         ///< of photos read together "repeatability", of a video frame "carried"
  Matrix3 covariance{};  ///< of (L*, a*, b*)
};

/// Constants of the budget, calibrated as a set on simulated scenes: do not change one alone.
/// See docs/explanation/uncertainty.md.
struct BudgetConstants {
  LackOfFit developed{
      .share = {0.720, 0.590, 0.756},
      .growth = {0, 0.720, 1.044},
      .floor = {0.032, 0.047, 0.047},
      .coefficients = 0.65,
      .estimated = {.lamp = {0, 0.84, 0.71}, .tube = {0, 0.13, 0.11}, .mixed = {0, 0.28, 0.24}},
      .said = {.daylight = {0, 0.22, 0.19},
               .lamp = {0, 0.60, 0.51},
               .tube = {0, 0.51, 0.43},
               .mixed = {0, 0.29, 0.25}}};
  /// No tone curve blurs the patches' disagreement, so the same residual says more.
  LackOfFit linear{.share = {1.23, 0.90, 1.14},
                   .growth = {0, 0.27, 1.85},
                   .floor = {0.062, 0.152, 0.162},
                   .coefficients = 0.38,
                   .lamp_power = 8,
                   .estimated = {.lamp = {0, 0.65, 0.55}, .mixed = {0, 0.15, 0.13}},
                   .said = {.daylight = {0, 0.05, 0.04},
                            .lamp = {0, 0.62, 0.53},
                            .tube = {0, 0.50, 0.43},
                            .mixed = {0, 0.17, 0.14}}};
  double pooled_patches = 3;  ///< how many patches the plain mean counts for beside the near ones
  double near_lab = 30;       ///< how near is near
  double clip_robust_sd = 4;  ///< of leave-one-out residuals
  double least_residual_share =
      0.06;  ///< of their squares, when the references' own uncertainty would explain more
  /// Standard deviation of ln light from the smooth remains r on the paper round the reading: light_rest r (1
  /// + (r / light_step)^2). Where the paper shows a step, the specimen's own light is less known than the
  /// paper's remains are large.
  double light_rest = 1.35, light_step = 0.06;
  double glint_de00 = 1.2;      ///< L* error, in S_L, at a glint share of 1
  double black_level = 3.0e-4;  ///< relative to white
  /// Bare paper that reads bluer than `plain_paper_b` less `plain_paper_spread` holds optical brightener: its
  /// glow, and that of the ink-covered paper, stands in the reference values as strong as the instrument's
  /// ultraviolet made it, in the photo as strong as the light's. `glow_ratio` is the standard deviation of
  /// one against the other: specimens do not glow.
  double plain_paper_b = 0.9, plain_paper_spread = 1.0;
  double glow_ratio = 0.35;
  /// Of an emission at 440 nm: X over Xn for each Z over Zn (CIE 1931 observer: 0.348 / 0.964 over 1.747 /
  /// 0.825).
  double glow_x_share = 0.17;
  /// L* left over of local tone mapping, in relative light for each ln of the strength found: phones follow
  /// edges that the smoothed surroundings do not.
  double local_tone_rest = 0.08;
  /// Of the standard uncertainties in a reference file made by `chart transfer`: how much of them is common
  /// to patches of like colour, and so moves a reading as a whole.
  double transferred = 0.5;
  double nominal_cast =
      0.4;  ///< Lab units: a printer's common cast, when no patch was measured; in "reference"
};

/// The square roots of the diagonal, times 2: expanded uncertainty (k = 2) of each coordinate.
Vector3 expanded_uncertainty(const Matrix3& lab_covariance);

/// 95 % quantile of dE00 between truth and reading when truth - reading ~ N(0, covariance): the quadratic
/// form is approximated by a gamma distribution of the same mean and variance (Satterthwaite); within 5 % of
/// Monte Carlo for uncertainties below 5.
double expanded_de00(const Lab& lab, const Matrix3& lab_covariance);

/// `K`: dLab/d(X, Y, Z) of a proportional change of light by 1: the direction that height and slope move a
/// reading in.
Vector3 proportional_light_direction(const Lab& lab);

/// v v^T.
Matrix3 outer(const Vector3& v);

}  // namespace colorlib
