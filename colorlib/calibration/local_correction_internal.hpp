#pragma once
/// What the fit still gets wrong near a printed colour, borrowed from the patches around it: Gaussian-process
/// regression of the patches' Lab residuals, weak on purpose. Only for print: grown pigments do not share the
/// inks' residuals.

#include <Eigen/Dense>
#include <colorlib/colorimetry/color_types.hpp>
#include <vector>

namespace colorlib {

class LocalCorrection {
 public:
  /// Prior variance of the residual surface, relative to the residuals' own noise; a strong one (3) raises
  /// the tails.
  static constexpr double relative_variance = 0.3;
  static constexpr double length_lab = 25;

  LocalCorrection() = default;
  /// `residuals` are fitted - reference in Lab at `places`; `weights` the robust weights of the patches.
  LocalCorrection(std::vector<Lab> places, const std::vector<Lab>& residuals,
                  const std::vector<double>& weights);
  /// The expected residual at a colour: subtract it.
  Vector3 at(const Lab& lab) const;

 private:
  std::vector<Lab> places_;
  Eigen::MatrixX3d coefficients_;
};

}  // namespace colorlib
