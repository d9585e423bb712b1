#pragma once
/// Under which illuminant and for which observer a file's colours were computed; private to
/// reference_values.cpp.

#include <colorlib/chart/reference_sheet_internal.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <optional>
#include <string>

namespace colorlib {

struct ReferenceConditions {
  std::string illuminant;  ///< as stated, in capitals ("D65"); empty when nothing is said
  std::optional<White>
      white;  ///< of the stated illuminant for the 2 degree observer; none: unknown to this program
  int observer_deg = 0;       ///< 2 or 10; 0 when nothing is said
  std::string contradiction;  ///< not empty when the file states two illuminants or two observers

  /// D50 and 2 degree, stated or by default.
  bool as_needed() const {
    return contradiction.empty() && observer_deg != 10 && (illuminant.empty() || illuminant == "D50");
  }
};

/// From WEIGHTING_FUNCTION, ILLUMINANT, OBSERVER and the like; DESCRIPTOR prose counts only where those are
/// silent.
ReferenceConditions conditions_of(const ReferenceSheet& sheet);

}  // namespace colorlib
