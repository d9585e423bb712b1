#pragma once
/// Whether a sheet came out of the printer true to size.

#include <string>

namespace colorlib {

/// The ruler drawn on every sheet has this length.
inline constexpr double printed_ruler_mm = 50;
/// More than this off, and the scale was not 100 %: half a millimetre is what a ruler can tell.
inline constexpr double print_scale_tolerance_mm = 0.5;

struct PrintScale {
  double scale = 1;  ///< measured over drawn length
  bool true_to_size = true;
  double set_percent = 100;  ///< what to set in the printer's dialog to make it true
  std::string advice;
};

/// `measured_mm`: what the printed ruler measures, above 0.
PrintScale print_scale_from(double measured_mm);

}  // namespace colorlib
