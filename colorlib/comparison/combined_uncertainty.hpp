#pragma once
/// Standard uncertainties that come from different numbers of readings, added up.

#include <limits>
#include <vector>

namespace colorlib {

/// One independent part. Unit: that of the quantity.
struct UncertaintyPart {
  double standard = 0;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();  ///< infinite: known, not estimated
};

struct CombinedUncertainty {
  double standard = 0;       ///< u_c
  double effective_dof = 0;  ///< Welch-Satterthwaite [JCGM100, eq. G.2b]; infinite when all are
  double half_width_95 = 0;  ///< t(0.975, effective_dof) u_c
};

/// Parts of 0 count for nothing; with none left everything is 0 and the degrees of freedom infinite.
CombinedUncertainty combined(const std::vector<UncertaintyPart>& parts);

}  // namespace colorlib
