#pragma once
/// How much mirrored light each pixel of a region holds, and the first look that takes what leaves little
/// doubt.

#include <colorlib/calibration/specular_body_internal.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <vector>

namespace colorlib::specular {

// Foil in a gap returns at least this share of a white.
constexpr double dimmest_mirror = 0.45;

/// How much light, and how much less body, the middle of a neighbourhood holds: linear in the departures from
/// the body.
struct Estimator {
  using Weights = Eigen::Matrix<double, 1, 3 * side>;
  Weights added, missing;
  double added_sd = 0, missing_sd = 0;  ///< of what is left unknown
  Weights gap;                          ///< a where s is `dimmest_mirror` times a
  double gap_sd = 0;
};

/// What the estimator says of one pixel; certainties in standard deviations above 0.
struct Fit {
  double added = 0, missing = 0, gap = 0;  ///< certainties of s and a, and of a where s is foil's share of it
  double certainty = 0;                    ///< of the fit that fits
  double effect = 0;   ///< dE00 by which that fit moves the body; 0 when it adds hardly any light
  double away = 0;     ///< squared Mahalanobis distance of the pixel itself from the body
  bool glare = false;  ///< so bright that its tint does not matter
};

struct FirstLook {
  Estimator estimator;
  std::vector<Fit> fits;    ///< effects are worked out wherever s is above 0
  std::vector<bool> found;  ///< pixels whose neighbourhood alone leaves little doubt
};
/// Twice: with what is expected of neighbours' likeness, then with that of the pixels found.
FirstLook first_look(const Region& region, const Body& body, const PatchMatrix& scatter, bool developed);

/// XYZ over white -> Lab.
Lab lab_of_relative(const Eigen::Vector3d& t);
/// The body with a share missing and neutral light added.
Eigen::Vector3d mixed(const Body& body, double missing, double added);

}  // namespace colorlib::specular
