#include <cmath>
#include <colorlib/base/distribution_quantiles.hpp>
#include <colorlib/comparison/combined_uncertainty.hpp>

namespace colorlib {

CombinedUncertainty combined(const std::vector<UncertaintyPart>& parts) {
  double variance = 0, spread = 0;
  for (const auto& part : parts) {
    const double square = part.standard * part.standard;
    variance += square;
    if (std::isfinite(part.degrees_of_freedom)) spread += square * square / part.degrees_of_freedom;
  }
  CombinedUncertainty result;
  result.standard = std::sqrt(variance);
  result.effective_dof = spread > 0 ? variance * variance / spread : std::numeric_limits<double>::infinity();
  result.half_width_95 = variance > 0 ? student_quantile(0.975, result.effective_dof) * result.standard : 0.0;
  return result;
}

}  // namespace colorlib
