#include <cmath>
#include <colorlib/calibration/color_correction.hpp>

namespace colorlib {

RootTerms root_terms(const std::array<double, 3>& rgb) {
  const auto [r, g, b] = rgb;
  return {r, g, b, std::sqrt(r * g), std::sqrt(g * b), std::sqrt(r * b)};
}

std::array<std::array<double, 3>, root_term_count> root_term_log_slopes(const RootTerms& t) {
  return {{{t[0], 0, 0},
           {0, t[1], 0},
           {0, 0, t[2]},
           {t[3] / 2, t[3] / 2, 0},
           {0, t[4] / 2, t[4] / 2},
           {t[5] / 2, 0, t[5] / 2}}};
}

}  // namespace colorlib
