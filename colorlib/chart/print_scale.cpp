#include <fmt/format.h>

#include <cmath>
#include <colorlib/chart/print_scale.hpp>

namespace colorlib {

PrintScale print_scale_from(double measured_mm) {
  PrintScale result;
  result.scale = measured_mm / printed_ruler_mm;
  result.true_to_size = std::abs(measured_mm - printed_ruler_mm) <= print_scale_tolerance_mm;
  result.set_percent = 100 / result.scale;
  result.advice =
      result.true_to_size
          ? "The print is true to size."
          : fmt::format(
                "The print is {:.1f} % of its size: print again with 'actual size' or 100 %, or set {:.1f} % "
                "where the printer allows it.",
                100 * result.scale, result.set_percent);
  return result;
}

}  // namespace colorlib
